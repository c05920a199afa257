#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/finding/member_words.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace evidence::judgement {

namespace {

bool isRelation(const Context& c, const network::ConflictMember& member) {
    return c.relationAt.contains(member.id);
}

std::string textOf(const Judged& judged, const network::Conflict& conflict) {
    const auto& c = judged.context;
    const auto& first = conflict.members.front();
    const auto about = aboutMembers(c, conflict);
    const std::string difference = amountText(std::abs(first.misfit) / about.factor, about.unit);
    const std::string times = plainNumber(std::abs(first.w), 2);
    std::vector<std::string> names;
    // Among readings of one size that size need not be named again.
    const bool ofOneSize = about.dimensions.size() == 1;
    const std::string size = ofOneSize ? about.dimensions.front().text : std::string("any");
    for (const auto& member : conflict.members)
        names.push_back(nameOfLeaf(c.index, member.id, size));
    const std::string subject = ofOneSize ? about.subject + ": " : std::string{};
    if (names.size() == 1)
        return sentence(fmt::format(
            "{}{} is {} {} than all other evidence together gives, {} "
            "times the doubt of that difference.",
            subject, names.front(), difference, first.misfit < 0 ? "less" : "more", times));
    if (names.size() == 2)
        return sentence(
            fmt::format("{}{} and {} cannot both be right: they are {} apart, {} "
                        "times the doubt of that difference.",
                        subject, names[0], names[1], difference, times));
    return sentence(
        fmt::format("{}{} cannot all be right: the misfit is {}, {} times its doubt, "
                    "and the register alone cannot tell which of them is wrong.",
                    subject, listText(names), difference, times));
}

/// Readings of one of the disputed sizes that give the very same figure although nothing says that
/// one was copied from the other.
std::vector<const record::Reading*> sameFigure(const Context& c, const About& about) {
    std::map<std::string, std::vector<const record::Reading*>> byFigure;
    for (const auto& id : about.dimensions) {
        for (const auto at : c.solution.dimensions[c.dimensionAt.find(id.text)->second].readings) {
            const auto& reading = c.solution.readings[at];
            const auto* entered = c.index.reading(reading.id.text);
            if (reading.use != network::ReadingUse::Used || !entered->value ||
                !c.index.sourceOf(*entered))
                continue;
            byFigure[id.text + " " + foldedText(asWritten(*entered->value, entered->unit))]
                .push_back(entered);
        }
    }
    for (auto& [figure, readings] : byFigure) {
        std::set<int> origins;
        for (const auto* reading : readings)
            origins.insert(c.lineage.originOf(*c.index.sourceOf(*reading)));
        if (origins.size() >= 2) return readings;
    }
    return {};
}

void addSameFigure(const Context& c, const About& about, Finding& finding) {
    std::vector<std::string> names;
    for (const auto* reading : sameFigure(c, about)) names.push_back(nameOf(c.index, *reading));
    if (names.empty()) return;
    std::ranges::sort(names);
    finding.numbers.emplace_back("same_figure", static_cast<double>(names.size()));
    finding.settle += fmt::format(
        " Find out too whether {} share their figure because one was copied from the other: they "
        "would then be one witness.",
        listText(names, 3));
}

}  // namespace

void findConflicts(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& conflict : c.solution.conflicts) {
        // A misfit of relations alone is a loop that does not close.
        if (conflict.members.empty() ||
            std::ranges::all_of(conflict.members,
                                [&](const auto& member) { return isRelation(c, member); }))
            continue;
        const auto& first = conflict.members.front();
        const auto about = aboutMembers(c, conflict);
        auto finding =
            made("conflict", about.on, textOf(judged, conflict),
                 "Look at each of them again on the original; when one is shown to be wrong, set "
                 "it aside with the reason. Until then the size stays where the evidence puts it.",
                 {{"w", std::abs(first.w)},
                  {"difference", std::abs(first.misfit) / about.factor},
                  {"u_difference", first.uMisfit / about.factor}});
        addSameFigure(c, about, finding);
        findings.push_back(std::move(finding));
    }
}

}  // namespace evidence::judgement
