#include "evidence-core/network/register_index.h"

namespace evidence::network {

namespace {

template <class Map>
auto found(const Map& map, const std::string& key) -> typename Map::mapped_type {
    const auto it = map.find(key);
    return it == map.end() ? nullptr : it->second;
}

}  // namespace

RegisterIndex::RegisterIndex(const record::Register& reg) : m_reg(&reg) {
    for (const auto& s : reg.sources) {
        m_sources.emplace(s.id.text, &s);
        for (const auto& f : s.files) m_sourceOfFile.emplace(f.id.text, &s);
    }
    for (const auto& m : reg.marks) m_marks.emplace(m.id.text, &m);
    for (const auto& f : reg.frames) m_frames.emplace(f.id.text, &f);
    for (std::size_t i = 0; i < reg.dimensions.size(); ++i) {
        m_dimensions.emplace(reg.dimensions[i].id.text, i);
        if (reg.dimensions[i].code) m_dimensionsByCode.emplace(*reg.dimensions[i].code, i);
    }
}

const record::Source* RegisterIndex::source(const std::optional<record::SourceId>& id) const {
    return id ? found(m_sources, id->text) : nullptr;
}

const record::Source* RegisterIndex::sourceOfFile(const record::FileId& id) const {
    return found(m_sourceOfFile, id.text);
}

const record::Mark* RegisterIndex::mark(const record::MarkId& id) const {
    return found(m_marks, id.text);
}

const record::Frame* RegisterIndex::frame(const record::FrameId& id) const {
    return found(m_frames, id.text);
}

std::optional<std::size_t> RegisterIndex::dimension(const std::string& id) const {
    const auto it = m_dimensions.find(id);
    if (it == m_dimensions.end()) return std::nullopt;
    return it->second;
}

std::optional<std::size_t> RegisterIndex::dimensionNamed(std::string_view codeOrId) const {
    const auto it = m_dimensionsByCode.find(std::string(codeOrId));
    if (it != m_dimensionsByCode.end()) return it->second;
    return dimension(std::string(codeOrId));
}

}  // namespace evidence::network
