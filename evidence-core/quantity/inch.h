#pragma once

#include "evidence-core/quantity/ratio.h"
#include "evidence-core/quantity/strong_scalar.h"

namespace evidence::quantity {

/// 1 in = 25.4 mm, exact by definition (international yard and pound agreement, 1959).
/// The only place where this number stands.
inline constexpr Ratio kMillimetresPerInch{254, 10};

/// A length. Canonical unit: inch.
class Inch : public StrongScalar<Inch> {
  public:
    constexpr Inch() = default;
    [[nodiscard]] static constexpr Inch fromInches(double in) { return make(in); }
    [[nodiscard]] static constexpr Inch fromFeet(double ft) { return make(ft * 12.0); }
    [[nodiscard]] static constexpr Inch fromMillimetres(double mm) {
        return make(mm / kMillimetresPerInch.value());
    }
    [[nodiscard]] constexpr double toInches() const { return m_canonical; }
    [[nodiscard]] constexpr double toFeet() const { return m_canonical / 12.0; }
    [[nodiscard]] constexpr double toMillimetres() const {
        return m_canonical * kMillimetresPerInch.value();
    }
};

}  // namespace evidence::quantity
