#include "evidence-core/judgement/grade_words.h"

#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

namespace {

using record::Grade;

std::string letter(Grade grade) {
    return std::string(record::nameOf(grade));
}

/// The guess or borrowed leaf that carries most of the doubt.
std::optional<std::size_t> heaviestBorrowed(const Context& c, const network::DimensionSolution& d) {
    for (const auto& part : d.contributions) {
        const auto& strength = c.solution.leaves[part.leaf].strength;
        if (strength && *strength >= Grade::CarriedOver) return part.leaf;
    }
    return std::nullopt;
}

/// The sentence of the class itself, before anything holds the grade down.
std::string baseWords(const Context& c, std::size_t i, const Graded& g) {
    const auto& d = c.solution.dimensions[i];
    if (g.twoWitnesses)
        if (const auto pair = twoWitnesses(c, i)) {
            const auto words = [&](std::size_t at) {
                return nameOf(c.index, *c.index.reading(c.solution.readings[at].id.text));
            };
            return fmt::format("In hand: {} and {} are independent of each other and agree",
                               words(pair->first), words(pair->second));
        }
    const Grade ceiling = d.ceiling.value_or(Grade::Blank);
    const auto names = listText(c.namesOfLeaves(holdingLeaves(c, i, ceiling), i), 3);
    switch (ceiling) {
        case Grade::InHand:
            return "In hand: " + names;
        case Grade::Figured:
            return "Figured: " + names;
        case Grade::TakenOff:
            return "Taken off: it rests on " + names;
        case Grade::BoxedIn:
            return "Boxed in: it rests on " + names;
        case Grade::CarriedOver:
            return "Carried over: it rests on " + names;
        case Grade::OurCall:
            return "Our call: it cannot be worked out without " + names;
        case Grade::Blank:
            break;
    }
    return "Blank";
}

std::string blankWords(const network::DimensionSolution& d) {
    switch (d.footing) {
        case network::Footing::Circular:
            return "Blank: its evidence only leads back to itself.";
        case network::Footing::Undetermined:
            return d.why.empty() ? "Blank: nothing known fixes it." : "Blank: " + d.why + ".";
        case network::Footing::Determined:
            break;
    }
    return "Blank: it could not be worked out.";
}

std::string raiseBlank(const network::DimensionSolution& d) {
    if (d.footing == network::Footing::Circular)
        return "One length of this circle from elsewhere: a figure, a gauged part or a sourced "
               "reference.";
    return "Any evidence of its size: a figure, a gauged part, a scaled picture, or limits on both "
           "sides.";
}

}  // namespace

std::vector<std::size_t> holdingLeaves(const Context& c, std::size_t i, Grade strength) {
    const auto& d = c.solution.dimensions[i];
    const auto isOf = [&](std::size_t leaf) {
        return c.solution.leaves[leaf].strength == strength;
    };
    // Its own readings first: they say most about it.
    const auto isOwn = [&](std::size_t leaf) {
        return std::ranges::any_of(
            d.readings, [&](std::size_t at) { return c.solution.readings[at].leaf == leaf; });
    };
    std::vector<std::size_t> holding;
    for (const auto leaf : d.mustHave)
        if (isOf(leaf)) holding.push_back(leaf);
    std::ranges::stable_partition(holding, isOwn);
    if (!holding.empty()) return holding;
    for (const auto& part : d.contributions)
        if (isOf(part.leaf) && isOwn(part.leaf)) holding.push_back(part.leaf);
    if (!holding.empty()) return holding;
    // Else those that carry most of it; a tenth of the largest share is next to nothing.
    double largest = 0;
    for (const auto& part : d.contributions)
        if (isOf(part.leaf)) {
            largest = std::max(largest, part.share);
            if (part.share >= largest / 10 && holding.size() < 3) holding.push_back(part.leaf);
        }
    return holding;
}

std::string whyInWords(const Context& c, std::size_t i, const Graded& g) {
    const auto& d = c.solution.dimensions[i];
    if (!d.estimable || !d.value || !d.ceiling) return blankWords(d);
    std::string text = baseWords(c, i, g);
    const std::string held = fmt::format("; held at {} because ", letter(g.computed));
    const GradeCap cap = g.lowered ? GradeCap::None : g.cap;
    switch (cap) {
        case GradeCap::None:
            break;
        case GradeCap::Share:
            text += held + fmt::format("guesses and borrowed values carry {} of the doubt",
                                       percentText(d.borrowedShare));
            break;
        case GradeCap::Length:
            text += held + fmt::format("the way from mark to size takes {} steps", d.steps);
            break;
        case GradeCap::Conflict:
            text += held + "its readings disagree";
            break;
        case GradeCap::Lowered:
            break;
    }
    if (g.lowered)
        text += fmt::format("; set from {} to {} by {}: {}", letter(g.computed), letter(g.grade),
                            nameOf(c.index, g.lowered->by), g.lowered->reason);
    if (!text.ends_with('.')) text += ".";
    return sentence(std::move(text));
}

std::string raiseInWords(const Context& c, std::size_t i, const Graded& g) {
    const auto& d = c.solution.dimensions[i];
    if (g.lowered)
        return fmt::format("An answer to the reason {} gave for setting it lower.",
                           nameOf(c.index, g.lowered->by));
    switch (g.grade) {
        case Grade::InHand:
            return "Nothing stands above H.";
        case Grade::Blank:
            return raiseBlank(d);
        case Grade::Figured:
        case Grade::TakenOff:
        case Grade::BoxedIn:
        case Grade::CarriedOver:
        case Grade::OurCall:
            break;
    }
    if (g.cap == GradeCap::Conflict)
        return "Settling which of its readings is right, and setting the other aside with a "
               "reason.";
    if (g.cap == GradeCap::Length)
        return "A more direct reading: a figure, a gauged part, or a mark nearer to its scale.";
    if (g.cap == GradeCap::Share)
        if (const auto leaf = heaviestBorrowed(c, d))
            return fmt::format("Evidence in place of {}.",
                               nameOfLeaf(c.index, c.solution.leaves[*leaf].id, d.id.text));
    const auto holding = holdingLeaves(c, i, g.grade);
    const bool oneWeakScale =
        holding.size() == 1 && g.grade > Grade::TakenOff &&
        c.solution.leaves[holding.front()].kind != network::LeafKind::Reading &&
        c.solution.leaves[holding.front()].kind != network::LeafKind::Limit;
    if (oneWeakScale)
        return fmt::format("Better evidence for {}: everything else it rests on is stronger.",
                           nameOfLeaf(c.index, c.solution.leaves[holding.front()].id, d.id.text));
    switch (g.grade) {
        case Grade::Figured:
            return "The original part itself, gauged where it is unaltered, or a second period "
                   "witness of another kind or hand that agrees, would make it H.";
        case Grade::TakenOff:
            return "A figure for it by the maker or an eyewitness would make it F.";
        case Grade::BoxedIn:
        case Grade::CarriedOver:
            return "A drawing or picture that shows it, scaled on a sourced length, would make it "
                   "T; a figure by the maker would make it F.";
        case Grade::OurCall:
            return "Limits that can be seen on both sides would make it B; a drawing or picture "
                   "scaled on a sourced length would make it T.";
        case Grade::InHand:
        case Grade::Blank:
            break;
    }
    return {};
}

}  // namespace evidence::judgement
