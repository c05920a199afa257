#include "imaging/frame/adjust.h"

#include <Eigen/Dense>
#include <Eigen/SparseCholesky>

#include <cmath>
#include <limits>

namespace imaging::frame {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::SparseMatrix;
using Eigen::VectorXd;

/// A singular direction: this share of the strongest, after scaling the parameters alike.
constexpr double kRank = 1e-9;

/// The conditions linearised: f + A·dθ + B·dz.
struct Linearised {
    VectorXd f;
    MatrixXd a;
    SparseMatrix<double> b;
};

std::optional<Linearised> linearise(const Conditions& conditions, const VectorXd& inputs,
                                    const VectorXd& parameters) {
    const auto rows = conditions(inputs, parameters);
    if (!rows) {
        return std::nullopt;
    }
    const int n = static_cast<int>(inputs.size());
    Linearised lin;
    lin.f.resize(static_cast<Index>(rows->size()));
    lin.a = MatrixXd::Zero(lin.f.size(), parameters.size());
    std::vector<Eigen::Triplet<double>> entries;
    for (Index i = 0; i < lin.f.size(); ++i) {
        const Tracked& row = (*rows)[static_cast<std::size_t>(i)];
        lin.f(i) = row.value;
        for (const auto& [index, slope] : row.by) {
            if (index >= n) {
                lin.a(i, index - n) = slope;
            } else {
                entries.emplace_back(static_cast<int>(i), index, slope);
            }
        }
    }
    lin.b.resize(static_cast<int>(lin.f.size()), n);
    lin.b.setFromTriplets(entries.begin(), entries.end());
    const bool finite = lin.f.allFinite() && lin.a.allFinite();
    return finite ? std::optional(std::move(lin)) : std::nullopt;
}

/// Makes conditions of unit variance and none correlated: L⁻¹P with BΣBᵀ = PᵀLLᵀP.
class Whitener {
  public:
    bool prepare(const SparseMatrix<double>& b, const SparseMatrix<double>& sigma) {
        SparseMatrix<double> m = b * sigma * b.transpose();
        const VectorXd diagonal = m.diagonal();
        const double most = diagonal.size() > 0 ? diagonal.maxCoeff() : 0;
        if (!(most > 0) || !std::isfinite(most)) {
            return false;
        }
        // Two conditions on the same inputs (one length given twice) are told apart by this much.
        SparseMatrix<double> ridge(m.rows(), m.cols());
        ridge.setIdentity();
        for (int i = 0; i < m.rows(); ++i) {
            ridge.coeffRef(i, i) = 1e-11 * diagonal(i) + 1e-24 * most;
        }
        m += ridge;
        m_m = m;
        m_llt.compute(m);
        return m_llt.info() == Eigen::Success;
    }
    [[nodiscard]] MatrixXd white(const MatrixXd& x) const {
        return m_llt.matrixL().solve(MatrixXd(m_llt.permutationP() * x));
    }
    /// M⁻¹x
    [[nodiscard]] VectorXd weighted(const VectorXd& x) const { return m_llt.solve(x); }
    [[nodiscard]] const SparseMatrix<double>& variances() const { return m_m; }

  private:
    Eigen::SimplicialLLT<SparseMatrix<double>> m_llt;
    SparseMatrix<double> m_m;
};

VectorXd asVector(const std::vector<double>& values) {
    return Eigen::Map<const VectorXd>(values.data(), static_cast<Index>(values.size()));
}

tl::unexpected<Refusal> unsolved(std::string help) {
    return refuse(Code::NoSolution, "", std::move(help));
}

/// Columns of the whitened Jacobian scaled alike; zero columns stay.
VectorXd scalesOf(const MatrixXd& white) {
    VectorXd scale(white.cols());
    for (Index j = 0; j < white.cols(); ++j) {
        const double norm = white.col(j).norm();
        scale(j) = norm > 0 ? 1 / norm : 1;
    }
    return scale;
}

struct State {
    Linearised lin;
    MatrixXd a;  ///< whitened
    VectorXd f;
    double cost = std::numeric_limits<double>::infinity();
};

bool evaluate(const Conditions& conditions, const SparseMatrix<double>& sigma,
              const VectorXd& inputs, const VectorXd& parameters, State& state) {
    auto lin = linearise(conditions, inputs, parameters);
    Whitener whitener;
    if (!lin || !whitener.prepare(lin->b, sigma)) {
        return false;
    }
    state.a = whitener.white(lin->a);
    state.f = whitener.white(lin->f);
    state.cost = state.f.squaredNorm();
    state.lin = *std::move(lin);
    return std::isfinite(state.cost);
}

}  // namespace

double costAt(const Inputs& inputs, const VectorXd& parameters, const Conditions& conditions) {
    State state;
    const bool good =
        evaluate(conditions, inputs.covariance(), asVector(inputs.values()), parameters, state);
    return good ? state.cost : std::numeric_limits<double>::infinity();
}

