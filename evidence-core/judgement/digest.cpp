#include "evidence-core/judgement/digest.h"

#include "evidence-core/judgement/content.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

namespace {

/// Fingerprints records with all they refer to; a broken register that refers in circles ends at
/// the record that is already open.
class Walk {
  public:
    Walk(const Index& index, std::map<std::string, std::string>& records)
        : m_index(index), m_records(records) {}

    std::string of(const std::string& id) {
        if (const auto known = m_records.find(id); known != m_records.end()) return known->second;
        if (!m_open.insert(id).second) return "circle";
        const Stand stand = [this](const std::string& other) { return of(other); };
        std::string text;
        if (const auto* source = m_index.source(id))
            text = "source" + contentOf(*source, stand);
        else if (const auto* state = m_index.state(id))
            text = fmt::format("state{}", m_index.stateOrder(state->id));
        else if (const auto* mark = m_index.mark(id))
            text = "mark" + contentOf(*mark, stand);
        else if (const auto* frame = m_index.frame(id))
            text = "frame" + contentOf(*frame, stand);
        else if (const auto* dimension = m_index.dimension(id))
            text = "dimension" + contentOf(*dimension, stand);
        else if (const auto* particular = m_index.particular(id))
            text = "particular" + contentOf(*particular, stand);
        else if (const auto* reading = m_index.reading(id))
            text = "reading" + contentOf(*reading, stand);
        else if (const auto* relation = m_index.relation(id))
            text = "relation" + contentOf(*relation, m_index, stand);
        else if (const auto* shared = m_index.sharedError(id))
            text = "shared" + contentOf(*shared, stand);
        else if (const auto reference = m_index.reference(id); reference.reference)
            text =
                "reference" + contentOf(*reference.reference, stand) + of(reference.frame->id.text);
        else if (const auto* file = m_index.sourceOfFile(id))
            text = fileText(*file, id);
        m_open.erase(id);
        if (text.empty()) return {};
        const std::string digest = sha256Of(text);
        m_records.emplace(id, digest);
        return digest;
    }

  private:
    std::string fileText(const record::Source& source, const std::string& id) {
        for (const auto& file : source.files)
            if (file.id.text == id) return "file" + file.sha256.value_or("") + of(source.id.text);
        return {};
    }

    const Index& m_index;
    std::map<std::string, std::string>& m_records;
    std::set<std::string> m_open;
};

/// The record or reference a leaf belongs to: `r1/off_plane` → `r1`, `g1/0` stays.
std::string ownerOf(const Index& index, const std::string& leaf) {
    if (index.reference(leaf).reference) return leaf;
    return leaf.substr(0, leaf.find('/'));
}

}  // namespace

Digests::Digests(const Index& index) : m_index(index) {
    Walk walk(index, m_records);
    const auto& reg = index.reg();
    for (const auto& source : reg.sources) walk.of(source.id.text);
    for (const auto& mark : reg.marks) walk.of(mark.id.text);
    for (const auto& frame : reg.frames) {
        walk.of(frame.id.text);
        for (std::size_t i = 0; i < frame.references.size(); ++i)
            walk.of(fmt::format("{}/{}", frame.id.text, i));
    }
    for (const auto& dimension : reg.dimensions) walk.of(dimension.id.text);
    for (const auto& particular : reg.particulars) walk.of(particular.id.text);
    for (const auto& reading : reg.readings) walk.of(reading.id.text);
    for (const auto& relation : reg.relations) walk.of(relation.id.text);
    for (const auto& shared : reg.sharedErrors) walk.of(shared.id.text);
    for (const auto& source : reg.sources)
        for (const auto& file : source.files) walk.of(file.id.text);
}

const std::string& Digests::ofRecord(const std::string& id) const {
    static const std::string none;
    const auto at = m_records.find(id);
    return at == m_records.end() ? none : at->second;
}

std::string Digests::ofDimension(const record::Dimension& dimension,
                                 const std::vector<std::string>& leaves) const {
    std::set<std::string> own;
    std::set<std::string> others;
    for (const auto* reading : m_index.readingsOf(dimension.id.text)) own.insert(reading->id.text);
    for (const auto& leaf : leaves) {
        const std::string owner = ownerOf(m_index, leaf);
        if (!own.contains(owner)) others.insert(owner);
    }
    // What another dimension stands for here: what it is and the readings that reach us through it.
    std::map<std::string, std::vector<std::string>> readingsOfOthers;
    for (const auto& id : others)
        if (const auto* reading = m_index.reading(id))
            readingsOfOthers[reading->of.text].push_back(ofRecord(id));
    const Stand stand = [&](const std::string& id) -> std::string {
        if (id == dimension.id.text) return "this";
        if (!m_index.dimension(id)) return ofRecord(id);
        std::string text = ofRecord(id);
        auto readings = readingsOfOthers[id];
        std::ranges::sort(readings);
        for (const auto& reading : readings) text += reading;
        return sha256Of(text);
    };
    std::vector<std::string> lines{"dimension " + ofRecord(dimension.id.text)};
    for (const auto& id : own) lines.push_back("own " + ofRecord(id));
    for (const auto& id : others) {
        if (const auto* relation = m_index.relation(id))
            lines.push_back("relation " + contentOf(*relation, m_index, stand));
        else if (const auto reference = m_index.reference(id); reference.reference)
            lines.push_back("reference " + contentOf(*reference.reference, stand) +
                            ofRecord(reference.frame->id.text));
        else if (const auto* shared = m_index.sharedError(id))
            lines.push_back("shared " + contentOf(*shared, stand));
        else if (!ofRecord(id).empty())
            lines.push_back("other " + ofRecord(id));
    }
    std::ranges::sort(lines);
    return sha256Of(fmt::format("{}", fmt::join(lines, "\n")));
}

std::string Digests::ofParticular(const record::Particular& particular) const {
    std::vector<std::string> lines{"particular " + ofRecord(particular.id.text)};
    for (const auto* reading : m_index.readingsOf(particular.id.text))
        lines.push_back("own " + ofRecord(reading->id.text));
    std::ranges::sort(lines);
    return sha256Of(fmt::format("{}", fmt::join(lines, "\n")));
}

}  // namespace evidence::judgement
