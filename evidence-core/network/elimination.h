#pragma once

#include "evidence-core/network/triangular_factor.h"

#include <vector>

namespace evidence::network {

/// Exact rows C dx = d solved for one unknown each, so that they hold by construction: the others,
/// z, are free and dx = T z + G d.
///
/// Each row is solved for the unknown that the fewest other rows speak of among those with a
/// coefficient near its largest: a total that is nothing but the sum of its parts costs nothing.
/// Rows that follow from the others to rounding are `dependent`.
struct Elimination {
    std::vector<Eigen::Index> independent;  ///< rows of C, in the order of G's columns
    std::vector<Eigen::Index> dependent;
    /// What each dependent row takes of the independent ones: places in `independent`, factors.
    std::vector<SparseVector> follows;
    std::vector<Eigen::Index> free;  ///< columns that z stands for, ascending
    SparseRows t;                    ///< unknowns × free
    SparseRows g;                    ///< unknowns × independent: C G = 1
};

/// `c` has rows of unit length; `others` are the rows that also speak of the unknowns.
[[nodiscard]] Elimination eliminate(const SparseRows& c, const SparseRows& others);

}  // namespace evidence::network