Result<Adjustment> adjust(const Inputs& given, const VectorXd& start,
                          const Conditions& conditions) {
    const VectorXd observed = asVector(given.values());
    const SparseMatrix<double> sigma = given.covariance();
    Adjustment result;
    result.parameters = start;
    State state;
    if (!evaluate(conditions, sigma, observed, start, state)) {
        return unsolved("no start is to be had from what is given");
    }
    const Index p = start.size();
    if (state.f.size() < p) {
        return unsolved("the references are too few");
    }
    double damping = 1e-4;
    bool still = false;
    while (result.iterations < 300 && !still) {
        ++result.iterations;
        const VectorXd scale = scalesOf(state.a);
        MatrixXd stacked(state.a.rows() + p, p);
        stacked.topRows(state.a.rows()) = state.a * scale.asDiagonal();
        stacked.bottomRows(p) = std::sqrt(damping) * MatrixXd::Identity(p, p);
        VectorXd right = VectorXd::Zero(stacked.rows());
        right.head(state.f.size()) = -state.f;
        const VectorXd scaled = stacked.colPivHouseholderQr().solve(right);
        const VectorXd next = result.parameters + scale.asDiagonal() * scaled;
        State there;
        if (next.allFinite() && evaluate(conditions, sigma, observed, next, there) &&
            there.cost <= state.cost * (1 + 1e-12) + 1e-20) {
            still = scaled.norm() < 1e-7 && damping < 1e-3;
            const bool flat = state.cost - there.cost < 1e-12 * state.cost + 1e-20;
            still = still || (flat && scaled.norm() < 1e-4);
            result.parameters = next;
            state = std::move(there);
            damping = std::max(1e-12, 0.1 * damping);
        } else {
            damping *= 10;
            if (damping > 1e12) {
                still = true;
            }
        }
    }
    // Now with the inputs as adjusted: the conditions are linearised where they hold.
    VectorXd adjusted = observed;
    VectorXd parameters = result.parameters;
    Whitener whitener;
    for (int round = 0; round < 12; ++round) {
        auto lin = linearise(conditions, adjusted, parameters);
        if (!lin || !whitener.prepare(lin->b, sigma)) {
            break;
        }
        const VectorXd gap = lin->f + lin->b * (observed - adjusted);
        const MatrixXd a = whitener.white(lin->a);
        const VectorXd scale = scalesOf(a);
        const VectorXd move =
            scale.asDiagonal() *
            (a * scale.asDiagonal()).colPivHouseholderQr().solve(VectorXd(-whitener.white(gap)));
        if (!move.allFinite()) {
            break;
        }
        const VectorXd corrections =
            -(sigma * (lin->b.transpose() * whitener.weighted(lin->a * move + gap)));
        const VectorXd nextInputs = observed + corrections;
        const VectorXd nextParameters = parameters + move;
        if (!linearise(conditions, nextInputs, nextParameters)) {
            break;
        }
        const double moved = (scale.cwiseInverse().asDiagonal() * move).norm();
        adjusted = nextInputs;
        parameters = nextParameters;
        if (round > 0 && moved < 1e-9) {
            break;
        }
    }
    result.parameters = parameters;
    result.inputs = adjusted;

    const auto lin = linearise(conditions, adjusted, parameters);
    if (!lin || !whitener.prepare(lin->b, sigma)) {
        return unsolved("no minimum was found");
    }
    const MatrixXd a = whitener.white(lin->a);
    const VectorXd scale = scalesOf(a);
    const Eigen::ColPivHouseholderQR<MatrixXd> qr(a * scale.asDiagonal());
    const VectorXd diagonal = qr.matrixR().diagonal().cwiseAbs();
    if (!(diagonal.minCoeff() > kRank * diagonal.maxCoeff())) {
        return unsolved("the references do not determine the frame");
    }
    const MatrixXd r = qr.matrixR().topRows(p).triangularView<Eigen::Upper>();
    const MatrixXd inverse = r.triangularView<Eigen::Upper>().solve(MatrixXd::Identity(p, p));
    const MatrixXd root = scale.asDiagonal() * (qr.colsPermutation() * inverse);
    result.covariance = root * root.transpose();
    // dθ/dz = −(AᵀM⁻¹A)⁻¹AᵀM⁻¹B
    result.byInputs = -result.covariance * a.transpose() * whitener.white(MatrixXd(lin->b));

    const VectorXd gap = lin->f + lin->b * (observed - adjusted);
    result.residuals = gap;
    result.chi2 = whitener.white(gap).squaredNorm();
    result.redundancy = static_cast<int>(gap.size() - p);
    result.uResiduals.resize(gap.size());
    result.redundancies.resize(gap.size());
    for (Index i = 0; i < gap.size(); ++i) {
        const double whole = whitener.variances().coeff(static_cast<int>(i), static_cast<int>(i));
        const double taken = lin->a.row(i) * result.covariance * lin->a.row(i).transpose();
        result.redundancies(i) = std::max(0.0, (whole - taken) / whole);
        result.uResiduals(i) =
            result.redundancies(i) > 1e-9 ? std::sqrt(result.redundancies(i) * whole) : 0;
    }
    const bool finite = result.parameters.allFinite() && result.covariance.allFinite() &&
                        result.byInputs.allFinite();
    if (!finite || !std::isfinite(result.chi2)) {
        return unsolved("no minimum was found");
    }
    return result;
}

}  // namespace imaging::frame
