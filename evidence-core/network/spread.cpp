#include "evidence-core/network/worth.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <numbers>
#include <string>

/// The defaults table of domain.md and the floors of guesses.
namespace evidence::network {

using quantity::Measure;
using record::Basis;

namespace {

constexpr double kSqrt3 = std::numbers::sqrt3;
constexpr double kSqrt6 = kSqrt3 * std::numbers::sqrt2;
/// Half-width of a 95 % interval of the standard normal distribution, z(0.975).
constexpr double kZ95 = 1.959963984540054;

constexpr double kRuleHalfWidth = 1.0 / 64.0;
constexpr double kCaliperHalfWidth = 0.002;
constexpr double kTapeHalfWidth = 1.0 / 16.0;
constexpr double kTapeLength = 120.0;

Spread rectangular(double halfWidth) {
    return {halfWidth / kSqrt3, ErrorShape::Rectangular, false, false};
}

double gaugedHalfWidth(double value, std::string_view instrument) {
    std::string words(instrument);
    std::transform(words.begin(), words.end(), words.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    const auto says = [&](std::string_view word) { return words.find(word) != std::string::npos; };
    if (says("caliper") || says("calliper") || says("micrometer")) return kCaliperHalfWidth;
    if (says("tape"))
        return std::max(kTapeHalfWidth, kTapeHalfWidth * std::abs(value) / kTapeLength);
    return kRuleHalfWidth;
}

double guessFloorHalfWidth(double value, const SpreadQuery& q, const record::Settings& s) {
    const double relative = s.guessFloorRelative.value_or(0.03) * std::abs(value);
    switch (q.measure) {
        case Measure::Length:
            return std::max(relative, s.guessFloorLength.value_or(0.25));
        case Measure::Angle:
            return s.guessFloorAngle.value_or(2.0) * std::numbers::pi / 180.0;
        case Measure::Mass:
            return s.guessFloorMass.value_or(0.10) * std::abs(value);
        case Measure::Number:
            return q.ratio ? relative : s.guessFloorCount.value_or(1.0);
        case Measure::Area:
        case Measure::Volume:
            return relative;
    }
    return relative;
}

bool isGuess(Basis basis) {
    return basis == Basis::Guessed || basis == Basis::Assumed;
}

std::optional<Spread> defaultSpread(const WrittenValue& v, Basis basis, const SpreadQuery& q,
                                    const record::Settings& s) {
    switch (basis) {
        case Basis::Figured:
            return rectangular(q.figuredStep.value_or(v.resolution) / 2);
        case Basis::Gauged:
            if (q.measure == Measure::Length)
                return rectangular(gaugedHalfWidth(v.value, q.instrument));
            return rectangular(v.resolution / 2);
        case Basis::Analogous:
        case Basis::TradeRule:
            return Spread{s.analogousRelative.value_or(0.02) * std::abs(v.value),
                          ErrorShape::Normal, false, false};
        case Basis::Guessed:
        case Basis::Assumed:
            return rectangular(guessFloorHalfWidth(v.value, q, s));
        case Basis::Interpolated:
        case Basis::Inferred:
            return std::nullopt;
        case Basis::Stated:
        case Basis::Told:
        case Basis::Scaled:
        case Basis::Limit:
        case Basis::Measured:
        case Basis::Symmetry:
        case Basis::Geometry:
            return rectangular(v.resolution / 2);
    }
    return std::nullopt;
}

std::optional<Spread> givenSpread(const WrittenValue& v, const SpreadQuery& q) {
    const auto canonical = [&](double x) { return std::abs(quantity::toCanonical(x, v.unit)); };
    if (q.u) return Spread{canonical(*q.u), ErrorShape::Normal, false, false};
    if (q.halfWidth) {
        const double h = canonical(*q.halfWidth);
        switch (q.shape.value_or(record::Shape::Rectangular)) {
            case record::Shape::Rectangular:
                return rectangular(h);
            case record::Shape::Triangular:
                return Spread{h / kSqrt6, ErrorShape::Triangular, false, false};
            case record::Shape::Normal95:
                return Spread{h / kZ95, ErrorShape::Normal, false, false};
        }
    }
    if (q.roundedTo) return rectangular(canonical(*q.roundedTo) / 2);
    return std::nullopt;
}

/// Half-width that a given uncertainty amounts to: as given, or that of the rectangle with its u.
double halfWidthOf(const Spread& given, const WrittenValue& v, const SpreadQuery& q) {
    if (!q.u && q.halfWidth) return std::abs(quantity::toCanonical(*q.halfWidth, v.unit));
    return given.u * kSqrt3;
}

Spread withDegreesOfFreedom(Spread given, int dof, const std::optional<Spread>& standard) {
    if (dof >= 3) {
        given.u *= std::sqrt(static_cast<double>(dof) / (dof - 2));
        return given;
    }
    if (standard) {
        given.u = std::hypot(given.u, standard->u);
        given.shape = ErrorShape::Normal;
    }
    return given;
}

}  // namespace

Result<Spread> spreadOf(const WrittenValue& value, const SpreadQuery& query,
                        const record::Settings& settings, std::string_view place) {
    for (const auto& [key, given] : std::array<std::pair<const char*, std::optional<double>>, 3>{
             {{"u", query.u}, {"half_width", query.halfWidth}, {"rounded_to", query.roundedTo}}})
        if (given && !(*given >= 0 && std::isfinite(*given)))
            return refuse(Code::BadValue, std::string(place) + "/" + key,
                          "An uncertainty is a number of 0 or more.");
    const Basis basis = query.basis.value_or(Basis::Guessed);
    const std::optional<Spread> standard = defaultSpread(value, basis, query, settings);
    std::optional<Spread> given = givenSpread(value, query);
    if (!given) {
        if (!standard)
            return refuse(Code::MissingKey, std::string(place) + "/u",
                          "An interpolated or inferred value has no default: give u or "
                          "half_width.");
        Spread spread = *standard;
        spread.byDefault = true;
        return spread;
    }
    if (query.dof) given = withDegreesOfFreedom(*given, *query.dof, standard);
    // A guess cannot buy weight with a small spread, nor a sister machine with a tight one.
    const bool tooTightGuess = isGuess(basis) && !query.floorReason &&
                               halfWidthOf(*given, value, query) <
                                   guessFloorHalfWidth(value.value, query, settings) * (1 - 1e-12);
    const bool tooTightAnalogy =
        basis == Basis::Analogous && !query.floorReason && given->u < standard->u * (1 - 1e-12);
    if (tooTightGuess || tooTightAnalogy) {
        given = *standard;
        given->floored = true;
    }
    return *given;
}

}  // namespace evidence::network
