#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

namespace {

std::string pictureOf(const Context& c, const std::string& frame) {
    const auto* entered = c.index.frame(frame);
    const auto* source = entered ? c.index.sourceOfFile(entered->file.text) : nullptr;
    return source ? nameOf(*source) : "a picture";
}

/// One step of a circle, from one unknown over a link to the next.
std::string stepText(const Context& c, const std::string& from, const std::string& link,
                     const std::string& to) {
    const bool fromScale = c.index.frame(from) != nullptr;
    const bool toScale = c.index.frame(to) != nullptr;
    const bool isReference = c.index.reference(link).reference != nullptr;
    if (isReference && toScale)
        return fmt::format("{} sets the scale of {}", nameOfTarget(c.index, {from}),
                           pictureOf(c, to));
    if (isReference && fromScale)
        return fmt::format("the scale of {} is set by {}", pictureOf(c, from),
                           nameOfTarget(c.index, {to}));
    if (fromScale && !toScale)
        return fmt::format("{} is measured through the scale of {}", nameOfTarget(c.index, {to}),
                           pictureOf(c, from));
    if (toScale && !fromScale)
        return fmt::format("{} is measured through the scale of {}", nameOfTarget(c.index, {from}),
                           pictureOf(c, to));
    return fmt::format("{} and {} are tied by {}", nameOfTarget(c.index, {from}),
                       nameOfTarget(c.index, {to}), nameOfLeaf(c.index, link));
}

/// The loop in sentences; `path` alternates unknown and link and may end where it began.
std::string pathText(const Context& c, std::vector<std::string> path) {
    if (path.size() % 2 == 0 && !path.empty()) path.push_back(path.front());
    std::string text;
    for (std::size_t i = 0; i + 2 < path.size(); i += 2)
        text += (text.empty() ? "" : "; ") + stepText(c, path[i], path[i + 1], path[i + 2]);
    return text;
}

/// The class of a link; one that nobody classed is the weakest.
record::Grade strengthOf(const Context& c, const std::string& link) {
    const auto leaf = std::ranges::find(c.solution.leaves, link, &network::Leaf::id);
    if (leaf == c.solution.leaves.end()) {
        // A length that is another dimension brings nothing of its own.
        return c.index.reference(link).reference ? record::Grade::Blank : record::Grade::OurCall;
    }
    return leaf->strength.value_or(record::Grade::InHand);
}

/// Links by what is lost least when they are cut: the weakest first, then by name.
std::vector<std::string> linksByWeakness(const Context& c, const network::Circle& circle) {
    std::vector<std::pair<int, std::string>> ranked;
    for (const auto& id : circle.links)
        ranked.emplace_back(-static_cast<int>(strengthOf(c, id)), nameOfLeaf(c.index, id, "any"));
    std::ranges::sort(ranked);
    std::vector<std::string> names;
    for (auto& [rank, name] : ranked)
        if (std::ranges::find(names, name) == names.end()) names.push_back(std::move(name));
    return names;
}

}  // namespace

void findCircles(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& circle : c.solution.circles) {
        std::vector<record::AnyId> on;
        std::vector<std::string> names;
        for (const auto at : circle.dimensions) {
            on.push_back(record::any(c.solution.dimensions[at].id));
            names.push_back(nameOf(c.record(c.solution.dimensions[at])));
        }
        for (const auto& id : circle.frames) on.push_back(record::any(id));
        const std::string path = pathText(c, circle.path);
        const auto links = linksByWeakness(c, circle);
        std::string text = fmt::format(
            "{} {} evidence that only leads back to itself, so no size "
            "follows from it.",
            listText(names), names.size() == 1 ? "has" : "have");
        if (!path.empty()) text += " Step by step: " + path + ".";
        findings.push_back(made(
            "circular", std::move(on), sentence(std::move(text)),
            fmt::format("One length from elsewhere breaks it. It can be cut at {}{}.",
                        listText(links, 6), links.size() > 1 ? "; least is lost at the first" : ""),
            {{"dimensions", static_cast<double>(circle.dimensions.size())},
             {"links", static_cast<double>(circle.links.size())}}));
    }
}

}  // namespace evidence::judgement
