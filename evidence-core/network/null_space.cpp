#include "evidence-core/network/null_space.h"

#include <Eigen/QR>

#include <algorithm>
#include <cmath>

namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// Relative pivots below this are rounding: rows and columns are scaled to 1, relations are
/// satisfied to about 1e-13, and what people write makes no pivot this small.
constexpr double kRankTolerance = 1e-9;
/// Share of a null direction below which an unknown does not move in it.
constexpr double kStill = 1e-7;
constexpr std::size_t kDense = 400;
/// A slope below this share of its row determines nothing by substitution.
constexpr double kWeak = 1e-3;

/// Directions in which nothing in `a` changes: one column each, and the column of `a` that, once
/// fixed, closes it.
struct OpenDirections {
    MatrixXd basis;
    std::vector<Index> free;
};

OpenDirections openDirections(const MatrixXd& a) {
    const Index n = a.cols();
    OpenDirections out;
    if (a.rows() == 0) {
        out.basis = MatrixXd::Identity(n, n);
        for (Index j = 0; j < n; ++j) out.free.push_back(j);
        return out;
    }
    Eigen::ColPivHouseholderQR<MatrixXd> qr;
    qr.setThreshold(kRankTolerance);
    qr.compute(a);
    const Index rank = qr.rank();
    const auto& order = qr.colsPermutation().indices();
    out.basis = MatrixXd::Zero(n, n - rank);
    if (rank > 0 && rank < n) {
        const MatrixXd held = qr.matrixR()
                                  .topLeftCorner(rank, rank)
                                  .triangularView<Eigen::Upper>()
                                  .solve(qr.matrixR().topRightCorner(rank, n - rank));
        for (Index j = 0; j < rank; ++j) out.basis.row(order(j)) = -held.row(j);
    }
    for (Index j = rank; j < n; ++j) {
        out.basis(order(j), j - rank) = 1;
        out.free.push_back(order(j));
    }
    return out;
}

NullSpace byQr(const OpenGroup& group) {
    MatrixXd a = MatrixXd::Zero(static_cast<Index>(group.rows.size()),
                                static_cast<Index>(group.unknowns.size()));
    for (std::size_t k = 0; k < group.rows.size(); ++k)
        for (const auto& s : group.rows[k])
            a(static_cast<Index>(k), static_cast<Index>(s.unknown)) = s.slope;
    const auto open = openDirections(a);
    NullSpace out;
    for (Index i = 0; i < a.cols(); ++i) out.still.push_back(open.basis.row(i).norm() < kStill);
    for (const Index j : open.free) out.free.push_back(static_cast<std::size_t>(j));
    return out;
}

using Expression = std::vector<std::pair<std::size_t, double>>;  ///< parameter, factor; ascending

void add(Expression& to, const Expression& what, double times) {
    Expression sum;
    auto a = to.begin();
    for (const auto& [parameter, factor] : what) {
        while (a != to.end() && a->first < parameter) sum.push_back(*a++);
        if (a != to.end() && a->first == parameter)
            sum.emplace_back(parameter, (a++)->second + times * factor);
        else
            sum.emplace_back(parameter, times * factor);
    }
    sum.insert(sum.end(), a, to.end());
    to = std::move(sum);
}

class Substitution {
  public:
    explicit Substitution(const OpenGroup& group)
        : m_group(group),
          m_rowsOf(group.unknowns.size()),
          m_expressed(group.unknowns.size(), false),
          m_expression(group.unknowns.size()) {
        for (std::size_t r = 0; r < group.rows.size(); ++r) {
            m_open.push_back(static_cast<int>(group.rows[r].size()));
            for (const auto& s : group.rows[r]) m_rowsOf[s.unknown].push_back(r);
        }
    }

    NullSpace run() {
        // What most rows speak of makes the best parameters: a scale before the sizes seen by it.
        std::vector<std::size_t> byRows(m_group.unknowns.size());
        for (std::size_t i = 0; i < byRows.size(); ++i) byRows[i] = i;
        std::stable_sort(byRows.begin(), byRows.end(), [&](std::size_t a, std::size_t b) {
            return m_rowsOf[a].size() > m_rowsOf[b].size();
        });
        for (const std::size_t i : byRows) {
            if (m_expressed[i]) continue;
            express(i, {{m_parameters.size(), 1.0}});
            m_parameters.push_back(i);
            carry();
        }
        return decide();
    }

