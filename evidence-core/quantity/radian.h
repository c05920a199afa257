#pragma once

#include "evidence-core/quantity/strong_scalar.h"

#include <numbers>

namespace evidence::quantity {

/// A plane angle. Canonical unit: radian.
class Radian : public StrongScalar<Radian> {
  public:
    constexpr Radian() = default;
    [[nodiscard]] static constexpr Radian fromRadians(double rad) { return make(rad); }
    [[nodiscard]] static constexpr Radian fromDegrees(double deg) {
        return make(deg * std::numbers::pi / 180.0);
    }
    [[nodiscard]] constexpr double toRadians() const { return m_canonical; }
    [[nodiscard]] constexpr double toDegrees() const {
        return m_canonical * 180.0 / std::numbers::pi;
    }
};

}  // namespace evidence::quantity
