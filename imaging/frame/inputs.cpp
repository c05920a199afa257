#include "imaging/frame/inputs.h"

#include <algorithm>
#include <cmath>

namespace imaging::frame {

int Inputs::addBlock(const Eigen::VectorXd& values, const Eigen::MatrixXd& covariance) {
    const int first = size();
    m_values.insert(m_values.end(), values.data(), values.data() + values.size());
    m_blocks.push_back({first, covariance, 0});
    return first;
}

int Inputs::addNumber(double value, double normal, double rectangular) {
    const int first = size();
    m_values.push_back(value);
    m_blocks.push_back({first, Eigen::MatrixXd::Constant(1, 1, normal * normal), rectangular});
    return first;
}

Eigen::SparseMatrix<double> Inputs::covariance() const {
    std::vector<Eigen::Triplet<double>> entries;
    for (const Block& block : m_blocks) {
        for (Eigen::Index i = 0; i < block.covariance.rows(); ++i) {
            for (Eigen::Index j = 0; j < block.covariance.cols(); ++j) {
                double value = block.covariance(i, j);
                value += i == j ? block.rectangular * block.rectangular / 3 : 0;
                if (value != 0) {
                    entries.emplace_back(block.first + static_cast<int>(i),
                                         block.first + static_cast<int>(j), value);
                }
            }
        }
    }
    Eigen::SparseMatrix<double> matrix(size(), size());
    matrix.setFromTriplets(entries.begin(), entries.end());
    return matrix;
}

double Inputs::Spread::u() const {
    return std::sqrt(variance + rectangular * rectangular / 3);
}

Inputs::Spread Inputs::spreadOf(const Tracked& number) const {
    Spread spread;
    auto term = number.by.begin();
    for (const Block& block : m_blocks) {
        const int end = block.first + static_cast<int>(block.covariance.rows());
        const auto from = term;
        while (term != number.by.end() && term->first < end) {
            ++term;
        }
        for (auto a = from; a != term; ++a) {
            for (auto b = from; b != term; ++b) {
                spread.variance += a->second * b->second *
                                   block.covariance(a->first - block.first, b->first - block.first);
            }
            const double half = std::abs(a->second) * block.rectangular;
            spread.variance += std::pow(std::min(half, spread.rectangular), 2) / 3;
            spread.rectangular = std::max(half, spread.rectangular);
        }
    }
    spread.variance = std::max(0.0, spread.variance);
    return spread;
}

}  // namespace imaging::frame
