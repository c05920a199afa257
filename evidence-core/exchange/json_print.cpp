#include "evidence-core/exchange/json_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evidence::exchange {

JsonNumber JsonNumber::of(double value) {
    assert(std::isfinite(value));
    // -0.0 and 0.0 are one number and print alike.
    return {value, value == 0.0 ? "0" : fmt::format("{}", value)};
}

JsonNumber JsonNumber::of(std::int64_t value) {
    return {static_cast<double>(value), std::to_string(value)};
}

const Json* Json::find(std::string_view key) const {
    const auto* object = as<Object>();
    if (!object) return nullptr;
    const auto found = std::ranges::find(*object, key, &Member::first);
    return found == object->end() ? nullptr : &found->second;
}

std::string_view typeName(const Json& json) {
    struct Visitor {
        std::string_view operator()(std::nullptr_t) const { return "null"; }
        std::string_view operator()(bool) const { return "true or false"; }
        std::string_view operator()(const JsonNumber&) const { return "a number"; }
        std::string_view operator()(const std::string&) const { return "a text"; }
        std::string_view operator()(const Json::Array&) const { return "a list"; }
        std::string_view operator()(const Json::Object&) const { return "an object"; }
    };
    return std::visit(Visitor{}, json.value);
}

namespace {

void printText(const std::string& text, std::string& out) {
    out += '"';
    for (const char c : text) {
        switch (c) {
            case '"':
                out += "\\\"";
                break;
            case '\\':
                out += "\\\\";
                break;
            case '\n':
                out += "\\n";
                break;
            case '\r':
                out += "\\r";
                break;
            case '\t':
                out += "\\t";
                break;
            default:
                if (static_cast<unsigned char>(c) < 0x20)
                    out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
                else
                    out += c;
        }
    }
    out += '"';
}

bool isPlain(const Json& json) {
    return !json.as<Json::Array>() && !json.as<Json::Object>();
}

class Printer {
  public:
    Printer(Layout layout, std::string& out) : m_indented(layout == Layout::Indented), m_out(out) {}

    void print(const Json& json) {
        if (json.as<std::nullptr_t>()) m_out += "null";
        if (const auto* truth = json.as<bool>()) m_out += *truth ? "true" : "false";
        if (const auto* number = json.as<JsonNumber>()) m_out += number->text;
        if (const auto* text = json.as<std::string>()) printText(*text, m_out);
        if (const auto* list = json.as<Json::Array>()) printList(*list);
        if (const auto* object = json.as<Json::Object>()) printObject(*object);
    }

  private:
    void printList(const Json::Array& list) {
        const bool oneLine = std::ranges::all_of(list, isPlain);
        m_out += '[';
        ++m_depth;
        bool first = true;
        for (const auto& item : list) {
            if (!first) m_out += (m_indented && oneLine) ? ", " : ",";
            if (!oneLine) breakLine();
            print(item);
            first = false;
        }
        --m_depth;
        if (!oneLine) breakLine();
        m_out += ']';
    }
    void printObject(const Json::Object& object) {
        m_out += '{';
        ++m_depth;
        bool first = true;
        for (const auto& [key, item] : object) {
            if (!first) m_out += ',';
            breakLine();
            printText(key, m_out);
            m_out += m_indented ? ": " : ":";
            print(item);
            first = false;
        }
        --m_depth;
        if (!object.empty()) breakLine();
        m_out += '}';
    }
    void breakLine() {
        if (!m_indented) return;
        m_out += '\n';
        m_out.append(2 * m_depth, ' ');
    }

    bool m_indented;
    std::size_t m_depth = 0;
    std::string& m_out;
};

}  // namespace

std::string printJson(const Json& json, Layout layout) {
    std::string out;
    Printer(layout, out).print(json);
    if (layout == Layout::Indented) out += '\n';
    return out;
}

std::string pointerTo(std::string_view path, std::string_view key) {
    std::string pointer(path);
    pointer += '/';
    for (const char c : key) {
        if (c == '~')
            pointer += "~0";
        else if (c == '/')
            pointer += "~1";
        else
            pointer += c;
    }
    return pointer;
}

std::string pointerTo(std::string_view path, std::size_t index) {
    return fmt::format("{}/{}", path, index);
}

bool isPlainUtf8(std::string_view text) {
    const auto byteAt = [&](std::size_t i) -> unsigned {
        return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
    };
    const auto follows = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
        return byteAt(i) >= low && byteAt(i) <= high;
    };
    for (std::size_t i = 0; i < text.size();) {
        const unsigned lead = byteAt(i);
        if (lead == 0) return false;
        if (lead < 0x80) {
            i += 1;
        } else if (lead >= 0xC2 && lead <= 0xDF && follows(i + 1)) {
            i += 2;
        } else if (lead >= 0xE0 && lead <= 0xEF &&
                   follows(i + 1, lead == 0xE0 ? 0xA0 : 0x80, lead == 0xED ? 0x9F : 0xBF) &&
                   follows(i + 2)) {
            i += 3;
        } else if (lead >= 0xF0 && lead <= 0xF4 &&
                   follows(i + 1, lead == 0xF0 ? 0x90 : 0x80, lead == 0xF4 ? 0x8F : 0xBF) &&
                   follows(i + 2) && follows(i + 3)) {
            i += 4;
        } else {
            return false;
        }
    }
    return true;
}

}  // namespace evidence::exchange
