#include "evidence-core/exchange/write_document.h"

#include "evidence-core/exchange/json_text.h"
#include "evidence-core/exchange/to_json.h"

#include <cassert>

namespace evidence::exchange {

namespace {

std::string extensionOf(const std::string& name) {
    constexpr std::size_t kLongest = 8;
    const auto dot = name.find_last_of("./\\");
    if (dot == std::string::npos || name[dot] != '.' || dot == 0) return {};
    std::string extension;
    for (const char c : name.substr(dot + 1)) {
        if (c >= 'A' && c <= 'Z')
            extension += static_cast<char>(c - 'A' + 'a');
        else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            extension += c;
        else
            return {};
    }
    return extension.size() <= kLongest ? extension : std::string{};
}

}  // namespace

std::string originalsPath(const record::File& file) {
    assert(file.sha256);
    std::string extension = extensionOf(file.originalName.value_or(""));
    if (extension.empty()) extension = extensionOf(file.path);
    return "originals/" + *file.sha256 + (extension.empty() ? "" : "." + extension);
}

std::string writeDocument(const record::Register& reg) {
    Json::Object document;
    document.emplace_back("format", Json{std::string("lostlines-exchange")});
    document.emplace_back("version", toJson(1));
    document.emplace_back("archive", toJson(reg.archive));
    record::forEachTable(reg, [&](std::string_view name, const auto& table) {
        if (table.empty()) return;
        using Table = std::decay_t<decltype(table)>;
        if constexpr (std::is_same_v<Table, std::vector<record::Source>>) {
            Table sources = table;
            for (auto& source : sources)
                for (auto& file : source.files)
                    if (file.sha256) file.path = originalsPath(file);
            document.emplace_back(std::string(name), toJson(sources));
        } else {
            document.emplace_back(std::string(name), toJson(table));
        }
    });
    return printJson(Json{std::move(document)}, Layout::Indented);
}

}  // namespace evidence::exchange
