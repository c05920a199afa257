#include "evidence-core/judgement/findings.h"

#include "evidence-core/judgement/content.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace evidence::judgement {

namespace {

std::string evidenceOf(const Judged& judged, const record::AnyId& id) {
    const auto& c = judged.context;
    if (const auto at = c.dimensionAt.find(id.text); at != c.dimensionAt.end())
        return c.evidence[at->second];
    for (const auto& fact : judged.facts)
        if (fact.result.id.text == id.text) return fact.result.digest;
    return c.digests.ofRecord(id.text);
}

/// Of all the records a finding concerns; their order plays no part.
std::string digestOf(const Judged& judged, const Finding& finding) {
    std::vector<std::string> lines;
    for (const auto& id : finding.on) lines.push_back(evidenceOf(judged, id));
    std::ranges::sort(lines);
    std::string text = finding.kind;
    for (const auto& line : lines) text += "\n" + line;
    return sha256Of(text);
}

bool isAcknowledged(const Context& c, const Finding& finding) {
    auto on = finding.on;
    std::ranges::sort(on);
    return std::ranges::any_of(c.index.reg().acknowledgements,
                               [&](const record::Acknowledgement& seen) {
                                   if (seen.finding.kind != finding.kind) return false;
                                   if (seen.digest && *seen.digest != finding.digest) return false;
                                   auto named = seen.finding.on;
                                   std::ranges::sort(named);
                                   return named == on;
                               });
}

/// |w|, else the first number; nine figures, so that the last bits of a solution never decide.
double sizeOf(const Finding& finding) {
    double size = finding.numbers.empty() ? 0 : std::abs(finding.numbers.front().second);
    for (const auto& [name, value] : finding.numbers)
        if (name == "w") size = std::abs(value);
    if (!std::isfinite(size) || size == 0) return size;
    const double step = std::pow(10.0, std::floor(std::log10(size)) - 8);
    return std::round(size / step) * step;
}

}  // namespace

std::vector<Finding> findingsOf(const Judged& judged) {
    std::vector<Finding> findings;
    for (const auto finder : finders()) finder(judged, findings);
    for (auto& finding : findings) {
        finding.digest = digestOf(judged, finding);
        finding.acknowledged = isAcknowledged(judged.context, finding);
    }
    const auto key = [](const Finding& f) {
        return std::tuple(static_cast<int>(f.severity), -sizeOf(f), f.text, f.kind, f.digest);
    };
    using Key = std::tuple<int, double, std::string, std::string, std::string>;
    std::vector<std::pair<Key, Finding>> keyed;
    keyed.reserve(findings.size());
    for (auto& finding : findings) keyed.emplace_back(key(finding), std::move(finding));
    std::ranges::stable_sort(keyed, {}, [](const auto& pair) { return pair.first; });
    findings.clear();
    for (auto& pair : keyed) findings.push_back(std::move(pair.second));
    return findings;
}

}  // namespace evidence::judgement
