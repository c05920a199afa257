#include "evidence-core/judgement/mistake.h"

#include "evidence-core/judgement/misread_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evidence::judgement {

namespace {

using quantity::Measure;

/// One way in which a true size could have become the observed one: observed = factor·true + add.
struct Variant {
    double factor = 1;
    double add = 0;
    std::string cause;
};

struct Sign {
    std::string name;
    std::vector<Variant> variants;
    std::string test;
};

Variant ratio(double factor, std::string cause) {
    return {factor, 0, std::move(cause)};
}
Variant shift(double add, std::string cause) {
    return {1, add, std::move(cause)};
}

/// Both a ratio and its inverse.
std::vector<Variant> bothWays(const std::vector<std::pair<double, std::string>>& ratios) {
    std::vector<Variant> variants;
    for (const auto& [factor, cause] : ratios) {
        variants.push_back(ratio(factor, cause));
        variants.push_back(ratio(1 / factor, cause));
    }
    return variants;
}

std::vector<Sign> signsOfLengths() {
    return {
        {"one-inch",
         {shift(1, "an inch slipped on the tape"), shift(-1, "an inch slipped on the tape")},
         "See whether its neighbours are off too, and add up the running total."},
        {"one-foot",
         {shift(12, "a foot slipped on the tape"), shift(-12, "a foot slipped on the tape")},
         "See whether its neighbours are off too, and add up the running total."},
        {"metric",
         bothWays({{25.4, "millimetres were taken for inches, or the other way round"},
                   {2.54, "centimetres were taken for inches, or the other way round"},
                   {1 / 0.3048, "metres were taken for feet, or the other way round"}}),
         "Look at the other figures on the same sheet: do they make sense in the other unit?"},
        {"foot-for-inch", bothWays({{12, "feet were taken for inches, or the other way round"}}),
         "Look at the other figures on the same sheet: are they in feet or in inches?"},
        {"local-inch",
         bothWays({{1.0658, "old French inches were read as English ones"},
                   {1.0297, "Prussian inches were read as English ones"},
                   {0.974, "Swedish inches were read as English ones"}}),
         "Find out where and when the drawing office worked."},
        {"drawn-scale",
         bothWays({{50.0 / 48.0, "the scale was taken for its neighbour, such as 1:48 for 1:50"}}),
         "Measure the scale bar, or any figured length on the same sheet."},
        {"foot-scale",
         bothWays({{1.2, "an inch to the foot was taken for 1:10"},
                   {1.25, "an inch and a half to the foot was taken for 1:10"}}),
         "Measure the scale bar, or any figured length on the same sheet."},
        {"contraction",
         bothWays({{1.0104, "a pattern maker's rule for iron was used"},
                   {1.0156, "a pattern maker's rule for brass was used"},
                   {1.0208, "a pattern maker's rule for steel was used"}}),
         "Find out whether this is a pattern drawing: those are made to a contraction rule."},
    };
}

std::vector<Sign> signsOfAll() {
    return {
        {"twice", bothWays({{2, "a radius was taken for a diameter, or a half for the whole"}}),
         "Look for the symbol or the centre line beside the figure."},
        {"decimal-point",
         bothWays({{10, "the decimal point slipped"}, {100, "the decimal point slipped twice"}}),
         "Compare it with the figures beside it."},
    };
}

std::optional<Sign> signOfThickness(const Disagreement& d) {
    Sign sign{"inside-outside",
              {},
              "Look at the section: is the size taken inside or outside, over or under the skin?"};
    for (const auto& [name, thickness] : d.thicknesses)
        for (const double times : {1.0, 2.0, -1.0, -2.0})
            sign.variants.push_back(shift(
                times * thickness, fmt::format("inside was taken for outside: the difference is "
                                               "{}{}",
                                               std::abs(times) > 1 ? "twice " : "", name)));
    if (sign.variants.empty()) return std::nullopt;
    return sign;
}

std::optional<Sign> signOfHalfMember(const Disagreement& d) {
    Sign sign{"edge-or-centre",
              {},
              "See which line the arrow or the mark stands on: the edge or the centre line?"};
    for (const auto& [name, width] : d.widths)
        for (const double times : {0.5, -0.5})
            sign.variants.push_back(shift(
                times * width,
                fmt::format("an edge was taken for a centre line: the difference is half of {}",
                            name)));
    if (sign.variants.empty()) return std::nullopt;
    return sign;
}

double normalDensity(double x, double mean, double variance) {
    const double off = x - mean;
    return std::exp(-off * off / (2 * variance)) / std::sqrt(2 * std::numbers::pi * variance);
}

}  // namespace

std::optional<Mistake> likelyMistake(const Disagreement& d) {
    const double u2Observed = d.uObserved * d.uObserved;
    const double u2Predicted = d.uPredicted * d.uPredicted;
    if (!(u2Observed + u2Predicted > 0)) return std::nullopt;
    const double span = 2 * std::max(std::abs(d.observed), std::abs(d.predicted));

    std::vector<Sign> signs = signsOfAll();
    if (d.measure == Measure::Length) {
        auto lengths = signsOfLengths();
        signs.insert(signs.begin(), lengths.begin(), lengths.end());
        if (auto thickness = signOfThickness(d)) signs.push_back(std::move(*thickness));
        if (auto half = signOfHalfMember(d)) signs.push_back(std::move(*half));
    }
    int tried = static_cast<int>(signs.size());
    Mistake best;
    for (const auto& sign : signs)
        for (const auto& variant : sign.variants) {
            const double variance = u2Observed + variant.factor * variant.factor * u2Predicted;
            const double odds =
                span *
                normalDensity(d.observed, variant.factor * d.predicted + variant.add, variance);
            if (odds > best.odds)
                best = {sign.name, variant.cause,
                        sign.test, odds,
                        0,         (d.observed - variant.add) / variant.factor};
        }
    if (d.written) {
        for (const auto& family : misreadFigures(*d.written, d.measure, d.bareUnit)) {
            ++tried;
            for (const auto& reading : family.readings) {
                // The rest of the reading (corrections) shifts with the figure.
                const double corrected = d.observed + reading.canonical - family.asWritten;
                const double odds =
                    span * normalDensity(corrected, d.predicted, u2Observed + u2Predicted);
                if (odds > best.odds)
                    best = {family.sign, fmt::format("{} should read {}", *d.written, reading.text),
                            family.test, odds,
                            0,           corrected};
            }
        }
    }
    best.signsTried = tried;
    if (!(best.odds > 20.0 * tried)) return std::nullopt;
    return best;
}

}  // namespace evidence::judgement
