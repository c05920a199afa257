#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace evidence::judgement {

namespace {

/// What a correction is for, told by its label; the folded label where no word is known.
std::string kindOf(const record::Correction& correction) {
    static constexpr std::array<std::pair<const char*, const char*>, 11> kWords{{
        {"contraction", "casting contraction"},
        {"pattern", "casting contraction"},
        {"shrink", "shrinkage"},
        {"moisture", "wood movement"},
        {"movement", "wood movement"},
        {"swell", "wood movement"},
        {"corro", "corrosion"},
        {"rust", "corrosion"},
        {"wear", "wear"},
        {"worn", "wear"},
        {"depth", "depth"},
    }};
    const std::string label = foldedText(correction.label);
    for (const auto& [word, kind] : kWords)
        if (label.find(word) != std::string::npos) return kind;
    return label;
}

void addAltered(const Context& c, const network::ReadingSolution& reading,
                std::vector<Finding>& findings) {
    const auto& entered = *c.index.reading(reading.id.text);
    if (entered.basis != record::Basis::Gauged || !entered.value) return;
    const auto feature = entered.feature.value_or(record::Feature::Uncertain);
    if (feature == record::Feature::Original) return;
    const auto& d = c.solution.dimensions[reading.dimension];
    const std::string name = nameOf(c.record(d));
    const std::string what = nameOf(c.index, entered);
    std::string text;
    if (feature == record::Feature::Altered)
        text = fmt::format(
            "{}: {} was taken where the part has been altered, so it is not used "
            "as a size.",
            name, what);
    else if (entered.feature)
        text = fmt::format("{}: {} was taken where it is uncertain whether the part is original.",
                           name, what);
    else
        text = fmt::format("{}: nobody has said whether {} was taken where the part is original.",
                           name, what);
    findings.push_back(
        made("altered-part", {record::any(d.id), record::any(reading.id)}, std::move(text),
             "Examine the feature for tool marks, wear and later work. What is left of an altered "
             "one can still give a limit: no less than, no more than."));
}

/// Corrections on one thread: those of the reading, and those of the readings behind its scale that
/// go back to the same origin.
std::vector<std::pair<std::string, std::string>> correctionsOnThread(
    const Context& c, const record::Reading& reading) {
    std::vector<std::pair<std::string, std::string>> list;
    const auto add = [&](const record::Reading& from) {
        for (const auto& correction : from.corrections)
            list.emplace_back(kindOf(correction), correction.label);
    };
    add(reading);
    // A contraction rule reads long by itself: what is measured with it is corrected already.
    if (reading.instrument) {
        const std::string instrument = foldedText(*reading.instrument);
        if (instrument.find("contraction") != std::string::npos ||
            instrument.find("shrinkrule") != std::string::npos)
            list.emplace_back("casting contraction", *reading.instrument);
    }
    const auto* frame = reading.frame ? c.index.frame(reading.frame->text) : nullptr;
    const auto* own = c.index.sourceOf(reading);
    if (!frame || !own) return list;
    for (const auto& reference : frame->references) {
        if (!reference.length.dimension || reference.setAside) continue;
        for (const auto* behind : c.index.readingsOf(reference.length.dimension->text)) {
            const auto at = c.readingAt.find(behind->id.text);
            const auto* source = c.index.sourceOf(*behind);
            if (at == c.readingAt.end() ||
                c.solution.readings[at->second].use != network::ReadingUse::Used || !source ||
                c.lineage.originOf(*source) != c.lineage.originOf(*own))
                continue;
            add(*behind);
        }
    }
    return list;
}

void addDoubleCorrection(const Context& c, const network::ReadingSolution& reading,
                         std::vector<Finding>& findings) {
    const auto& entered = *c.index.reading(reading.id.text);
    std::map<std::string, std::vector<std::string>> byKind;
    for (const auto& [kind, label] : correctionsOnThread(c, entered))
        byKind[kind].push_back("“" + label + "”");
    for (auto& [kind, labels] : byKind) {
        if (labels.size() < 2) continue;
        std::ranges::sort(labels);
        // One label written twice is named once.
        const std::size_t count = labels.size();
        labels.erase(std::unique(labels.begin(), labels.end()), labels.end());
        const std::string by = labels.size() == 1
                                   ? fmt::format("{}, {} times", labels.front(), count)
                                   : listText(labels);
        const auto& d = c.solution.dimensions[reading.dimension];
        findings.push_back(
            made("double-correction", {record::any(d.id), record::any(reading.id)},
                 fmt::format("{}: {} is corrected more than once for the same thing, by {}.",
                             nameOf(c.record(d)), nameOf(c.index, entered), by),
                 "Keep the one correction that applies, or name them apart where they are for "
                 "different things.",
                 {{"corrections", static_cast<double>(count)}}));
    }
}

}  // namespace

void findPartFaults(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& reading : c.solution.readings) {
        if (reading.use == network::ReadingUse::SetAside ||
            c.solution.dimensions[reading.dimension].setAside)
            continue;
        addAltered(c, reading, findings);
        if (reading.use == network::ReadingUse::Used) addDoubleCorrection(c, reading, findings);
    }
}

}  // namespace evidence::judgement
