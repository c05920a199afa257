#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/finding/guess_age.h"
#include "evidence-core/judgement/grade_words.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

namespace {

/// What else is known of the size, beside guesses, in words.
std::string restOfEvidence(const Context& c, const network::DimensionSolution& d) {
    std::vector<std::string> known;
    for (const auto at : d.readings) {
        const auto& reading = c.solution.readings[at];
        if (reading.use == network::ReadingUse::SetAside) continue;
        const auto& entered = *c.index.reading(reading.id.text);
        if (entered.basis == record::Basis::Guessed || entered.basis == record::Basis::Assumed)
            continue;
        std::string name = nameOf(c.index, entered);
        if (std::ranges::find(known, name) == known.end()) known.push_back(std::move(name));
    }
    std::ranges::sort(known);
    if (known.empty()) return "Nobody has measured, figured or described it.";
    return fmt::format("What else is known of it does not do without: {}.", listText(known, 4));
}

void addRestsOnGuess(const Judged& judged, std::size_t i, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    const auto& d = c.solution.dimensions[i];
    const auto guesses = c.namesOfLeaves(holdingLeaves(c, i, record::Grade::OurCall), i);
    const auto& dimension = c.record(d);
    std::string text = fmt::format("{} rests on a guess: without {} nothing fixes it. {}",
                                   nameOf(dimension), listText(guesses, 3), restOfEvidence(c, d));
    const bool critical = dimension.critical.value_or(false);
    if (critical)
        text +=
            " It is safety-critical: strength and fitness for use are for licensed practice "
            "and local rules, never for this register.";
    std::vector<std::pair<std::string, double>> numbers{{"share", d.guessShare}};
    if (d.value) numbers.emplace_back("value", c.units[i].shown(*d.value));
    if (d.u) numbers.emplace_back("u", c.units[i].shown(*d.u));
    addAge(c, holdingLeaves(c, i, record::Grade::OurCall), text, numbers);
    auto finding = made("rests-on-guess", {record::any(d.id)}, std::move(text),
                        judged.grades[i].raiseBy, std::move(numbers));
    if (critical) finding.severity = Severity::High;
    findings.push_back(std::move(finding));
}

void addPulledByGuess(const Judged& judged, std::size_t i, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    const auto& d = c.solution.dimensions[i];
    std::vector<std::size_t> borrowed;
    for (const auto& part : d.contributions) {
        const auto& strength = c.solution.leaves[part.leaf].strength;
        if (strength && *strength >= record::Grade::CarriedOver && part.share > 0.01)
            borrowed.push_back(part.leaf);
    }
    const double borrowedOnly = d.borrowedShare - d.guessShare;
    const char* what = borrowedOnly < 0.005   ? "guesses"
                       : d.guessShare < 0.005 ? "values borrowed from elsewhere"
                                              : "guesses and borrowed values";
    std::string text =
        fmt::format("{} leans on us: {} of its doubt comes from {} ({}).", nameOf(c.record(d)),
                    percentText(d.borrowedShare), what, listText(c.namesOfLeaves(borrowed, i), 3));
    std::vector<std::pair<std::string, double>> numbers{{"share", d.borrowedShare},
                                                        {"guess_share", d.guessShare}};
    if (d.valueWithoutGuess && d.guessShare > 0) {
        const double value = c.units[i].shown(*d.valueWithoutGuess);
        numbers.emplace_back("value_without_guess", value);
        std::optional<double> halfWidth;
        if (d.uWithoutGuess) {
            numbers.emplace_back("u_without_guess", c.units[i].shown(*d.uWithoutGuess));
            halfWidth = 1.96 * c.units[i].shown(*d.uWithoutGuess);
        }
        text += fmt::format(" Without any guess it would be {}, instead of {}.",
                            sizeText(value, halfWidth, c.units[i].name), c.sizeOf(i));
    }
    if (!d.restsOnGuess) addAge(c, borrowed, text, numbers);
    findings.push_back(made("pulled-by-guess", {record::any(d.id)}, std::move(text),
                            "Evidence in the place of these. " + judged.grades[i].raiseBy,
                            std::move(numbers)));
}

}  // namespace

void findGuesses(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto& d = c.solution.dimensions[i];
        if (d.setAside || !d.estimable) continue;
        if (d.restsOnGuess) addRestsOnGuess(judged, i, findings);
        if (d.borrowedShare > c.thresholds.shareNotAboveT) addPulledByGuess(judged, i, findings);
    }
}

}  // namespace evidence::judgement
