#pragma once

#include <compare>

namespace evidence::quantity {

/// What every strong number of this room can do: sums and differences of its own kind, scaling by a
/// pure number, ratios of its own kind, ordering. `Self` is the derived type (Inch, Pound …), which
/// adds the named factories and readers; there is no way from or to a bare double but through them.
template <class Self>
class StrongScalar {
  public:
    [[nodiscard]] friend constexpr Self operator+(Self a, Self b) {
        return make(a.m_canonical + b.m_canonical);
    }
    [[nodiscard]] friend constexpr Self operator-(Self a, Self b) {
        return make(a.m_canonical - b.m_canonical);
    }
    [[nodiscard]] friend constexpr Self operator-(Self a) { return make(-a.m_canonical); }
    [[nodiscard]] friend constexpr Self operator*(Self a, double k) {
        return make(a.m_canonical * k);
    }
    [[nodiscard]] friend constexpr Self operator*(double k, Self a) {
        return make(k * a.m_canonical);
    }
    [[nodiscard]] friend constexpr Self operator/(Self a, double k) {
        return make(a.m_canonical / k);
    }
    [[nodiscard]] friend constexpr double operator/(Self a, Self b) {
        return a.m_canonical / b.m_canonical;
    }
    [[nodiscard]] friend constexpr bool operator==(Self a, Self b) {
        return a.m_canonical == b.m_canonical;
    }
    [[nodiscard]] friend constexpr std::partial_ordering operator<=>(Self a, Self b) {
        return a.m_canonical <=> b.m_canonical;
    }

  protected:
    [[nodiscard]] static constexpr Self make(double canonical) {
        Self made;
        made.m_canonical = canonical;
        return made;
    }

    double m_canonical = 0.0;
};

}  // namespace evidence::quantity
