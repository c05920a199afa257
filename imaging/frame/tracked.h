#pragma once

#include "evidence-core/frame/derived.h"

#include <Eigen/Core>

#include <array>
#include <utility>
#include <vector>

namespace imaging::frame {

/// A number with its derivatives by inputs and parameters, to first order (JCGM 100:2008, 5.2.2).
/// Each derivative stands beside the index of its variable; those that are absent are zero.
struct Tracked {
    double value = 0;
    std::vector<std::pair<int, double>> by;  ///< by ascending index, no index twice

    [[nodiscard]] double derivative(int index) const;
};

struct TrackedPoint {
    Tracked x;
    Tracked y;
    [[nodiscard]] Eigen::Vector2d at() const { return {x.value, y.value}; }
};

/// A number that hangs on nothing.
[[nodiscard]] inline Tracked constant(double value) {
    return {value, {}};
}
/// The variable of that index itself.
[[nodiscard]] inline Tracked variable(double value, int index) {
    return {value, {{index, 1}}};
}

/// `value` with the derivatives Σ factor·(derivatives of its part): the chain rule.
[[nodiscard]] Tracked chained(double value,
                              const std::vector<std::pair<double, const Tracked*>>& parts);

[[nodiscard]] Tracked operator+(const Tracked& a, const Tracked& b);
[[nodiscard]] Tracked operator-(const Tracked& a, const Tracked& b);
[[nodiscard]] Tracked operator*(const Tracked& a, const Tracked& b);
[[nodiscard]] Tracked operator*(double factor, const Tracked& a);

/// A function of `arguments` known with its derivatives.
template <int N>
[[nodiscard]] Tracked through(const evidence::frame::Derived<N>& function,
                              const std::array<const Tracked*, N>& arguments) {
    std::vector<std::pair<double, const Tracked*>> parts;
    parts.reserve(N);
    for (std::size_t i = 0; i < N; ++i) {
        parts.emplace_back(function.jacobian(static_cast<Eigen::Index>(i)), arguments[i]);
    }
    return chained(function.value, parts);
}

}  // namespace imaging::frame
