#include "evidence-core/network/linearised.h"

#include <algorithm>
#include <cmath>

namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// Appends the slopes of one prediction as a row, each column once, all times `times`.
double append(SparseRows& to, Index row, const Prediction& at, const std::vector<Index>& column,
              const VectorXd& size, double times, std::vector<std::pair<Index, double>>& scratch) {
    scratch.clear();
    for (const auto& s : at.slopes) {
        const Index j = column[s.unknown];
        if (j >= 0) scratch.emplace_back(j, s.slope * size(j) * times);
    }
    std::sort(scratch.begin(), scratch.end());
    double squares = 0;
    to.startVec(row);
    for (std::size_t k = 0; k < scratch.size(); ++k) {
        if (k > 0 && scratch[k].first == scratch[k - 1].first) {
            to.coeffRef(row, scratch[k].first) += scratch[k].second;
            continue;
        }
        to.insertBackByOuterInner(row, scratch[k].first) = scratch[k].second;
        squares += scratch[k].second * scratch[k].second;
    }
    return std::sqrt(squares);
}

}  // namespace

Linearised linearise(const Equations& eq, const std::vector<std::size_t>& rows,
                     const std::vector<Index>& column, const VectorXd& size, const VectorXd& x) {
    Linearised out;
    const auto m = static_cast<Index>(rows.size());
    out.at.reserve(rows.size());
    out.residual.resize(m);
    out.sigma.resize(m);
    std::size_t entries = 0;
    for (Index k = 0; k < m; ++k) {
        const auto place = static_cast<std::size_t>(k);
        const Row& row = eq.rows[rows[place]];
        out.at.push_back(row.predict(x));
        const Prediction& p = out.at.back();
        entries += p.slopes.size();
        out.defined = out.defined && p.defined && std::isfinite(p.value);
        out.residual(k) = misfitOf(row, p, x, eq);
        out.sigma(k) = std::sqrt(varianceOf(row, p, eq));
        (out.sigma(k) > 0 ? out.loose : out.exact).push_back(place);
    }
    std::vector<std::pair<Index, double>> scratch;
    out.a.resize(static_cast<Index>(out.loose.size()), size.size());
    out.a.reserve(static_cast<Index>(entries));
    out.b.resize(out.a.rows());
    for (Index i = 0; i < out.a.rows(); ++i) {
        const std::size_t k = out.loose[static_cast<std::size_t>(i)];
        const double sigma = out.sigma(static_cast<Index>(k));
        append(out.a, i, out.at[k], column, size, 1 / sigma, scratch);
        out.b(i) = out.residual(static_cast<Index>(k)) / sigma;
    }
    out.a.finalize();
    out.c.resize(static_cast<Index>(out.exact.size()), size.size());
    out.d.resize(out.c.rows());
    out.exactNorm.resize(out.c.rows());
    for (Index i = 0; i < out.c.rows(); ++i) {
        const std::size_t k = out.exact[static_cast<std::size_t>(i)];
        const double norm = append(out.c, i, out.at[k], column, size, 1, scratch);
        out.exactNorm(i) = norm > 0 ? norm : 1;
        out.d(i) = out.residual(static_cast<Index>(k)) / out.exactNorm(i);
    }
    out.c.finalize();
    for (Index i = 0; i < out.c.rows(); ++i) out.c.row(i) /= out.exactNorm(i);
    return out;
}

}  // namespace evidence::network
