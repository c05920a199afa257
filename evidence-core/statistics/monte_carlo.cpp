#include "evidence-core/statistics/monte_carlo.h"

#include "evidence-core/statistics/philox.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

namespace evidence::statistics {
namespace {

using Law = DrawShape::Law;

struct Uniforms {
    double first = 0;  ///< both inside (0, 1), never an end of it
    double second = 0;
};

double openUnit(std::uint32_t upper, std::uint32_t lower) {
    // 52 bits and a half: no draw is 0 or 1, where quantiles are infinite.
    const std::uint64_t bits = (std::uint64_t{upper} << 20u) | (lower >> 12u);
    return (static_cast<double>(bits) + 0.5) * 0x1p-52;
}

Uniforms uniforms(std::uint64_t seed, std::uint32_t input, std::uint64_t trial) {
    const PhiloxBlock words = philox(
        {static_cast<std::uint32_t>(trial), static_cast<std::uint32_t>(trial >> 32u), input, 0},
        {static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32u)});
    return {openUnit(words[0], words[1]), openUnit(words[2], words[3])};
}

double cosOfTurn(double turn) {
    return std::cos(2 * std::numbers::pi * turn);
}

/// How many of `count` sorted values an interval spans, less one.
std::size_t spanOf(std::size_t count, double probability) {
    const auto held =
        static_cast<std::size_t>(std::floor(probability * static_cast<double>(count) + 0.5));
    return std::clamp<std::size_t>(held, 1, count - 1);
}

}  // namespace

DrawShape normalDraw(double u) {
    return {Law::Normal, u, 0};
}
DrawShape rectangularDraw(double halfWidth) {
    return {Law::Rectangular, halfWidth, 0};
}
DrawShape triangularDraw(double halfWidth) {
    return {Law::Triangular, halfWidth, 0};
}
DrawShape arcSineDraw(double halfWidth) {
    return {Law::ArcSine, halfWidth, 0};
}
DrawShape curvedTrapezoidDraw(double halfWidth, double inexactness) {
    assert(inexactness >= 0 && inexactness <= halfWidth);
    return {Law::CurvedTrapezoid, halfWidth, inexactness};
}
DrawShape studentDraw(double scale, double degrees) {
    assert(degrees > 0);
    return {Law::StudentT, scale, degrees};
}

DrawShape drawOf(const quantity::Component& component) {
    switch (component.shape) {
        case quantity::Shape::Normal:
            return normalDraw(component.u);
        case quantity::Shape::Rectangular:
            return rectangularDraw(component.u * std::numbers::sqrt3);
        case quantity::Shape::Triangular:
            return triangularDraw(component.u * std::sqrt(6.0));
    }
    return normalDraw(component.u);
}

double standardDeviation(const DrawShape& shape) {
    switch (shape.law) {
        case Law::Normal:
            return shape.scale;
        case Law::Rectangular:
            return shape.scale / std::numbers::sqrt3;
        case Law::Triangular:
            return shape.scale / std::sqrt(6.0);
        case Law::ArcSine:
            return shape.scale / std::numbers::sqrt2;
        case Law::CurvedTrapezoid:
            return std::sqrt(shape.scale * shape.scale / 3 + shape.second * shape.second / 9);
        case Law::StudentT:
            return shape.second > 2 ? shape.scale * std::sqrt(shape.second / (shape.second - 2))
                                    : std::numeric_limits<double>::infinity();
    }
    return 0;
}

double drawn(const DrawShape& shape, std::uint64_t seed, std::uint32_t input, std::uint64_t trial) {
    const auto [first, second] = uniforms(seed, input, trial);
    switch (shape.law) {
        case Law::Normal:
            return shape.scale * std::sqrt(-2 * std::log(first)) * cosOfTurn(second);
        case Law::Rectangular:
            return shape.scale * (2 * first - 1);
        case Law::Triangular:
            return shape.scale * (first + second - 1);
        case Law::ArcSine:
            return shape.scale * cosOfTurn(first);
        case Law::CurvedTrapezoid: {
            const double half = shape.scale + shape.second * (2 * first - 1);
            return half * (2 * second - 1);
        }
        case Law::StudentT:
            return shape.scale *
                   std::sqrt(shape.second * std::expm1(-2 / shape.second * std::log(first))) *
                   cosOfTurn(second);
    }
    return 0;
}

std::vector<double> draws(const DrawShape& shape, std::uint64_t seed, std::uint32_t input,
                          std::size_t count) {
    std::vector<double> out(count);
    for (std::size_t trial = 0; trial < count; ++trial)
        out[trial] = drawn(shape, seed, input, trial);
    return out;
}

quantity::Interval symmetricInterval(std::span<const double> sorted, double probability) {
    assert(sorted.size() >= 2);
    const std::size_t held = spanOf(sorted.size(), probability);
    const std::size_t below = (sorted.size() - held) / 2;
    const std::size_t last = std::min(below + held, sorted.size() - 1);
    return {sorted[last - held], sorted[last]};
}

quantity::Interval shortestInterval(std::span<const double> sorted, double probability) {
    assert(sorted.size() >= 2);
    const std::size_t held = spanOf(sorted.size(), probability);
    std::size_t best = 0;
    for (std::size_t i = 1; i + held < sorted.size(); ++i)
        if (sorted[i + held] - sorted[i] < sorted[best + held] - sorted[best]) best = i;
    return {sorted[best], sorted[best + held]};
}

Propagated summaryOf(std::vector<double> values, double probability) {
    std::erase_if(values, [](double x) { return !std::isfinite(x); });
    if (values.size() < 2) {
        const double nan = std::numeric_limits<double>::quiet_NaN();
        return {nan, nan, {nan, nan}, {nan, nan}};
    }
    std::ranges::sort(values);
    Propagated out;
    const auto n = static_cast<double>(values.size());
    // From the middle value: no digits are lost where the spread is small beside the value.
    const double middle = values[values.size() / 2];
    double sum = 0;
    for (const double x : values) sum += x - middle;
    out.mean = middle + sum / n;
    double squares = 0;
    for (const double x : values) squares += (x - out.mean) * (x - out.mean);
    out.u = std::sqrt(squares / (n - 1));
    out.symmetric = symmetricInterval(values, probability);
    out.shortest = shortestInterval(values, probability);
    return out;
}

Propagated propagate(std::span<const DrawShape> errors,
                     const std::function<double(std::span<const double>)>& model,
                     const DrawOptions& options) {
    std::vector<double> values(options.count);
    std::vector<double> trialErrors(errors.size());
    std::size_t finite = 0;
    for (std::size_t trial = 0; trial < options.count; ++trial) {
        for (std::size_t i = 0; i < errors.size(); ++i)
            trialErrors[i] = drawn(errors[i], options.seed, static_cast<std::uint32_t>(i), trial);
        values[trial] = model(trialErrors);
        if (std::isfinite(values[trial])) ++finite;
    }
    if (2 * finite < options.count) values.clear();
    return summaryOf(std::move(values), options.probability);
}

}  // namespace evidence::statistics
