#include "evidence-core/judgement/content.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <memory>
#include <stdexcept>
#include <string_view>
#include <type_traits>

namespace evidence::judgement {

namespace {

using record::Described;
using record::Named;

/// Writes any described record, leaving out the keys that are no evidence.
class ContentWriter {
  public:
    ContentWriter(const Stand& stand, std::vector<std::string_view> leftOut)
        : m_stand(stand), m_leftOut(std::move(leftOut)) {}

    template <Described Record>
    [[nodiscard]] std::string text(const Record& record) const {
        std::string out = "{";
        record::forEachField(record, [&](std::string_view key, const auto& member) {
            if (std::ranges::find(m_leftOut, key) != m_leftOut.end()) return;
            const std::string value = text(member);
            if (!value.empty()) out += fmt::format("{}:{};", key, value);
        });
        return out + "}";
    }

    template <class Tag>
    [[nodiscard]] std::string text(const record::Id<Tag>& id) const {
        return m_stand(id.text);
    }
    template <class T>
    [[nodiscard]] std::string text(const std::optional<T>& value) const {
        return value ? text(*value) : std::string{};
    }
    template <Named E>
    [[nodiscard]] std::string text(E value) const {
        return std::string(record::nameOf(value));
    }
    template <class T>
    [[nodiscard]] std::string text(const std::vector<T>& list) const {
        if (list.empty()) return {};
        std::vector<std::string> parts;
        for (const auto& item : list) parts.push_back(text(item));
        // Points and covariances mean something by their order; lists of records do not.
        if constexpr (Described<T> || std::is_same_v<T, record::MarkId> ||
                      std::is_same_v<T, record::StateId> || std::is_same_v<T, record::AnyId>)
            std::ranges::sort(parts);
        return fmt::format("[{}]", fmt::join(parts, ","));
    }
    template <class T, std::size_t N>
    [[nodiscard]] std::string text(const std::array<T, N>& list) const {
        std::vector<std::string> parts;
        for (const auto& item : list) parts.push_back(text(item));
        return fmt::format("[{}]", fmt::join(parts, ","));
    }
    template <class... T>
    [[nodiscard]] std::string text(const std::variant<T...>& value) const {
        return std::visit([this](const auto& held) { return text(held); }, value);
    }
    // A number's text counts, because its last decimal is its resolution.
    [[nodiscard]] std::string text(const record::Number& number) const {
        return number.text.empty() ? text(number.value) : number.text;
    }
    [[nodiscard]] std::string text(const record::PixelPoint& p) const {
        return fmt::format("({},{})", p.x, p.y);
    }
    [[nodiscard]] std::string text(double value) const { return fmt::format("{}", value); }
    [[nodiscard]] std::string text(int value) const { return fmt::format("{}", value); }
    [[nodiscard]] std::string text(bool value) const { return value ? "true" : "false"; }
    [[nodiscard]] std::string text(const std::string& value) const {
        return fmt::format("\"{}:{}\"", value.size(), value);
    }
    // A file is its bytes.
    [[nodiscard]] std::string text(const record::File& file) const {
        return file.sha256.value_or(std::string{});
    }

  private:
    const Stand& m_stand;
    std::vector<std::string_view> m_leftOut;
};

}  // namespace

std::string contentOf(const record::Source& source, const Stand& stand) {
    return ContentWriter(stand,
                         {"id", "code", "title", "date_text", "holder", "call_number", "rights",
                          "may_print", "location", "kept_how", "notes", "reason", "replaces"})
        .text(source);
}

std::string contentOf(const record::Mark& mark, const Stand& stand) {
    return ContentWriter(stand, {"id", "note", "seen"}).text(mark);
}

std::string contentOf(const record::Frame& frame, const Stand& stand) {
    return ContentWriter(stand, {"id", "reason", "references"}).text(frame);
}

std::string contentOf(const record::Reference& reference, const Stand& stand) {
    return ContentWriter(stand, {"reason"}).text(reference);
}

std::string contentOf(const record::Dimension& dimension, const Stand& stand) {
    return ContentWriter(
               stand, {"id", "code", "name", "component", "unit", "tolerance", "critical", "note"})
        .text(dimension);
}

std::string contentOf(const record::Particular& particular, const Stand& stand) {
    return ContentWriter(stand, {"id", "code", "name", "component", "note"}).text(particular);
}

std::string contentOf(const record::Reading& reading, const Stand& stand) {
    return ContentWriter(stand, {"id", "of", "excerpt", "at", "reason", "by", "on"}).text(reading);
}

std::string contentOf(const record::SharedError& shared, const Stand& stand) {
    return ContentWriter(stand, {"id", "label"}).text(shared);
}

std::string contentOf(const record::Relation& relation, const Index& index, const Stand& stand) {
    std::string formula;
    const auto& written = relation.formula;
    for (std::size_t i = 0; i < written.size();) {
        if (std::isalpha(static_cast<unsigned char>(written[i])) == 0) {
            if (written[i] != ' ') formula += written[i];
            ++i;
            continue;
        }
        std::size_t end = i;
        while (end < written.size() &&
               (std::isalnum(static_cast<unsigned char>(written[end])) != 0 || written[end] == '_'))
            ++end;
        const std::string word = written.substr(i, end - i);
        const auto* dimension = index.dimensionByCode(word);
        formula += dimension ? stand(dimension->id.text) : word;
        i = end;
    }
    return ContentWriter(stand, {"id", "formula", "reason"}).text(relation) + formula;
}

std::string sha256Of(const std::string& text) {
    const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context(EVP_MD_CTX_new(),
                                                                          &EVP_MD_CTX_free);
    std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
    unsigned int length = 0;
    if (!context || EVP_DigestInit_ex(context.get(), EVP_sha256(), nullptr) != 1 ||
        EVP_DigestUpdate(context.get(), text.data(), text.size()) != 1 ||
        EVP_DigestFinal_ex(context.get(), bytes.data(), &length) != 1)
        throw std::runtime_error("libcrypto could not work out a SHA-256");
    std::string hex;
    for (unsigned int i = 0; i < length; ++i) hex += fmt::format("{:02x}", bytes[i]);
    return hex;
}

}  // namespace evidence::judgement
