#include "evidence-core/network/circular.h"

#include "evidence-core/network/joined.h"

#include <algorithm>
#include <map>
#include <set>

namespace evidence::network {

namespace {

std::string nameOf(const Equations& eq, const RegisterIndex& index, std::size_t unknown) {
    const auto& u = eq.unknowns[unknown];
    switch (u.kind) {
        case UnknownKind::Dimension:
            return index.reg().dimensions[u.record].id.text;
        case UnknownKind::Scale:
            return index.reg().frames[u.record].id.text;
        case UnknownKind::Error:
            return eq.leaves[u.leaf].id;
    }
    return {};
}

/// Shortest loop through the core's first unknown that has one: breadth first from the unknown by
/// one of its rows until it is met again by another.
std::vector<std::string> shortestLoop(const Core& core, const Equations& eq,
                                      const RegisterIndex& index) {
    const std::set<std::size_t> inside(core.unknowns.begin(), core.unknowns.end());
    const auto unknownsOf = [&](std::size_t row) {
        std::vector<std::size_t> out;
        for (const std::size_t i : eq.rows[row].unknowns)
            if (inside.contains(i)) out.push_back(i);
        return out;
    };
    std::vector<std::string> best;
    for (const std::size_t start : core.unknowns) {
        for (const std::size_t first : core.rows) {
            const auto ends = unknownsOf(first);
            if (std::find(ends.begin(), ends.end(), start) == ends.end()) continue;
            std::map<std::size_t, std::pair<std::size_t, std::size_t>> cameFrom;  // unknown, row
            std::vector<std::size_t> queue;
            for (const std::size_t i : ends)
                if (i != start && cameFrom.emplace(i, std::pair{start, first}).second)
                    queue.push_back(i);
            for (std::size_t head = 0; head < queue.size(); ++head) {
                const std::size_t here = queue[head];
                for (const std::size_t row : core.rows) {
                    const auto next = unknownsOf(row);
                    if (row == first || row == cameFrom[here].second ||
                        std::find(next.begin(), next.end(), here) == next.end())
                        continue;
                    for (const std::size_t i : next) {
                        if (i == here) continue;
                        if (i != start) {
                            if (cameFrom.emplace(i, std::pair{here, row}).second)
                                queue.push_back(i);
                            continue;
                        }
                        std::vector<std::string> loop{nameOf(eq, index, start),
                                                      eq.leaves[eq.rows[row].leaf].id};
                        for (std::size_t j = here; j != start; j = cameFrom[j].first) {
                            loop.push_back(nameOf(eq, index, j));
                            loop.push_back(eq.leaves[eq.rows[cameFrom[j].second].leaf].id);
                        }
                        loop.push_back(nameOf(eq, index, start));
                        if (best.empty() || loop.size() < best.size()) best = loop;
                        head = queue.size();
                        break;
                    }
                    if (head >= queue.size()) break;
                }
            }
        }
        if (!best.empty()) break;
    }
    return best;
}

}  // namespace

std::vector<Core> circularCores(const Equations& eq, const Structure& structure, const RowMask& use,
                                const std::vector<bool>& estimable) {
    const auto& rows = structure.rows();
    std::vector<bool> in(eq.unknowns.size());
    for (std::size_t i = 0; i < in.size(); ++i) in[i] = !estimable[i] && !eq.isFolded[i];
    std::vector<bool> live = use;
    // Peel what hangs on: an unknown in one equation alone goes with it.
    std::vector<int> uses(in.size(), 0);
    for (std::size_t r = 0; r < rows.size(); ++r)
        if (live[r])
            for (const auto& s : rows[r]) ++uses[s.unknown];
    std::vector<std::size_t> ready;
    for (std::size_t i = 0; i < in.size(); ++i)
        if (in[i] && uses[i] <= 1) ready.push_back(i);
    while (!ready.empty()) {
        const std::size_t i = ready.back();
        ready.pop_back();
        if (!in[i]) continue;
        in[i] = false;
        for (const std::size_t r : structure.rowsOf(i)) {
            if (!live[r]) continue;
            live[r] = false;
            for (const auto& s : rows[r])
                if (--uses[s.unknown] <= 1 && in[s.unknown]) ready.push_back(s.unknown);
        }
    }

    Joined joined(in.size());
    for (std::size_t r = 0; r < rows.size(); ++r) {
        if (!live[r]) continue;
        std::optional<std::size_t> first;
        for (const auto& s : rows[r]) {
            if (!in[s.unknown]) continue;
            if (first) joined.join(s.unknown, *first);
            first = s.unknown;
        }
    }
    std::map<std::size_t, Core> cores;
    for (std::size_t i = 0; i < in.size(); ++i)
        if (in[i]) cores[joined.leader(i)].unknowns.push_back(i);
    for (std::size_t r = 0; r < rows.size(); ++r) {
        if (!live[r]) continue;
        for (const auto& s : rows[r])
            if (in[s.unknown]) {
                cores[joined.leader(s.unknown)].rows.push_back(r);
                break;
            }
    }
    std::set<std::size_t> referenced;  // frames
    for (const Row& row : eq.rows)
        if (row.kind == RowKind::Reference && row.role == RowRole::Adjust)
            referenced.insert(row.record);
    std::vector<Core> out;
    for (auto& [leader, core] : cores) {
        const bool framesReferenced =
            std::all_of(core.unknowns.begin(), core.unknowns.end(), [&](std::size_t i) {
                return eq.unknowns[i].kind != UnknownKind::Scale ||
                       referenced.contains(eq.unknowns[i].record);
            });
        if (framesReferenced && core.rows.size() >= core.unknowns.size())
            out.push_back(std::move(core));
    }
    std::sort(out.begin(), out.end(),
              [](const Core& a, const Core& b) { return a.unknowns < b.unknowns; });
    return out;
}

Circle described(const Core& core, const Equations& eq, const RegisterIndex& index) {
    Circle out;
    for (const std::size_t i : core.unknowns) {
        const auto& u = eq.unknowns[i];
        if (u.kind == UnknownKind::Dimension) out.dimensions.push_back(u.record);
        if (u.kind == UnknownKind::Scale) out.frames.push_back(index.reg().frames[u.record].id);
    }
    for (const std::size_t r : core.rows) out.links.push_back(eq.leaves[eq.rows[r].leaf].id);
    out.path = shortestLoop(core, eq, index);
    return out;
}

}  // namespace evidence::network
