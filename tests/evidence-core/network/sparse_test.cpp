#include "evidence-core/network/elimination.h"
#include "evidence-core/network/null_space.h"
#include "evidence-core/network/selected_inverse.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <random>

/// The sparse kernels against the same sums done densely (Eigen), on seeded random matrices.
namespace {

using namespace evidence::network;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Rows of differences and singles between near neighbours, with a few far links, as registers
/// have.
SparseRows randomRows(std::mt19937_64& chance, Index n) {
    std::normal_distribution<double> normal;
    std::vector<Eigen::Triplet<double>> entries;
    int row = 0;
    const auto put = [&](Index a, Index b) {
        entries.emplace_back(row, static_cast<int>(a), normal(chance) + 2);
        if (a != b) entries.emplace_back(row, static_cast<int>(b), normal(chance) - 2);
        ++row;
    };
    std::uniform_int_distribution<Index> any(0, n - 1);
    for (Index i = 0; i < n; ++i) {
        put(i, i > 0 ? i - 1 : i);
        put(i, i >= 7 ? i - 7 : i);
        if (i % 5 == 0) put(any(chance), i);
    }
    put(0, 0);
    SparseRows out(row, n);
    out.setFromTriplets(entries.begin(), entries.end());
    return out;
}

class SparseFactor : public testing::TestWithParam<Factorisation> {};

TEST_P(SparseFactor, AgreesWithTheDenseInverse) {
    std::mt19937_64 chance(1);
    for (const Index n : {1, 5, 40, 150}) {
        const SparseRows b = randomRows(chance, n);
        const MatrixXd dense = MatrixXd(b).transpose() * MatrixXd(b);
        const MatrixXd inverse = dense.inverse();
        const auto factor = factorise(b, GetParam());
        ASSERT_TRUE(factor);
        const VectorXd rhs = VectorXd::Random(n);
        const double size = inverse.norm();
        EXPECT_LT((factor->solve(rhs) - inverse * rhs).norm(), 1e-11 * size * rhs.norm());
        const SelectedInverse selected(*factor);
        for (Index i = 0; i < n; ++i) {
            EXPECT_NEAR(selected.at(i, i).value(), inverse(i, i), 1e-11 * size);
            EXPECT_NEAR(factor->product({{i, 1.0}}, {{(i * 3) % n, 2.0}}),
                        2 * inverse(i, (i * 3) % n), 1e-11 * size);
        }
        // All pairs that one row joins are in the pattern.
        for (Index r = 0; r < b.rows(); ++r)
            for (SparseRows::InnerIterator i(b, r); i; ++i)
                for (SparseRows::InnerIterator j(b, r); j; ++j)
                    EXPECT_NEAR(selected.at(i.col(), j.col()).value(), inverse(i.col(), j.col()),
                                1e-11 * size);
    }
}

TEST_P(SparseFactor, CarriesADerivativeThroughTheInverse) {
    std::mt19937_64 chance(2);
    const Index n = 60;
    const SparseRows b = randomRows(chance, n);
    const MatrixXd inverse = MatrixXd(MatrixXd(b).transpose() * MatrixXd(b)).inverse();
    // Weights that join what some rows join.
    SparseRows some = b;
    for (Index r = 0; r < some.rows(); ++r) some.row(r) *= r % 3 == 0 ? 0.7 : 0.0;
    const Eigen::SparseMatrix<double> byColumn(some);
    const Eigen::SparseMatrix<double> weights = byColumn.transpose() * byColumn;
    const auto factor = factorise(b, GetParam());
    ASSERT_TRUE(factor);
    const auto found = inverseTimes(*factor, weights);
    ASSERT_TRUE(found);
    const MatrixXd expected = inverse * MatrixXd(weights) * inverse;
    for (Index i = 0; i < n; ++i)
        EXPECT_NEAR(found->at(i, i).value(), expected(i, i), 1e-10 * expected.norm());
}

TEST_P(SparseFactor, RefusesWhatIsSingular) {
    SparseRows b(2, 2);
    b.insert(0, 0) = 1;
    b.insert(0, 1) = -1;
    b.insert(1, 0) = 2;
    b.insert(1, 1) = -2;
    EXPECT_FALSE(factorise(b, GetParam()));
}

INSTANTIATE_TEST_SUITE_P(Both, SparseFactor,
                         testing::Values(Factorisation::Cholesky, Factorisation::Orthogonal),
                         [](const auto& param) {
                             return param.param == Factorisation::Cholesky ? "Cholesky"
                                                                           : "Orthogonal";
                         });

TEST(Elimination, MakesExactRowsHold) {
    std::mt19937_64 chance(3);
    std::normal_distribution<double> normal;
    for (int trial = 0; trial < 50; ++trial) {
        const Index n = 12, m = 5;
        MatrixXd c = MatrixXd::Zero(m, n);
        for (Index r = 0; r < m - 1; ++r)
            for (int k = 0; k < 3; ++k)
                c(r, std::uniform_int_distribution<Index>(0, n - 1)(chance)) = normal(chance);
        c.row(m - 1) = 2 * c.row(0) - c.row(1);  // follows from two others
        for (Index r = 0; r < m; ++r) c.row(r).normalize();
        const SparseRows sparse = c.sparseView();
        const SparseRows others = MatrixXd(MatrixXd::Identity(n, n)).sparseView();
        const auto e = eliminate(sparse, others);
        const MatrixXd t(e.t), g(e.g);
        EXPECT_LT((c * t).norm(), 1e-11);
        MatrixXd independent(static_cast<Index>(e.independent.size()), n);
        for (std::size_t k = 0; k < e.independent.size(); ++k)
            independent.row(static_cast<Index>(k)) = c.row(e.independent[k]);
        EXPECT_LT(
            (independent * g - MatrixXd::Identity(independent.rows(), independent.rows())).norm(),
            1e-11);
        EXPECT_EQ(e.t.cols() + independent.rows(), n);
        ASSERT_GE(e.dependent.size(), 1U);
        for (std::size_t k = 0; k < e.dependent.size(); ++k) {
            Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(n);
            for (const auto& [i, factor] : e.follows[k]) row += factor * independent.row(i);
            EXPECT_LT((row - c.row(e.dependent[k])).norm(), 1e-11);
        }
    }
}

/// `size` differences along a ring and across it: one direction is open, all move in it; with a
/// datum none is.
OpenGroup ring(std::size_t size, bool datum) {
    OpenGroup out;
    for (std::size_t i = 0; i < size; ++i) {
        out.unknowns.push_back(i);
        out.rows.push_back({{i, 0.6}, {(i + 1) % size, -0.6}});
        out.rows.push_back({{i, 0.8}, {(i * 7 + 3) % size, -0.8}});
    }
    std::erase_if(out.rows, [](const auto& row) { return row[0].unknown == row[1].unknown; });
    if (datum) {
        // Two equations in two unknowns, neither of which fixes one alone.
        out.rows.push_back({{1, 0.5}, {2, 0.5}});
    }
    return out;
}

TEST(NullSpace, IsTheSameByQrAndBySubstitution) {
    for (const std::size_t size : {30U, 900U}) {  // below and above where substitution begins
        const auto open = nullSpaceOf(ring(size, false));
        EXPECT_EQ(open.free.size(), 1U) << size;
        for (const bool still : open.still) EXPECT_FALSE(still) << size;
        const auto fixed = nullSpaceOf(ring(size, true));
        EXPECT_TRUE(fixed.free.empty()) << size;
        for (const bool still : fixed.still) EXPECT_TRUE(still) << size;
    }
}

}  // namespace
