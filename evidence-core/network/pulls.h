#pragma once

#include "evidence-core/network/net.h"
#include "evidence-core/quantity/interval.h"

#include <optional>
#include <utility>
#include <vector>

/// Private to network/: what moves an adjusted unknown.
namespace evidence::network {

/// All that moves one unknown: by leaf, and as independent components of its error.
struct LeafPulls {
    std::vector<std::pair<std::size_t, double>> variance;  ///< by leaf, each once, ascending
    std::vector<quantity::Component> components;
    double total = 0;                 ///< the whole variance, with what was not followed
    std::vector<std::size_t> leaves;  ///< that move it at all, exact ones too; ascending
    /// Rows that move it beyond rounding, with ∂unknown/∂observed.
    std::vector<RowPull> rows;
};

[[nodiscard]] LeafPulls leafPullsOn(const Net& net, const Adjustment& part, Eigen::Index column,
                                    double value);

/// By column of the part, the variance that leaves of class O, or of O and C, bring. Empty where
/// `leafPullsOn` tells it exactly.
struct BorrowedVariance {
    std::optional<Eigen::VectorXd> guessed;
    std::optional<Eigen::VectorXd> borrowed;
};
[[nodiscard]] BorrowedVariance borrowedVariance(const Net& net, const Adjustment& part);

/// The leaves a row stands on: its own and those of the errors folded into it.
[[nodiscard]] std::vector<std::size_t> leavesOf(const Equations& eq, const Row& row);

}  // namespace evidence::network
