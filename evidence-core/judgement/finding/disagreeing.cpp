#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace evidence::judgement {

namespace {

std::string authorityOf(const record::Source* source) {
    if (!source) return "nobody named";
    switch (source->authority.value_or(record::Authority::Modern)) {
        case record::Authority::Maker:
            return "the maker";
        case record::Authority::Eyewitness:
            return "an eyewitness";
        case record::Authority::Later:
            return "a later hand";
        case record::Authority::Modern:
            return "a modern hand";
    }
    return {};
}

/// All that speak for one value: names with whose word it is, and how many origins stand behind.
struct Side {
    std::string folded;
    std::vector<std::string> names;
    std::set<int> origins;
};

std::vector<Side> sidesOf(const Context& c, const Fact& fact) {
    std::vector<Side> sides;
    for (const auto& word : fact.words) {
        auto side = std::ranges::find(sides, word.folded, &Side::folded);
        if (side == sides.end()) side = sides.insert(sides.end(), {word.folded, {}, {}});
        const std::string name =
            fmt::format("{}, by {}", nameOf(c.index, *word.reading), authorityOf(word.source));
        if (std::ranges::find(side->names, name) == side->names.end()) side->names.push_back(name);
        if (word.source) side->origins.insert(c.lineage.originOf(*word.source));
    }
    return sides;
}

/// "… and …, one origin": copies of one thing are no second voice.
std::string textOf(const Side& side) {
    std::string text = listText(side.names, 3);
    if (side.names.size() > 1)
        text += fmt::format(" ({})", countText(side.origins.size(), "origin", "origins"));
    return text;
}

}  // namespace

void findDisagreeing(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& fact : judged.facts) {
        const auto* particular = c.index.particular(fact.result.id.text);
        if (fact.result.agree || particular->setAside) continue;
        std::vector<record::AnyId> on{record::any(particular->id)};
        for (const auto& word : fact.words) on.push_back(record::any(word.reading->id));
        const auto sides = sidesOf(c, fact);
        std::string text;
        for (const auto& side : sides) text += (text.empty() ? "" : "; against it ") + textOf(side);
        const bool alone =
            std::ranges::all_of(sides, [](const Side& side) { return side.origins.size() <= 1; });
        findings.push_back(
            made("particular-disagree", std::move(on),
                 fmt::format("{}: the sources disagree: {}.", nameOf(*particular), text),
                 alone ? "Date each source: they may speak of different states. Else look "
                         "for a third that shows it."
                       : "Date each source: they may speak of different states. What two origins "
                         "say weighs more than one; set the other aside only when it is shown "
                         "wrong.",
                 {{"values", static_cast<double>(sides.size())},
                  {"origins_for", static_cast<double>(sides.front().origins.size())}}));
    }
}

}  // namespace evidence::judgement
