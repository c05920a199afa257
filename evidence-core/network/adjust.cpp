#include "evidence-core/network/adjust.h"

#include <Eigen/Cholesky>
#include <Eigen/QR>

#include <algorithm>
#include <cmath>

namespace evidence::network {

namespace {

using Index = Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr int kMostIterations = 60;
/// Relative step at which Gauss–Newton has arrived; the last step squares it.
constexpr double kArrived = 1e-10;
constexpr double kConstraintRank = 1e-10;
/// Relative misfit that rounding may leave in an exact row.
constexpr double kHolds = 1e-9;
constexpr double kNoRedundancy = 1e-9;

/// The linearised part, columns in relative terms, stochastic rows whitened, exact rows to unit
/// length.
struct Linearised {
    std::vector<Index> loose;  ///< rows with σ > 0, places in `rows`
    std::vector<Index> exact;
    MatrixXd a;  ///< loose × n
    VectorXd b;
    MatrixXd c;  ///< exact × n
    VectorXd d;
    VectorXd exactNorm;  ///< that the exact rows were divided by
    bool defined = true;
};

class Solver {
  public:
    Solver(const Equations& eq, const std::vector<std::size_t>& unknowns,
           const std::vector<std::size_t>& rows, const VectorXd& start)
        : m_eq(eq) {
        m_out.unknowns = unknowns;
        m_out.rows = rows;
        m_out.x = start;
        m_n = static_cast<Index>(unknowns.size());
        m_column.assign(eq.unknowns.size(), -1);
        m_size.resize(m_n);
        for (Index j = 0; j < m_n; ++j) {
            const std::size_t i = unknowns[static_cast<std::size_t>(j)];
            m_column[i] = j;
            m_size(j) = eq.unknowns[i].size;
        }
    }

    Adjustment run(Detail detail) {
        iterate();
        if (!m_out.converged) return std::move(m_out);
        for (const Index k : contradictions()) m_out.contradicted.push_back(row(k));
        if (m_out.contradicted.empty()) finish(detail);
        return std::move(m_out);
    }

  private:
    [[nodiscard]] std::size_t row(Index k) const { return m_out.rows[static_cast<std::size_t>(k)]; }

    [[nodiscard]] Linearised linearise(const VectorXd& x) {
        Linearised out;
        const auto m = static_cast<Index>(m_out.rows.size());
        m_out.at.clear();
        m_out.residual.resize(m);
        m_out.sigma.resize(m);
        for (Index k = 0; k < m; ++k) {
            const Row& r = m_eq.rows[row(k)];
            m_out.at.push_back(r.predict(x));
            const Prediction& p = m_out.at.back();
            out.defined = out.defined && p.defined && std::isfinite(p.value);
            m_out.residual(k) = misfitOf(r, p, x, m_eq);
            m_out.sigma(k) = std::sqrt(varianceOf(r, p, m_eq));
            (m_out.sigma(k) > 0 ? out.loose : out.exact).push_back(k);
        }
        out.a = MatrixXd::Zero(static_cast<Index>(out.loose.size()), m_n);
        out.b.resize(out.a.rows());
        out.c = MatrixXd::Zero(static_cast<Index>(out.exact.size()), m_n);
        out.d.resize(out.c.rows());
        out.exactNorm.resize(out.c.rows());
        for (Index i = 0; i < out.a.rows(); ++i) {
            const Index k = out.loose[static_cast<std::size_t>(i)];
            fill(out.a, i, k, 1 / m_out.sigma(k));
            out.b(i) = m_out.residual(k) / m_out.sigma(k);
        }
        for (Index i = 0; i < out.c.rows(); ++i) {
            const Index k = out.exact[static_cast<std::size_t>(i)];
            fill(out.c, i, k, 1);
            const double norm = out.c.row(i).norm();
            out.exactNorm(i) = norm > 0 ? norm : 1;
            out.c.row(i) /= out.exactNorm(i);
            out.d(i) = m_out.residual(k) / out.exactNorm(i);
        }
        return out;
    }

    void fill(MatrixXd& into, Index i, Index k, double times) const {
        for (const auto& s : m_out.at[static_cast<std::size_t>(k)].slopes) {
            const Index j = m_column[s.unknown];
            if (j >= 0) into(i, j) += s.slope * m_size(j) * times;
        }
    }

