#include "evidence-core/record/lookup.h"

#include <charconv>
#include <cstdint>

namespace evidence::record {

const Source* sourceOf(const Register& reg, const FileId& file) {
    const auto has = [&](const Source& source) {
        return std::ranges::find(source.files, file, &File::id) != source.files.end();
    };
    const auto found = std::ranges::find_if(reg.sources, has);
    return found == reg.sources.end() ? nullptr : &*found;
}

namespace {

/// Calls `visit` for every record that can have a code.
template <class Visit>
void forEachCoded(const Register& reg, Visit&& visit) {
    for (const auto& source : reg.sources) visit(source);
    for (const auto& dimension : reg.dimensions) visit(dimension);
    for (const auto& particular : reg.particulars) visit(particular);
}

}  // namespace

std::optional<AnyId> byCodeOrId(const Register& reg, std::string_view name) {
    std::optional<AnyId> byCode;
    std::optional<AnyId> byId;
    forEachCoded(reg, [&](const auto& record) {
        if (!byCode && record.code == name) byCode = any(record.id);
        if (!byId && record.id.text == name) byId = any(record.id);
    });
    return byCode ? byCode : byId;
}

RegisterIndex::RegisterIndex(const Register& reg) {
    forEachTable(reg, [&](std::string_view, const auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        for (std::size_t i = 0; i < table.size(); ++i) {
            m_entries.try_emplace(table[i].id.text, Entry{KindOf<Record>, i});
            if constexpr (std::is_same_v<Record, Source>)
                for (const auto& file : table[i].files)
                    m_entries.try_emplace(file.id.text, Entry{Kind::File, i});
        }
    });
}

const RegisterIndex::Entry* RegisterIndex::find(std::string_view id) const {
    const auto found = m_entries.find(id);
    return found == m_entries.end() ? nullptr : &found->second;
}

std::optional<Kind> RegisterIndex::kindOf(const AnyId& id) const {
    const Entry* entry = find(id.text);
    return entry ? std::optional(entry->kind) : std::nullopt;
}

std::string nextCode(const Register& reg, char letter) {
    std::uint64_t highest = 0;
    forEachCoded(reg, [&](const auto& record) {
        if (!record.code || record.code->size() < 2 || record.code->front() != letter) return;
        std::uint64_t number = 0;
        const char* end = record.code->data() + record.code->size();
        const auto [stop, error] = std::from_chars(record.code->data() + 1, end, number);
        if (error == std::errc{} && stop == end) highest = std::max(highest, number);
    });
    return letter + std::to_string(highest + 1);
}

}  // namespace evidence::record
