#include "evidence-core/judgement/explain.h"

#include "evidence-core/judgement/thread.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

namespace {

void addEvidence(std::string& text, const Index& index, const Thread& thread) {
    std::vector<std::pair<double, std::size_t>> leaves;
    std::vector<double> out(thread.nodes.size(), 0);
    for (const auto& link : thread.links) out[link.from] += link.share;
    for (std::size_t i = 0; i < thread.nodes.size(); ++i) {
        const auto& node = thread.nodes[i];
        if (node.stage == ThreadStage::Source || node.stage == ThreadStage::Value ||
            (node.stage == ThreadStage::Mark && !index.reading(node.id)))
            continue;
        leaves.emplace_back(out[i], i);
    }
    std::ranges::stable_sort(leaves, [&](const auto& a, const auto& b) {
        if (thread.nodes[a.second].stage != thread.nodes[b.second].stage)
            return thread.nodes[a.second].stage > thread.nodes[b.second].stage;
        return a.first > b.first;
    });
    if (leaves.empty()) return;
    // A fact has no doubt to be shared out: its readings are voices.
    text += index.particular(thread.on) ? "\nWhat it hangs on (share of the voices):\n"
                                        : "\nWhat it hangs on (share of the doubt):\n";
    for (const auto& [share, at] : leaves) {
        const auto& node = thread.nodes[at];
        std::string note;
        if (node.setAside) note += ", set aside";
        if (node.echo) note += ", an echo: shown, not counted";
        if (node.guess) note += ", a guess";
        text += fmt::format("  {:>6}  {}{}{}\n", share > 0 ? percentText(share) : "-", node.title,
                            node.detail.empty() ? "" : " [" + node.detail + "]", note);
    }
    text += "\nSources:\n";
    for (const auto& node : thread.nodes)
        if (node.stage == ThreadStage::Source)
            text += fmt::format("  {} [{}]\n", node.title, node.detail);
}

/// Figures about the readings that an expert asks for; nothing is widened by them.
void addAgreement(std::string& text, const DimensionResult& result) {
    if (const auto& a = result.agreement)
        text += fmt::format(
            "\nHow well {} agree (shown only, nothing is widened by it):\n"
            "  Birge ratio {} (1: they scatter as their doubts say), chance of more scatter {}\n"
            "  spread between sources {}, middle value {}\n",
            countText(static_cast<std::size_t>(a->readings), "origin", "origins"),
            plainNumber(a->birge, 3), plainNumber(a->p, 2), amountText(a->between, result.unit),
            sizeText(a->median, 2 * a->uInternal, result.unit));
    if (const auto& r = result.repeats)
        text += fmt::format(
            "\nRepeats: by Student's t with {} effective degrees of freedom the size would be "
            "known within {} (95 %).\n",
            plainNumber(r->degrees, 3), amountText(r->halfWidth, result.unit));
}

void addDecisions(std::string& text, const Index& index, const record::AnyId& on) {
    const auto& reg = index.reg();
    std::string lines;
    for (const auto& ruling : reg.rulings)
        if (ruling.on == on)
            lines += fmt::format("  {} ruled {} by {}: {}\n", ruling.at,
                                 asWritten(ruling.value, ruling.unit), nameOf(index, ruling.by),
                                 ruling.reason);
    for (const auto& departure : reg.departures)
        if (departure.on == on)
            lines += fmt::format("  built as {} on purpose: {}\n",
                                 asWritten(departure.to, departure.unit), departure.reason);
    for (const auto& slip : reg.slips)
        if (slip.on == on)
            lines += fmt::format("  {} handed to the shop: {}\n", slip.at,
                                 asWritten(slip.value, slip.unit));
    for (const auto& made : reg.asBuilt)
        if (made.on == on)
            lines += fmt::format("  {} made: {}\n", made.at, asWritten(made.value, made.unit));
    if (!lines.empty()) text += "\nDecisions and work:\n" + lines;
}

void addFindings(std::string& text, const record::AnyId& on, const Analysis& analysis) {
    std::string lines;
    for (const auto& finding : analysis.findings)
        if (std::ranges::find(finding.on, on) != finding.on.end())
            lines +=
                fmt::format("  {}{}\n    {}\n", finding.text,
                            finding.acknowledged ? " (seen, and let stand)" : "", finding.settle);
    if (!lines.empty()) text += "\nTo be looked at:\n" + lines;
}

}  // namespace

record::AnyId namedBy(const std::string& codeOrId, const record::Register& reg) {
    for (const auto& dimension : reg.dimensions)
        if (dimension.code == codeOrId) return record::any(dimension.id);
    for (const auto& particular : reg.particulars)
        if (particular.code == codeOrId) return record::any(particular.id);
    for (const auto& dimension : reg.dimensions)
        if (dimension.id.text == codeOrId) return record::any(dimension.id);
    for (const auto& particular : reg.particulars)
        if (particular.id.text == codeOrId) return record::any(particular.id);
    return {};
}

std::string explainText(const record::AnyId& on, const record::Register& reg,
                        const Analysis& analysis) {
    const Index index(reg);
    const auto thread = threadOf(on, reg, analysis);
    std::string text;
    for (const auto& result : analysis.dimensions) {
        if (result.id.text != on.text) continue;
        const auto& dimension = *index.dimension(on.text);
        std::optional<double> halfWidth;
        if (result.low95 && result.high95) halfWidth = (*result.high95 - *result.low95) / 2;
        text = fmt::format(
            "{}: {}\n",
            nameOf(dimension) + (dimension.component ? ", " + *dimension.component : std::string{}),
            result.value ? sizeText(*result.value, halfWidth, result.unit) : "no value");
        if (result.draws > 0)
            text += fmt::format(
                "95 % interval {:.6g} to {:.6g} {}, counted from {} draws: the "
                "equations are too curved for less\n",
                *result.low95, *result.high95, result.unit, result.draws);
        text += fmt::format("Grade {}. {}\n", record::nameOf(result.grade), result.gradeWhy);
        if (!result.raiseBy.empty())
            text += fmt::format("What would raise it: {}\n", result.raiseBy);
    }
    for (const auto& result : analysis.particulars) {
        if (result.id.text != on.text) continue;
        text = fmt::format("{}: {}\nGrade {}. {}\n", nameOf(*index.particular(on.text)),
                           result.value.value_or("nothing known"), record::nameOf(result.grade),
                           result.gradeWhy);
    }
    if (text.empty()) return text;
    addEvidence(text, index, thread);
    for (const auto& result : analysis.dimensions)
        if (result.id.text == on.text) addAgreement(text, result);
    addDecisions(text, index, on);
    addFindings(text, on, analysis);
    return text;
}

}  // namespace evidence::judgement
