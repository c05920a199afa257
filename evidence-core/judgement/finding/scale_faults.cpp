#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

namespace {

bool isUnsupported(const std::optional<record::Basis>& basis,
                   const std::optional<record::SourceId>& source) {
    if (!basis) return !source;
    return *basis == record::Basis::Guessed || *basis == record::Basis::Assumed;
}

void addUnscaled(const Context& c, const network::FrameSolution& frame,
                 std::vector<Finding>& findings) {
    const auto& entered = *c.index.frame(frame.id.text);
    const auto* source = c.index.sourceOfFile(entered.file.text);
    findings.push_back(made(
        "unscaled", {record::any(frame.id)},
        fmt::format("The scale of {} has no known length, so nothing measured through it has a "
                    "size.",
                    source ? nameOf(*source) : "a picture"),
        "Mark something on the picture whose length is known, and say where that is known from."));
}

void addUnsupported(const Context& c, const network::FrameSolution& frame,
                    std::vector<Finding>& findings) {
    const auto& entered = *c.index.frame(frame.id.text);
    const std::string settle =
        "Find a source for this length: a figured drawing, a published standard or a surviving "
        "part.";
    for (std::size_t k = 0; k < entered.references.size(); ++k) {
        const auto& reference = entered.references[k];
        if (reference.setAside || k >= frame.references.size() || !frame.references[k].used)
            continue;
        const std::string leaf = fmt::format("{}/{}", frame.id.text, k);
        std::vector<record::AnyId> on{record::any(frame.id), {leaf}};
        std::string why;
        if (reference.length.dimension) {
            const auto at = c.dimensionAt.find(reference.length.dimension->text);
            if (at == c.dimensionAt.end() || !c.solution.dimensions[at->second].restsOnGuess)
                continue;
            why = "itself rests on a guess";
        } else if (isUnsupported(reference.length.basis, reference.length.source)) {
            why = reference.length.basis ? "is only assumed" : "has neither source nor basis";
        } else {
            continue;
        }
        std::vector<std::pair<std::string, double>> numbers;
        if (frame.references[k].length) numbers.emplace_back("length", *frame.references[k].length);
        findings.push_back(
            made("unsupported-reference", std::move(on),
                 sentence(fmt::format("{} {}; everything measured through it hangs on that.",
                                      nameOfLeaf(c.index, leaf), why)),
                 settle, std::move(numbers)));
    }
    for (const auto& point : entered.points)
        if (isUnsupported(point.basis, point.source)) {
            findings.push_back(
                made("unsupported-reference", {record::any(frame.id), record::any(point.mark)},
                     sentence(fmt::format("A known point of {} has neither source nor basis.",
                                          nameOf(c.index, entered))),
                     settle));
        }
    if (entered.print && isUnsupported(entered.print->basis, std::nullopt) &&
        entered.print->basis) {
        findings.push_back(made("unsupported-reference", {record::any(frame.id)},
                                sentence(fmt::format("{}, taken from the resolution of the scan, "
                                                     "is only assumed.",
                                                     nameOf(c.index, entered))),
                                settle));
    }
}

void addBeyondReference(const Context& c, std::vector<Finding>& findings) {
    for (const auto& reading : c.solution.readings) {
        if (reading.use != network::ReadingUse::Used || !reading.value) continue;
        const auto& entered = *c.index.reading(reading.id.text);
        if (!entered.frame || c.units[reading.dimension].measure != quantity::Measure::Length)
            continue;
        const auto at = c.frameAt.find(entered.frame->text);
        if (at == c.frameAt.end()) continue;
        const auto& longest = c.solution.frames[at->second].longestReference;
        if (!longest || !(*longest > 0) || !(*reading.value > 3 * *longest)) continue;
        const auto& unit = c.units[reading.dimension];
        const auto& dimension = c.solution.dimensions[reading.dimension];
        const double times = *reading.value / *longest;
        findings.push_back(
            made("beyond-reference",
                 {record::any(dimension.id), record::any(reading.id), record::any(*entered.frame)},
                 fmt::format("{} was measured {} times as long as the longest known length of its "
                             "scale ({}); a small error there grows by as much.",
                             nameOf(c.record(dimension)), plainNumber(times, 2),
                             sizeText(unit.shown(*longest), std::nullopt, unit.name)),
                 "A longer known length on the same picture.",
                 {{"times", times}, {"longest_reference", unit.shown(*longest)}}));
    }
}

}  // namespace

void findScaleFaults(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& frame : c.solution.frames) {
        if (frame.setAside) continue;
        const auto& entered = *c.index.frame(frame.id.text);
        if (frame.supported ? !frame.hasReference
                            : entered.references.empty() && entered.points.empty())
            addUnscaled(c, frame, findings);
        addUnsupported(c, frame, findings);
    }
    addBeyondReference(c, findings);
}

}  // namespace evidence::judgement