    /// Basis of what the exact rows leave free (`z`), and their right inverse (`inverse`, for the
    /// independent ones, whose places are `independent`).
    struct Elimination {
        MatrixXd z;
        MatrixXd inverse;
        std::vector<Index> independent;
        std::vector<Index> dependent;
    };
    [[nodiscard]] Elimination eliminate(const Linearised& lin) const {
        Elimination out;
        if (lin.c.rows() == 0) {
            out.z = MatrixXd::Identity(m_n, m_n);
            out.inverse.resize(m_n, 0);
            return out;
        }
        Eigen::ColPivHouseholderQR<MatrixXd> qr;
        qr.setThreshold(kConstraintRank);
        qr.compute(lin.c.transpose());
        const Index rank = qr.rank();
        const MatrixXd q = qr.householderQ() * MatrixXd::Identity(m_n, m_n);
        out.z = q.rightCols(m_n - rank);
        // C' P = Q1 R, so C_independent⁺ = Q1 R⁻ᵀ.
        const MatrixXd r = qr.matrixR().topLeftCorner(rank, rank).triangularView<Eigen::Upper>();
        out.inverse = r.triangularView<Eigen::Upper>().transpose().solve<Eigen::OnTheRight>(
            q.leftCols(rank).eval());
        const auto& order = qr.colsPermutation().indices();
        for (Index i = 0; i < lin.c.rows(); ++i)
            (i < rank ? out.independent : out.dependent).push_back(order(i));
        return out;
    }

    [[nodiscard]] VectorXd exactOpen(const Linearised& lin, const Elimination& e) const {
        VectorXd d(static_cast<Index>(e.independent.size()));
        for (Index i = 0; i < d.size(); ++i)
            d(i) = lin.d(e.independent[static_cast<std::size_t>(i)]);
        return d;
    }

    void iterate() {
        m_out.converged = false;
        Linearised lin = linearise(m_out.x);
        if (!lin.defined) return;
        double last = std::numeric_limits<double>::infinity();
        double damping = 1;
        for (m_out.iterations = 1; m_out.iterations <= kMostIterations; ++m_out.iterations) {
            const Elimination e = eliminate(lin);
            VectorXd dx = e.inverse * exactOpen(lin, e);
            if (e.z.cols() > 0) {
                const MatrixXd az = lin.a * e.z;
                const MatrixXd normal = az.transpose() * az;
                const Eigen::LDLT<MatrixXd> factor(normal);
                dx += e.z * factor.solve(az.transpose() * (lin.b - lin.a * dx));
            }
            if (!dx.allFinite()) return;
            const VectorXd folded = foldedErrors(lin, lin.b - lin.a * dx);
            const double step = dx.lpNorm<Eigen::Infinity>();
            if (m_out.iterations > 8 && step > 0.5 * last) damping = std::max(damping / 2, 0.05);
            last = step;
            if (!advance(dx, folded, damping, lin)) return;
            if (step < kArrived) {
                m_out.converged = true;
                return;
            }
        }
    }

    /// x with the folded errors where the whitened residuals put them: e = prior + u² s λ.
    [[nodiscard]] VectorXd foldedErrors(const Linearised& lin, const VectorXd& whitened) const {
        VectorXd out = m_out.x;
        for (Index i = 0; i < whitened.size(); ++i) {
            const Index k = lin.loose[static_cast<std::size_t>(i)];
            const double lambda = whitened(i) / m_out.sigma(k);
            for (const std::size_t f : m_eq.rows[row(k)].folded)
                for (const auto& s : m_out.at[static_cast<std::size_t>(k)].slopes)
                    if (s.unknown == f)
                        out(static_cast<Index>(f)) =
                            m_eq.unknowns[f].start +
                            m_eq.unknowns[f].u * m_eq.unknowns[f].u * s.slope * lambda;
        }
        return out;
    }

    /// Goes along dx as far as the equations can bear.
    bool advance(const VectorXd& dx, const VectorXd& folded, double fraction, Linearised& lin) {
        for (int halving = 0; halving < 25; ++halving, fraction /= 2) {
            VectorXd next = m_out.x + fraction * (folded - m_out.x);
            for (Index j = 0; j < m_n; ++j)
                next(static_cast<Index>(m_out.unknowns[static_cast<std::size_t>(j)])) +=
                    fraction * dx(j) * m_size(j);
            lin = linearise(next);
            if (!lin.defined) continue;
            m_out.x = next;
            return true;
        }
        return false;
    }

