#pragma once

#include "evidence-core/quantity/cubic_inch.h"
#include "evidence-core/quantity/pound.h"
#include "evidence-core/quantity/ratio.h"

#include <cstdint>
#include <numeric>

namespace evidence::trade {

[[nodiscard]] constexpr quantity::Ratio reduced(quantity::Ratio ratio) {
    const std::int64_t common = std::gcd(ratio.numerator, ratio.denominator);
    return {ratio.numerator / common, ratio.denominator / common};
}

/// 1 lb/ft3 in lb/in3, exact.
inline constexpr quantity::Ratio kPoundPerCubicFoot{1, 1728};
/// 1 g/cm3 in lb/in3, exact: a thousandth of a kilogram in pounds, (2.54)³ cubic centimetres to the
/// cubic inch.
inline constexpr quantity::Ratio kGramPerCubicCentimetre = [] {
    const auto centimetres =
        reduced(quantity::kMillimetresPerInch * quantity::Ratio{1, 10});  // to the inch
    const auto cubic = reduced(centimetres * reduced(centimetres * centimetres));
    return reduced(cubic *
                   reduced(quantity::kKilogramsPerPound.inverse() * quantity::Ratio{1, 1000}));
}();

/// Mass of a volume. Canonical unit: pound per cubic inch.
class Density : public quantity::StrongScalar<Density> {
  public:
    constexpr Density() = default;
    [[nodiscard]] static constexpr Density fromPoundsPerCubicInch(double v) { return make(v); }
    [[nodiscard]] static constexpr Density fromPoundsPerCubicFoot(double v) {
        return make(v * kPoundPerCubicFoot.value());
    }
    [[nodiscard]] static constexpr Density fromGramsPerCubicCentimetre(double v) {
        return make(v * kGramPerCubicCentimetre.value());
    }
    [[nodiscard]] constexpr double toPoundsPerCubicInch() const { return m_canonical; }
    [[nodiscard]] constexpr double toPoundsPerCubicFoot() const {
        return m_canonical / kPoundPerCubicFoot.value();
    }
};

[[nodiscard]] constexpr quantity::Pound operator*(Density density, quantity::CubicInch volume) {
    return quantity::Pound::fromPounds(density.toPoundsPerCubicInch() * volume.toCubicInches());
}

}  // namespace evidence::trade
