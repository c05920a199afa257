#include "evidence-core/judgement/index.h"

#include <charconv>

namespace evidence::judgement {

namespace {

template <class Table>
auto found(const Table& table, std::string_view id) -> typename Table::mapped_type {
    const auto at = table.find(id);
    return at == table.end() ? nullptr : at->second;
}

template <class Record>
auto byId(const std::vector<Record>& records) {
    std::map<std::string, const Record*, std::less<>> table;
    for (const auto& record : records) table.emplace(record.id.text, &record);
    return table;
}

}  // namespace

Index::Index(const record::Register& reg)
    : m_reg(reg),
      m_dimensions(byId(reg.dimensions)),
      m_particulars(byId(reg.particulars)),
      m_readings(byId(reg.readings)),
      m_sources(byId(reg.sources)),
      m_marks(byId(reg.marks)),
      m_frames(byId(reg.frames)),
      m_relations(byId(reg.relations)),
      m_sharedErrors(byId(reg.sharedErrors)),
      m_states(byId(reg.states)),
      m_people(byId(reg.people)) {
    for (const auto& dimension : reg.dimensions)
        if (dimension.code) m_dimensionsByCode.emplace(*dimension.code, &dimension);
    for (const auto& source : reg.sources)
        for (const auto& file : source.files) m_sourcesByFile.emplace(file.id.text, &source);
    for (const auto& reading : reg.readings) m_readingsOf[reading.of.text].push_back(&reading);
}

const record::Dimension* Index::dimension(std::string_view id) const {
    return found(m_dimensions, id);
}
const record::Particular* Index::particular(std::string_view id) const {
    return found(m_particulars, id);
}
const record::Reading* Index::reading(std::string_view id) const {
    return found(m_readings, id);
}
const record::Source* Index::source(std::string_view id) const {
    return found(m_sources, id);
}
const record::Mark* Index::mark(std::string_view id) const {
    return found(m_marks, id);
}
const record::Frame* Index::frame(std::string_view id) const {
    return found(m_frames, id);
}
const record::Relation* Index::relation(std::string_view id) const {
    return found(m_relations, id);
}
const record::SharedError* Index::sharedError(std::string_view id) const {
    return found(m_sharedErrors, id);
}
const record::State* Index::state(std::string_view id) const {
    return found(m_states, id);
}
const record::Person* Index::person(std::string_view id) const {
    return found(m_people, id);
}
const record::Dimension* Index::dimensionByCode(std::string_view code) const {
    return found(m_dimensionsByCode, code);
}
const record::Source* Index::sourceOfFile(std::string_view file) const {
    return found(m_sourcesByFile, file);
}

const record::Mark* Index::markOf(const record::Reading& reading) const {
    if (reading.mark) return mark(reading.mark->text);
    if (reading.between) return mark((*reading.between)[0].text);
    return nullptr;
}

const record::Source* Index::sourceOf(const record::Reading& reading) const {
    if (reading.source) return source(reading.source->text);
    if (const auto* seen = markOf(reading)) return sourceOfFile(seen->file.text);
    if (reading.frame)
        if (const auto* through = frame(reading.frame->text))
            return sourceOfFile(through->file.text);
    if (reading.at) return sourceOfFile(reading.at->file.text);
    return nullptr;
}

Index::FrameReference Index::reference(std::string_view leaf) const {
    const auto slash = leaf.rfind('/');
    if (slash == std::string_view::npos) return {};
    const auto* through = frame(leaf.substr(0, slash));
    std::size_t number = 0;
    const auto digits = leaf.substr(slash + 1);
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    if (!through || error != std::errc{} || end != digits.data() + digits.size() ||
        number >= through->references.size())
        return {};
    return {through, &through->references[number], number};
}

const std::vector<const record::Reading*>& Index::readingsOf(std::string_view id) const {
    static const std::vector<const record::Reading*> none;
    const auto at = m_readingsOf.find(id);
    return at == m_readingsOf.end() ? none : at->second;
}

int Index::stateOrder(const record::StateId& id) const {
    for (std::size_t i = 0; i < m_reg.states.size(); ++i)
        if (m_reg.states[i].id == id) return static_cast<int>(i);
    return -1;
}

}  // namespace evidence::judgement