  private:
    void express(std::size_t unknown, Expression expression) {
        m_expressed[unknown] = true;
        m_expression[unknown] = std::move(expression);
        for (const std::size_t r : m_rowsOf[unknown])
            if (--m_open[r] <= 1) m_ready.push_back(r);
    }

    void carry() {
        for (std::size_t head = 0; head < m_ready.size(); ++head) {
            const std::size_t r = m_ready[head];
            if (m_open[r] == 0) {
                m_left.push_back(r);
                continue;
            }
            const auto& row = m_group.rows[r];
            const auto open = std::find_if(row.begin(), row.end(),
                                           [&](const Slope& s) { return !m_expressed[s.unknown]; });
            if (open == row.end() || std::abs(open->slope) < kWeak) continue;
            Expression by;
            for (const auto& s : row)
                if (s.unknown != open->unknown)
                    add(by, m_expression[s.unknown], -s.slope / open->slope);
            m_spent.push_back(r);
            express(open->unknown, std::move(by));
        }
        m_ready.clear();
    }

    NullSpace decide() {
        std::sort(m_spent.begin(), m_spent.end());
        const auto p = static_cast<Index>(m_parameters.size());
        MatrixXd constraints = MatrixXd::Zero(0, p);
        MatrixXd block = MatrixXd::Zero(p + 64, p);
        Index filled = 0;
        const auto compress = [&] {
            MatrixXd stacked(constraints.rows() + filled, p);
            stacked << constraints, block.topRows(filled);
            if (stacked.rows() <= p) {
                constraints = std::move(stacked);
            } else {
                const Eigen::HouseholderQR<MatrixXd> qr(stacked);
                constraints = qr.matrixQR().topRows(p).triangularView<Eigen::Upper>();
            }
            block.setZero();
            filled = 0;
        };
        for (const std::size_t r : m_left) {
            if (std::binary_search(m_spent.begin(), m_spent.end(), r)) continue;
            Expression sum;
            double size = 0;
            for (const auto& s : m_group.rows[r]) {
                add(sum, m_expression[s.unknown], s.slope);
                for (const auto& [parameter, factor] : m_expression[s.unknown])
                    size = std::hypot(size, s.slope * factor);
            }
            double norm = 0;
            for (const auto& [parameter, factor] : sum) norm = std::hypot(norm, factor);
            if (norm <= kRankTolerance * size) continue;
            for (const auto& [parameter, factor] : sum)
                block(filled, static_cast<Index>(parameter)) = factor / size;
            if (++filled == block.rows()) compress();
        }
        compress();
        // Rounding is no constraint.
        constraints = (constraints.array().abs() > kRankTolerance).select(constraints, 0.0);
        return carriedBack(openDirections(constraints));
    }

    /// What moves along the directions of the parameters that are open.
    NullSpace carriedBack(const OpenDirections& open) {
        NullSpace out;
        out.still.resize(m_group.unknowns.size());
        for (std::size_t i = 0; i < out.still.size(); ++i) {
            Eigen::RowVectorXd moves = Eigen::RowVectorXd::Zero(open.basis.cols());
            double size = 0;
            for (const auto& [parameter, factor] : m_expression[i]) {
                moves += factor * open.basis.row(static_cast<Index>(parameter));
                size = std::hypot(size, factor);
            }
            out.still[i] = moves.norm() <= kStill * size;
        }
        for (const Index j : open.free)
            out.free.push_back(m_parameters[static_cast<std::size_t>(j)]);
        std::sort(out.free.begin(), out.free.end());
        return out;
    }

    const OpenGroup& m_group;
    std::vector<std::vector<std::size_t>> m_rowsOf;
    std::vector<int> m_open;
    std::vector<bool> m_expressed;
    std::vector<Expression> m_expression;
    std::vector<std::size_t> m_parameters;
    std::vector<std::size_t> m_ready;
    std::vector<std::size_t> m_left;   ///< rows with nothing open
    std::vector<std::size_t> m_spent;  ///< rows that expressed an unknown
};

}  // namespace

NullSpace nullSpaceOf(const OpenGroup& group) {
    return group.unknowns.size() <= kDense ? byQr(group) : Substitution(group).run();
}

}  // namespace evidence::network
