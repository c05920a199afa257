#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/finding/member_words.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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
        findings.push_back(
            made("conflict", about.on, textOf(judged, conflict),
                 "Look at each of them again on the original; when one is shown to be wrong, set "
                 "it aside with the reason. Until then the size stays where the evidence puts it.",
                 {{"w", std::abs(first.w)},
                  {"difference", std::abs(first.misfit) / about.factor},
                  {"u_difference", first.uMisfit / about.factor}}));
    }
}

}  // namespace evidence::judgement
