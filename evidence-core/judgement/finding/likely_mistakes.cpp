#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/mistake.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <span>

namespace evidence::judgement {

namespace {

/// First step of a component's path: `Body/Roof/Hoop 3` → `Body`.
std::string assemblyOf(const record::Dimension& dimension) {
    const std::string path = dimension.component.value_or("");
    return path.substr(0, path.find('/'));
}

/// Sizes on record in the same assembly whose names hold one of `words`.
std::vector<std::pair<std::string, double>> sizesNear(const Context& c, std::size_t dimension,
                                                      std::span<const char* const> words) {
    std::vector<std::pair<std::string, double>> list;
    const auto& own = c.record(c.solution.dimensions[dimension]);
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto& other = c.record(c.solution.dimensions[i]);
        if (i == dimension || c.units[i].measure != quantity::Measure::Length ||
            !c.solution.dimensions[i].value || assemblyOf(other) != assemblyOf(own))
            continue;
        const std::string name = foldedText(other.name);
        if (std::ranges::any_of(
                words, [&](const char* word) { return name.find(word) != std::string::npos; }))
            list.emplace_back(nameOf(other), *c.solution.dimensions[i].value);
    }
    std::ranges::sort(list);
    return list;
}

/// Skins, plates and boards: what lies between an inside and an outside.
constexpr std::array kThicknessWords{"thick", "plank", "plate", "skin", "board", "tyre"};
/// Members: what has an edge and a centre line.
constexpr std::array kMemberWords{"thick", "width", "breadth", "post", "rail", "beam"};

struct Suspect {
    std::size_t reading = 0;
    Mistake mistake;
};

std::optional<Suspect> suspectOf(const Context& c, std::size_t at, double misfit, double uMisfit) {
    const auto& reading = c.solution.readings[at];
    const auto& entered = *c.index.reading(reading.id.text);
    if (!reading.value || !(uMisfit > 0)) return std::nullopt;
    Disagreement d;
    d.observed = *reading.value;
    d.uObserved = std::min(reading.u.value_or(0), uMisfit);
    d.predicted = *reading.value - misfit;
    d.uPredicted = std::sqrt(std::max(0.0, uMisfit * uMisfit - d.uObserved * d.uObserved));
    d.measure = c.units[reading.dimension].measure;
    if (entered.value) {
        d.written = asWritten(*entered.value, std::nullopt);
        const auto unit =
            quantity::unitNamed(entered.unit.value_or(c.units[reading.dimension].name));
        if (unit) d.bareUnit = *unit;
    }
    d.thicknesses = sizesNear(c, reading.dimension, kThicknessWords);
    d.widths = sizesNear(c, reading.dimension, kMemberWords);
    auto mistake = likelyMistake(d);
    if (!mistake) return std::nullopt;
    return Suspect{at, std::move(*mistake)};
}

/// Other suspects of another origin that show the same slip in the same size: seldom chance.
std::vector<const Suspect*> sharersOf(const Context& c, const Suspect& suspect,
                                      std::span<const Suspect> all) {
    std::vector<const Suspect*> list;
    const auto& own = c.solution.readings[suspect.reading];
    const auto* source = c.index.sourceOf(*c.index.reading(own.id.text));
    for (const auto& other : all) {
        const auto& reading = c.solution.readings[other.reading];
        const auto* from = c.index.sourceOf(*c.index.reading(reading.id.text));
        if (other.reading == suspect.reading || reading.dimension != own.dimension ||
            other.mistake.sign != suspect.mistake.sign || !source || !from ||
            c.lineage.originOf(*source) == c.lineage.originOf(*from))
            continue;
        const double doubt = std::hypot(own.u.value_or(0), reading.u.value_or(0));
        if (std::abs(*own.value - *reading.value) <= 2 * doubt) list.push_back(&other);
    }
    return list;
}

Finding findingOf(const Context& c, const Suspect& suspect, std::span<const Suspect> all) {
    const auto& reading = c.solution.readings[suspect.reading];
    const auto& unit = c.units[reading.dimension];
    const auto& dimension = c.solution.dimensions[reading.dimension];
    auto finding = made(
        "likely-mistake", {record::any(dimension.id), record::any(reading.id)},
        fmt::format("{}: {} looks like a slip, for {}; it would then be {}. The odds are {} to 1 "
                    "against a misfit of any other size.",
                    nameOf(c.record(dimension)), nameOf(c.index, *c.index.reading(reading.id.text)),
                    suspect.mistake.cause,
                    sizeText(unit.shown(suspect.mistake.corrected), std::nullopt, unit.name),
                    plainNumber(suspect.mistake.odds, 2)),
        suspect.mistake.test + " Only a passed test lets a value be set aside.",
        {{"likelihood_ratio", suspect.mistake.odds},
         {"signs_tried", suspect.mistake.signsTried},
         {"corrected", unit.shown(suspect.mistake.corrected)}});
    std::vector<std::string> names;
    for (const auto* other : sharersOf(c, suspect, all)) {
        const auto& id = c.solution.readings[other->reading].id;
        finding.on.push_back(record::any(id));
        names.push_back(nameOf(c.index, *c.index.reading(id.text)));
    }
    if (names.empty()) return finding;
    std::ranges::sort(names);
    finding.numbers.emplace_back("shared_by", static_cast<double>(names.size() + 1));
    finding.text += fmt::format(
        " The same slip is in {}: a sign that one was copied from the other.", listText(names, 3));
    finding.settle += " If one was copied from the other, say so: they are one witness then.";
    return finding;
}

}  // namespace

void findLikelyMistakes(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    std::set<std::size_t> told;
    std::vector<Suspect> suspects;
    const auto tell = [&](std::optional<Suspect> suspect) {
        if (suspect && told.insert(suspect->reading).second)
            suspects.push_back(std::move(*suspect));
    };
    for (const auto& conflict : c.solution.conflicts) {
        std::optional<Suspect> best;
        for (const auto& member : conflict.members) {
            const auto at = c.readingAt.find(member.id);
            if (at == c.readingAt.end()) continue;
            auto suspect = suspectOf(c, at->second, member.misfit, member.uMisfit);
            if (suspect && (!best || suspect->mistake.odds > best->mistake.odds))
                best = std::move(suspect);
        }
        tell(std::move(best));
    }
    // A copy that differs from its original is mostly a slip of the copyist.
    for (std::size_t at = 0; at < c.solution.readings.size(); ++at) {
        const auto& reading = c.solution.readings[at];
        if (reading.use != network::ReadingUse::Echo || !reading.echoDifference ||
            !reading.uEchoDifference || !(*reading.uEchoDifference > 0) ||
            std::abs(*reading.echoDifference) <= c.thresholds.conflictW * *reading.uEchoDifference)
            continue;
        tell(suspectOf(c, at, *reading.echoDifference, *reading.uEchoDifference));
    }
    for (const auto& suspect : suspects) findings.push_back(findingOf(c, suspect, suspects));
}

}  // namespace evidence::judgement
