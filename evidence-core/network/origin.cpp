#include "evidence-core/network/origin.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <vector>

namespace evidence::network {

namespace {

using Parents = std::vector<std::vector<std::size_t>>;

std::size_t leaderOf(std::vector<std::size_t>& joined, std::size_t i) {
    while (joined[i] != i) {
        joined[i] = joined[joined[i]];
        i = joined[i];
    }
    return i;
}

bool isPeriod(const record::Source& s) {
    return s.kind == record::SourceKind::Standard || s.authority == record::Authority::Maker ||
           s.authority == record::Authority::Eyewitness;
}

/// Everything `start` descends from, itself included, with the fewest steps to each.
std::map<std::size_t, int> ancestors(const Parents& parents, std::size_t start) {
    std::map<std::size_t, int> steps{{start, 0}};
    std::vector<std::size_t> queue{start};
    for (std::size_t head = 0; head < queue.size(); ++head)
        for (const std::size_t p : parents[queue[head]])
            if (steps.emplace(p, steps[queue[head]] + 1).second) queue.push_back(p);
    return steps;
}

}  // namespace

Origins::Origins(std::span<const record::Source> sources) {
    const std::size_t n = sources.size();
    std::unordered_map<std::string, std::size_t> position;
    for (std::size_t i = 0; i < n; ++i) position.emplace(sources[i].id.text, i);

    Parents parents(n);
    std::vector<bool> ours(n, false);
    std::vector<std::size_t> joined(n);
    std::iota(joined.begin(), joined.end(), std::size_t{0});
    const auto join = [&](std::size_t a, std::size_t b) {
        joined[leaderOf(joined, a)] = leaderOf(joined, b);
    };
    for (std::size_t i = 0; i < n; ++i) {
        for (const auto& d : sources[i].descends) {
            if (d.as == record::DescentKind::ThisArchive) ours[i] = true;
            const auto it = position.find(d.from.text);
            if (it == position.end()) continue;
            parents[i].push_back(it->second);
            join(i, it->second);
        }
        if (!sources[i].replaces) continue;
        const auto it = position.find(sources[i].replaces->text);
        if (it != position.end()) join(i, it->second);
    }

    // The smallest id among an origin's roots stands for it: a label, never a choice that matters.
    std::map<std::size_t, std::string> label;
    for (const bool rootsOnly : {true, false})
        for (std::size_t i = 0; i < n; ++i) {
            if (rootsOnly && !parents[i].empty()) continue;
            const std::size_t leader = leaderOf(joined, i);
            const auto it = label.find(leader);
            if (it == label.end())
                label.emplace(leader, sources[i].id.text);
            else if (rootsOnly)
                it->second = std::min(it->second, sources[i].id.text);
        }

    for (std::size_t i = 0; i < n; ++i) {
        Entry entry;
        entry.origin = label[leaderOf(joined, i)];
        std::optional<int> depth;
        for (const auto& [a, steps] : ancestors(parents, i)) {
            entry.ours = entry.ours || ours[a];
            if (!parents[a].empty()) continue;
            entry.periodRoot = entry.periodRoot || isPeriod(sources[a]);
            depth = depth ? std::min(*depth, steps) : steps;
        }
        entry.depth = depth.value_or(0);
        m_entries.emplace(sources[i].id.text, std::move(entry));
    }
}

std::optional<record::SourceId> Origins::of(const std::optional<record::SourceId>& source) const {
    if (!source) return std::nullopt;
    const auto it = m_entries.find(source->text);
    return it == m_entries.end() ? *source : record::SourceId{it->second.origin};
}

int Origins::depth(const record::SourceId& source) const {
    const auto it = m_entries.find(source.text);
    return it == m_entries.end() ? 0 : it->second.depth;
}

bool Origins::hasPeriodRoot(const record::SourceId& source) const {
    const auto it = m_entries.find(source.text);
    return it != m_entries.end() && it->second.periodRoot;
}

bool Origins::fromThisArchive(const record::SourceId& source) const {
    const auto it = m_entries.find(source.text);
    return it != m_entries.end() && it->second.ours;
}

}  // namespace evidence::network
