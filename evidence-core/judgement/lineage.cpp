#include "evidence-core/judgement/lineage.h"

#include <algorithm>
#include <functional>
#include <numeric>

namespace evidence::judgement {

namespace {

bool ofThePeriod(const record::Source& source) {
    if (source.kind == record::SourceKind::Standard) return true;
    const auto authority = source.authority.value_or(record::Authority::Modern);
    return authority == record::Authority::Maker || authority == record::Authority::Eyewitness;
}

}  // namespace

Lineage::Lineage(const Index& index) {
    const auto& sources = index.reg().sources;

    std::vector<int> group(sources.size());
    std::iota(group.begin(), group.end(), 0);
    std::map<const record::Source*, int> position;
    for (std::size_t i = 0; i < sources.size(); ++i)
        position.emplace(&sources[i], static_cast<int>(i));
    const auto leaderOf = [&](int i) {
        while (group[static_cast<std::size_t>(i)] != i) i = group[static_cast<std::size_t>(i)];
        return i;
    };
    const auto join = [&](const record::Source& a, const record::Source* b) {
        if (b)
            group[static_cast<std::size_t>(leaderOf(position.at(&a)))] = leaderOf(position.at(b));
    };
    for (const auto& source : sources) {
        for (const auto& descent : source.descends) {
            join(source, index.source(descent.from.text));
            if (descent.as == record::DescentKind::ThisArchive) m_backToUs.insert(&source);
        }
        if (source.replaces) {
            const auto* earlier = index.source(source.replaces->text);
            join(source, earlier);
            if (earlier) m_replacedBy.emplace(earlier, &source);
        }
    }
    for (std::size_t i = 0; i < sources.size(); ++i)
        m_origin.emplace(&sources[i], leaderOf(static_cast<int>(i)));

    // The descent is acyclic by contract; the visited set only keeps a broken register from
    // running for ever.
    for (const auto& source : sources) {
        std::set<const record::Source*> visited;
        std::set<std::string> roots;
        int nearest = 0;
        bool nearestKnown = false;
        const std::function<void(const record::Source&, int)> climb = [&](const record::Source& at,
                                                                          int steps) {
            if (!visited.insert(&at).second) return;
            if (m_backToUs.contains(&at)) m_backToUs.insert(&source);
            bool isRoot = true;
            for (const auto& descent : at.descends)
                if (const auto* parent = index.source(descent.from.text)) {
                    isRoot = false;
                    climb(*parent, steps + 1);
                }
            if (!isRoot) return;
            roots.insert(at.id.text);
            nearest = nearestKnown ? std::min(nearest, steps) : steps;
            nearestKnown = true;
        };
        climb(source, 0);
        auto& list = m_roots[&source];
        for (const auto& id : roots) list.push_back(index.source(id));
        m_steps[&source] = nearest;
    }
}

const std::vector<const record::Source*>& Lineage::rootsOf(const record::Source& source) const {
    return m_roots.at(&source);
}

bool Lineage::speaksFromThePeriod(const record::Source& source) const {
    return std::ranges::any_of(rootsOf(source),
                               [](const record::Source* root) { return ofThePeriod(*root); });
}

int Lineage::originOf(const record::Source& source) const {
    return m_origin.at(&source);
}

bool Lineage::goesBackToUs(const record::Source& source) const {
    return m_backToUs.contains(&source);
}

const record::Source* Lineage::replacedBy(const record::Source& source) const {
    const auto at = m_replacedBy.find(&source);
    return at == m_replacedBy.end() ? nullptr : at->second;
}

int Lineage::stepsToRoot(const record::Source& source) const {
    return m_steps.at(&source);
}

}  // namespace evidence::judgement
