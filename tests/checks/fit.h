#pragma once

#include "evidence-core/network/solution.h"

#include <functional>
#include <string>
#include <vector>

/// A curve fitted by the evidence network: each parameter is a ratio of the register (D1, D2 …),
/// each observation a relation with u 1 between them.
namespace checks {

struct Fit {
    bool estimable = false;  ///< all parameters have a value
    std::string why;         ///< what the network says of a parameter that is not
    std::vector<double> parameters;
    std::vector<double> deviations;  ///< a posteriori: u × residual deviation
    double sumOfSquares = 0;
    double deviation = 0;  ///< √(sumOfSquares/degrees)
};

/// `predicted` writes the prediction at observation i as a formula in D1, D2 … `start` gives each
/// parameter a reading whose u is so wide that it carries no weight; empty: no such readings.
[[nodiscard]] Fit fitted(const std::vector<double>& observed, std::size_t parameters,
                         const std::function<std::string(std::size_t)>& predicted,
                         const std::vector<double>& start = {});

}  // namespace checks
