#include "app/report/figure/thread_on_paper.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>
#include <vector>

namespace app::report::figure {

using evidence::judgement::Thread;
using evidence::judgement::ThreadLink;
using evidence::judgement::ThreadNode;
using evidence::judgement::ThreadStage;
using evidence::record::Grade;

namespace {

double into(const Thread& thread, std::size_t node) {
    double sum = 0;
    for (const ThreadLink& link : thread.links)
        if (link.to == node) sum += link.share;
    return sum;
}

double outOf(const Thread& thread, std::size_t node) {
    double sum = 0;
    for (const ThreadLink& link : thread.links)
        if (link.from == node) sum += link.share;
    return sum;
}

/// Rebuilds a thread from nodes that move: `to[i]` is where node i of the old one went.
class Redrawn {
  public:
    explicit Redrawn(std::string on) { m_thread.on = std::move(on); }

    std::size_t node(const ThreadNode& node) {
        m_thread.nodes.push_back(node);
        return m_thread.nodes.size() - 1;
    }
    void link(std::size_t from, std::size_t to, double share) {
        if (from == to) return;
        const auto [place, fresh] = m_links.emplace(std::pair(from, to), m_thread.links.size());
        if (fresh) m_thread.links.push_back({from, to, 0});
        m_thread.links[place->second].share += share;
    }
    Thread take() { return std::move(m_thread); }

  private:
    Thread m_thread;
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> m_links;
};

Thread withoutMarks(const Thread& thread) {
    Redrawn redrawn(thread.on);
    std::vector<std::size_t> place(thread.nodes.size(), 0);
    for (std::size_t i = 0; i < thread.nodes.size(); ++i)
        if (thread.nodes[i].stage != ThreadStage::Mark) place[i] = redrawn.node(thread.nodes[i]);
    // A mark may lead to another one: walk on until something that stays.
    const auto carry = [&](auto&& self, std::size_t from, std::size_t at, double share,
                           std::size_t depth) -> void {
        if (thread.nodes[at].stage != ThreadStage::Mark)
            return redrawn.link(place[from], place[at], share);
        if (depth > thread.nodes.size()) return;
        const double all = outOf(thread, at);
        for (const ThreadLink& next : thread.links)
            if (next.from == at)
                self(self, from, next.to, all > 0 ? share * next.share / all : 0, depth + 1);
    };
    for (const ThreadLink& link : thread.links)
        if (thread.nodes[link.from].stage != ThreadStage::Mark)
            carry(carry, link.from, link.to, link.share, 0);
    return redrawn.take();
}

/// The weaker of two; a blank one, which sources and scales have, says nothing.
Grade weaker(Grade a, Grade b) {
    if (a == Grade::Blank) return b;
    return b == Grade::Blank ? a : std::max(a, b);
}

/// The nodes of a stage that are to be gathered: the least of them, so that `most` boxes remain.
std::set<std::size_t> leastOf(const Thread& thread, ThreadStage stage, std::size_t most) {
    std::vector<std::size_t> nodes;
    for (std::size_t i = 0; i < thread.nodes.size(); ++i)
        if (thread.nodes[i].stage == stage) nodes.push_back(i);
    if (nodes.size() <= most) return {};
    const auto weight = [&](std::size_t i) {
        const bool straight =
            std::any_of(thread.links.begin(), thread.links.end(), [&](const ThreadLink& link) {
                return link.from == i && thread.nodes[link.to].stage == ThreadStage::Value;
            });
        return std::pair(straight && stage == ThreadStage::Reading,
                         std::max(into(thread, i), outOf(thread, i)));
    };
    std::ranges::stable_sort(nodes, std::ranges::greater{}, weight);
    return {nodes.begin() + std::ptrdiff_t(most) - 1, nodes.end()};
}

Thread gathered(const Thread& thread, ThreadStage stage, std::size_t most) {
    const std::set<std::size_t> least = leastOf(thread, stage, most);
    if (least.empty()) return thread;
    Redrawn redrawn(thread.on);
    std::vector<std::size_t> place(thread.nodes.size(), 0);
    for (std::size_t i = 0; i < thread.nodes.size(); ++i)
        if (!least.contains(i)) place[i] = redrawn.node(thread.nodes[i]);
    ThreadNode more;
    more.id = fmt::format("{}/more-{}", thread.on, static_cast<int>(stage));
    more.stage = stage;
    more.title = fmt::format("{} more", least.size());
    double carried = 0;
    for (const std::size_t i : least) {
        carried += outOf(thread, i);
        more.strength = weaker(more.strength, thread.nodes[i].strength);
        more.guess = more.guess || thread.nodes[i].guess;
    }
    more.detail = carried < 0.005 ? "under 1 % of the doubt"
                                  : fmt::format("{:.0f} % of the doubt", carried * 100);
    const std::size_t at = redrawn.node(more);
    for (const std::size_t i : least) place[i] = at;
    for (const ThreadLink& link : thread.links)
        redrawn.link(place[link.from], place[link.to], link.share);
    return redrawn.take();
}

}  // namespace

Thread gatheredThread(const Thread& thread, std::size_t most) {
    Thread less = thread;
    for (const ThreadStage stage : {ThreadStage::Source, ThreadStage::Mark, ThreadStage::Scale,
                                    ThreadStage::Reading, ThreadStage::Relation})
        less = gathered(less, stage, most);
    return less;
}

Thread threadOnPaper(const Thread& thread, std::size_t most) {
    return gatheredThread(withoutMarks(thread), most);
}

}  // namespace app::report::figure
