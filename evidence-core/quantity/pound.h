#pragma once

#include "evidence-core/quantity/ratio.h"
#include "evidence-core/quantity/strong_scalar.h"

namespace evidence::quantity {

/// 1 lb = 0.45359237 kg, exact by definition (international yard and pound agreement, 1959).
/// The only place where this number stands.
inline constexpr Ratio kKilogramsPerPound{45359237, 100000000};

/// A mass. Canonical unit: pound (avoirdupois).
class Pound : public StrongScalar<Pound> {
  public:
    constexpr Pound() = default;
    [[nodiscard]] static constexpr Pound fromPounds(double lb) { return make(lb); }
    [[nodiscard]] static constexpr Pound fromKilograms(double kg) {
        return make(kg / kKilogramsPerPound.value());
    }
    [[nodiscard]] constexpr double toPounds() const { return m_canonical; }
    [[nodiscard]] constexpr double toKilograms() const {
        return m_canonical * kKilogramsPerPound.value();
    }
};

}  // namespace evidence::quantity
