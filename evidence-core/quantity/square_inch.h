#pragma once

#include "evidence-core/quantity/inch.h"

namespace evidence::quantity {

/// An area. Canonical unit: square inch.
class SquareInch : public StrongScalar<SquareInch> {
  public:
    constexpr SquareInch() = default;
    [[nodiscard]] static constexpr SquareInch fromSquareInches(double in2) { return make(in2); }
    [[nodiscard]] static constexpr SquareInch fromSquareMillimetres(double mm2) {
        return make(mm2 / (kMillimetresPerInch * kMillimetresPerInch).value());
    }
    [[nodiscard]] constexpr double toSquareInches() const { return m_canonical; }
    [[nodiscard]] constexpr double toSquareMillimetres() const {
        return m_canonical * (kMillimetresPerInch * kMillimetresPerInch).value();
    }
};

[[nodiscard]] constexpr SquareInch operator*(Inch a, Inch b) {
    return SquareInch::fromSquareInches(a.toInches() * b.toInches());
}

}  // namespace evidence::quantity
