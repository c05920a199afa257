#include "evidence-core/judgement/thread_routes.h"

#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <cctype>
#include <deque>

namespace evidence::judgement {

namespace {

/// Ids of the dimensions whose codes stand in a formula.
std::vector<std::string> dimensionsIn(const Index& index, const std::string& formula) {
    std::vector<std::string> ids;
    for (std::size_t i = 0; i < formula.size();) {
        std::size_t end = i;
        while (end < formula.size() &&
               (std::isalnum(static_cast<unsigned char>(formula[end])) != 0 || formula[end] == '_'))
            ++end;
        if (end == i) {
            ++i;
            continue;
        }
        if (const auto* dimension = index.dimensionByCode(formula.substr(i, end - i)))
            ids.push_back(dimension->id.text);
        i = end;
    }
    return ids;
}

/// The record a part of a leaf's id belongs to: `r1/off_plane` → `r1`, `g1/print` → `g1`.
std::string ownerOf(const std::string& leaf) {
    return leaf.substr(0, leaf.find('/'));
}

}  // namespace

Routes::Routes(const Index& index, const std::string& target) : m_index(index) {
    const auto& reg = index.reg();
    for (const auto& reading : reg.readings)
        if (reading.frame && !reading.setAside)
            m_readingsThrough[reading.frame->text].push_back(reading.id.text);
    for (const auto& relation : reg.relations) {
        if (relation.setAside) continue;
        auto ids = dimensionsIn(index, relation.formula);
        for (const auto& id : ids) m_relationsOf[id].push_back(relation.id.text);
        m_dimensionsIn[relation.id.text] = std::move(ids);
    }
    for (const auto& shared : reg.sharedErrors)
        for (const auto& use : shared.on) m_sharedOn[use.record.text].push_back(shared.id.text);
    for (const auto& frame : reg.frames)
        for (std::size_t i = 0; i < frame.references.size(); ++i)
            if (frame.references[i].length.dimension)
                m_scalesBy[frame.references[i].length.dimension->text].push_back(
                    fmt::format("{}/{}", frame.id.text, i));

    m_distance[target] = 0;
    std::deque<std::string> open{target};
    while (!open.empty()) {
        const std::string id = open.front();
        open.pop_front();
        const bool behind = m_behindScale[id] || index.frame(id) != nullptr;
        for (const auto& neighbour : neighboursOf(id)) {
            if (m_distance.contains(neighbour)) continue;
            m_distance[neighbour] = m_distance[id] + 1;
            m_next[neighbour] = id;
            m_behindScale[neighbour] = behind;
            open.push_back(neighbour);
        }
    }
}

std::vector<std::string> Routes::neighboursOf(const std::string& id) const {
    std::vector<std::string> list;
    const auto append = [&](const std::map<std::string, std::vector<std::string>>& table) {
        if (const auto at = table.find(id); at != table.end())
            list.insert(list.end(), at->second.begin(), at->second.end());
    };
    if (m_index.dimension(id)) {
        for (const auto* reading : m_index.readingsOf(id))
            if (!reading->setAside) list.push_back(reading->id.text);
        append(m_relationsOf);
        append(m_scalesBy);
    } else if (const auto* reading = m_index.reading(id)) {
        if (reading->frame) list.push_back(reading->frame->text);
        list.push_back(reading->of.text);
        append(m_sharedOn);
    } else if (m_index.relation(id)) {
        append(m_dimensionsIn);
        append(m_sharedOn);
    } else if (const auto* frame = m_index.frame(id)) {
        for (std::size_t i = 0; i < frame->references.size(); ++i)
            list.push_back(fmt::format("{}/{}", id, i));
        append(m_readingsThrough);
    } else if (const auto reference = m_index.reference(id); reference.reference) {
        if (reference.reference->length.dimension)
            list.push_back(reference.reference->length.dimension->text);
        list.push_back(reference.frame->id.text);
        append(m_sharedOn);
    }
    return list;
}

std::vector<std::string> Routes::from(const std::string& leaf) const {
    std::vector<std::string> route;
    std::string at = leaf;
    if (!m_distance.contains(at)) {
        // A part of a record hangs on that record; a mark on the readings made with it.
        std::string owner = ownerOf(leaf);
        if (m_index.mark(leaf)) {
            owner.clear();
            int nearest = -1;
            for (const auto& reading : m_index.reg().readings) {
                const bool uses = (reading.mark && reading.mark->text == leaf) ||
                                  (reading.between && ((*reading.between)[0].text == leaf ||
                                                       (*reading.between)[1].text == leaf));
                const auto known = m_distance.find(reading.id.text);
                if (!uses || known == m_distance.end()) continue;
                if (nearest < 0 || known->second < nearest) {
                    nearest = known->second;
                    owner = reading.id.text;
                }
            }
        }
        if (owner.empty() || !m_distance.contains(owner)) return {};
        route.push_back(leaf);
        at = owner;
    }
    route.push_back(at);
    while (m_next.contains(at)) {
        at = m_next.at(at);
        route.push_back(at);
    }
    return route;
}

std::size_t Routes::nodeOf(const std::string& id, ThreadBuilder& builder) const {
    const auto behind = m_behindScale.find(id);
    const bool behindScale = behind != m_behindScale.end() && behind->second;
    if (const auto* reading = m_index.reading(id))
        return builder.readingNode(*reading,
                                   behindScale ? ThreadStage::Mark : ThreadStage::Reading);
    if (const auto* frame = m_index.frame(id)) return builder.scaleNode(*frame);
    if (const auto* dimension = m_index.dimension(id))
        return builder.node(id, behindScale ? ThreadStage::Scale : ThreadStage::Relation,
                            nameOf(*dimension), dimension->component.value_or(""));
    if (const auto* relation = m_index.relation(id))
        return builder.node(id, ThreadStage::Relation, nameOf(m_index, *relation),
                            relation->reason.value_or(""));
    const auto stage = m_index.mark(id) ? ThreadStage::Mark : ThreadStage::Scale;
    return builder.node(id, stage, sentence(nameOfLeaf(m_index, id)), "");
}

}  // namespace evidence::judgement