    /// Exact rows that depend on others and do not hold with them, with those others.
    [[nodiscard]] std::vector<Index> contradictions() {
        const Linearised lin = linearise(m_out.x);
        const Elimination e = eliminate(lin);
        std::vector<Index> bad;
        for (const Index i : e.dependent) {
            if (std::abs(lin.d(i)) <= kHolds) continue;
            bad.push_back(lin.exact[static_cast<std::size_t>(i)]);
            const VectorXd weights = (lin.c.row(i) * e.inverse).transpose();
            for (Index k = 0; k < weights.size(); ++k)
                if (std::abs(weights(k)) > 1e-8)
                    bad.push_back(lin.exact[static_cast<std::size_t>(
                        e.independent[static_cast<std::size_t>(k)])]);
        }
        std::sort(bad.begin(), bad.end());
        bad.erase(std::unique(bad.begin(), bad.end()), bad.end());
        return bad;
    }

    void finish(Detail detail) {
        const Linearised lin = linearise(m_out.x);
        const Elimination e = eliminate(lin);
        const Index free = e.z.cols();
        const Index m = lin.a.rows();
        MatrixXd root = MatrixXd::Zero(m_n, free);
        if (free > 0) {
            const Eigen::HouseholderQR<MatrixXd> qr(lin.a * e.z);
            const MatrixXd r = qr.matrixQR().topRows(free).triangularView<Eigen::Upper>();
            root = r.triangularView<Eigen::Upper>().solve<Eigen::OnTheRight>(e.z);
        }
        m_out.chi2 = lin.b.squaredNorm();
        m_out.redundancy = static_cast<double>(m - free);
        m_out.covariance = m_size.asDiagonal() * (root * root.transpose()) * m_size.asDiagonal();
        if (detail == Detail::ValuesOnly) return;

        // H = A Q Aᵀ; the exact rows' multipliers follow from the loose residuals.
        const MatrixXd half = lin.a * root;
        const MatrixXd open = MatrixXd::Identity(m, m) - half * half.transpose();
        const MatrixXd carry = -(lin.a * e.inverse).transpose();
        const MatrixXd carried = carry * open;
        const auto rows = static_cast<Index>(m_out.rows.size());
        m_out.lambda = VectorXd::Zero(rows);
        m_out.lambdaCovariance = MatrixXd::Zero(rows, rows);
        m_out.pull = MatrixXd::Zero(m_n, rows);
        m_out.checked.assign(static_cast<std::size_t>(rows), false);
        std::vector<Index> place;
        VectorXd unit(m + carry.rows());
        for (Index i = 0; i < m; ++i) {
            place.push_back(lin.loose[static_cast<std::size_t>(i)]);
            unit(i) = m_out.sigma(place.back());
        }
        for (Index i = 0; i < carry.rows(); ++i) {
            const Index k = e.independent[static_cast<std::size_t>(i)];
            place.push_back(lin.exact[static_cast<std::size_t>(k)]);
            unit(m + i) = lin.exactNorm(k);
        }
        MatrixXd c(unit.size(), unit.size());
        c.topLeftCorner(m, m) = open;
        c.bottomLeftCorner(carry.rows(), m) = carried;
        c.topRightCorner(m, carry.rows()) = carried.transpose();
        c.bottomRightCorner(carry.rows(), carry.rows()) = carried * carry.transpose();
        VectorXd lambda(unit.size());
        lambda.head(m) = lin.b;
        lambda.tail(carry.rows()) = carry * lin.b;
        const MatrixXd loosePull = root * half.transpose();
        const MatrixXd exactPull = e.inverse - loosePull * (lin.a * e.inverse);
        for (Index i = 0; i < unit.size(); ++i) {
            const Index k = place[static_cast<std::size_t>(i)];
            m_out.lambda(k) = lambda(i) / unit(i);
            for (Index j = 0; j < unit.size(); ++j)
                m_out.lambdaCovariance(k, place[static_cast<std::size_t>(j)]) =
                    c(i, j) / (unit(i) * unit(j));
            const double scale = i < m ? 1.0 : std::max(carry.row(i - m).squaredNorm(), 1e-300);
            m_out.checked[static_cast<std::size_t>(k)] = c(i, i) > kNoRedundancy * scale;
            m_out.pull.col(k) =
                m_size.cwiseProduct(i < m ? loosePull.col(i) : exactPull.col(i - m)) / unit(i);
        }
    }

    const Equations& m_eq;
    Adjustment m_out;
    std::vector<Index> m_column;
    VectorXd m_size;
    Index m_n = 0;
};

}  // namespace

Adjustment adjust(const Equations& eq, const std::vector<std::size_t>& unknowns,
                  const std::vector<std::size_t>& rows, const VectorXd& start, Detail detail) {
    return Solver(eq, unknowns, rows, start).run(detail);
}

}  // namespace evidence::network
