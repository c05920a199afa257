#pragma once

#include "imaging/frame/tracked.h"

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <vector>

namespace imaging::frame {

/// All that was observed or is given with an uncertainty: the numbers of marks (px), known lengths
/// and coordinates (inches), priors. One block for each independent observation, with the
/// covariance of its numbers; a single number may have a rectangular part beside its normal one.
class Inputs {
  public:
    /// Adds numbers with a joint covariance; returns the index of the first.
    int addBlock(const Eigen::VectorXd& values, const Eigen::MatrixXd& covariance);
    /// Adds one number with a normal standard deviation and a rectangular half-width.
    int addNumber(double value, double normal, double rectangular = 0);

    [[nodiscard]] int size() const { return static_cast<int>(m_values.size()); }
    [[nodiscard]] const std::vector<double>& values() const { return m_values; }
    [[nodiscard]] double value(int index) const {
        return m_values[static_cast<std::size_t>(index)];
    }
    [[nodiscard]] Tracked at(int index) const { return variable(value(index), index); }

    /// Covariance of all inputs, half-widths h counted as h²/3.
    [[nodiscard]] Eigen::SparseMatrix<double> covariance() const;

    /// What is left of a number's doubt: variance of the normal parts together with all rectangular
    /// ones but the largest, which stands alone (closed form of the interval, spread.h).
    struct Spread {
        double variance = 0;
        double rectangular = 0;
        [[nodiscard]] double u() const;
    };
    /// Entry: `number` hangs on inputs only.
    [[nodiscard]] Spread spreadOf(const Tracked& number) const;

  private:
    struct Block {
        int first = 0;
        Eigen::MatrixXd covariance;
        double rectangular = 0;
    };
    std::vector<double> m_values;
    std::vector<Block> m_blocks;
};

}  // namespace imaging::frame
