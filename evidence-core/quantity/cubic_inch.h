#pragma once

#include "evidence-core/quantity/square_inch.h"

namespace evidence::quantity {

/// A volume. Canonical unit: cubic inch.
class CubicInch : public StrongScalar<CubicInch> {
  public:
    constexpr CubicInch() = default;
    [[nodiscard]] static constexpr CubicInch fromCubicInches(double in3) { return make(in3); }
    [[nodiscard]] static constexpr CubicInch fromCubicMillimetres(double mm3) {
        return make(mm3 /
                    (kMillimetresPerInch * kMillimetresPerInch * kMillimetresPerInch).value());
    }
    [[nodiscard]] constexpr double toCubicInches() const { return m_canonical; }
    [[nodiscard]] constexpr double toCubicMillimetres() const {
        return m_canonical *
               (kMillimetresPerInch * kMillimetresPerInch * kMillimetresPerInch).value();
    }
};

[[nodiscard]] constexpr CubicInch operator*(SquareInch a, Inch b) {
    return CubicInch::fromCubicInches(a.toSquareInches() * b.toInches());
}

}  // namespace evidence::quantity
