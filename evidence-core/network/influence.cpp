#include "evidence-core/network/influence.h"

#include <algorithm>
#include <cmath>

namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr double kNoRedundancy = 1e-9;
/// Forms longer than this are multiplied along the elimination tree, shorter ones entry by entry.
constexpr std::size_t kLongForm = 24;
/// Substituted unknowns with more free ones than this get no clique of their own in the factor.
constexpr Index kLongSubstitution = 24;

/// The reduced rows, and below them a row of noughts for each substituted unknown, so that the
/// factor's pattern holds its variance.
SparseRows withSubstitutions(const SparseRows& reduced, const SparseRows& t) {
    std::vector<Index> substituted;
    for (Index i = 0; i < t.rows(); ++i) {
        const Index count = t.outerIndexPtr()[i + 1] - t.outerIndexPtr()[i];
        if (count > 1 && count <= kLongSubstitution) substituted.push_back(i);
    }
    if (substituted.empty()) return reduced;
    SparseRows out(reduced.rows() + static_cast<Index>(substituted.size()), reduced.cols());
    out.reserve(reduced.nonZeros() + 4 * static_cast<Index>(substituted.size()));
    Index row = 0;
    for (; row < reduced.rows(); ++row) {
        out.startVec(row);
        for (SparseRows::InnerIterator it(reduced, row); it; ++it)
            out.insertBackByOuterInner(row, it.col()) = it.value();
    }
    for (const Index i : substituted) {
        out.startVec(row);
        for (SparseRows::InnerIterator it(t, i); it; ++it)
            out.insertBackByOuterInner(row, it.col()) = 0.0;
        ++row;
    }
    out.finalize();
    return out;
}

}  // namespace

std::optional<Influence> Influence::of(Linearised at, const VectorXd& size) {
    Elimination elimination = eliminate(at.c, at.a);
    SparseRows reduced =
        at.c.rows() == 0 ? at.a : SparseRows((at.a * elimination.t).pruned(0.0, 0.0));
    reduced.makeCompressed();
    auto factor = factorise(withSubstitutions(reduced, elimination.t));
    if (!factor) return std::nullopt;
    return Influence(std::move(at), size, std::move(elimination), reduced, *std::move(factor));
}

Influence::Influence(Linearised at, const VectorXd& size, Elimination elimination,
                     const SparseRows& reducedRows, TriangularFactor factor)
    : m_at(std::move(at)),
      m_size(size),
      m_elimination(std::move(elimination)),
      m_reduced(reducedRows),
      m_byUnknown(m_reduced),
      m_exactOnLoose(m_at.a * m_elimination.g),
      m_factor(std::move(factor)),
      m_inverse(m_factor) {
    m_looseAt.assign(m_at.at.size(), -1);
    m_exactAt.assign(m_at.at.size(), -1);
    for (std::size_t i = 0; i < m_at.loose.size(); ++i)
        m_looseAt[m_at.loose[i]] = static_cast<Index>(i);
    for (std::size_t j = 0; j < m_elimination.independent.size(); ++j)
        m_exactAt[m_at.exact[static_cast<std::size_t>(m_elimination.independent[j])]] =
            static_cast<Index>(j);
    findLambda();
}

SparseVector Influence::reduced(const SparseVector& form) const {
    SparseVector out;
    for (const auto& [column, value] : form)
        for (SparseRows::InnerIterator it(m_elimination.t, column); it; ++it)
            out.emplace_back(it.col(), it.value() * value * m_size(column));
    return out;
}

VectorXd Influence::wholeForm(const SparseVector& form) const {
    VectorXd out = VectorXd::Zero(m_factor.size());
    for (const auto& [z, value] : reduced(form)) out(z) += value;
    return out;
}

double Influence::reducedProduct(const SparseVector& a, const SparseVector& b) const {
    if (a.size() > kLongForm || b.size() > kLongForm) return m_factor.product(a, b);
    double sum = 0;
    for (const auto& [i, left] : a)
        for (const auto& [j, right] : b) {
            const auto entry = m_inverse.at(i, j);
            if (!entry) return m_factor.product(a, b);
            sum += left * right * *entry;
        }
    return sum;
}

double Influence::covariance(const SparseVector& a, const SparseVector& b) const {
    return reducedProduct(reduced(a), reduced(b));
}

VectorXd Influence::covarianceWith(Index column) const {
    return m_size.cwiseProduct(m_elimination.t * m_factor.solve(wholeForm({{column, 1.0}})));
}

VectorXd Influence::squaredCovariances(const VectorXd& m) const {
    VectorXd out = VectorXd::Zero(m.size());
    // Σ m_j t_j t_jᵀ of the unknowns that are free or have few free ones; the others one by one.
    std::vector<Eigen::Triplet<double>> entries;
    std::vector<Index> single;
    for (Index j = 0; j < m.size(); ++j) {
        if (m(j) == 0) continue;
        const auto form = reduced({{j, 1.0}});
        if (static_cast<Index>(form.size()) > kLongSubstitution) {
            single.push_back(j);
            continue;
        }
        for (const auto& [a, left] : form)
            for (const auto& [b, right] : form)
                entries.emplace_back(static_cast<int>(a), static_cast<int>(b), m(j) * left * right);
    }
    Eigen::SparseMatrix<double> weights(m_factor.size(), m_factor.size());
    weights.setFromTriplets(entries.begin(), entries.end());
    if (const auto found = sandwiched(weights)) {
        out = *found;
    } else {
        single.clear();
        for (Index j = 0; j < m.size(); ++j)
            if (m(j) != 0) single.push_back(j);
    }
    for (const Index j : single) out += m(j) * covarianceWith(j).cwiseAbs2();
    return out;
}

VectorXd Influence::varianceFrom(const VectorXd& share) const {
    Eigen::SparseMatrix<double, Eigen::RowMajor> rows = m_reduced;
    for (std::size_t i = 0; i < m_at.loose.size(); ++i)
        rows.row(static_cast<Index>(i)) *= std::sqrt(share(static_cast<Index>(m_at.loose[i])));
    rows.prune(0.0);
    const Eigen::SparseMatrix<double> byColumn(rows);
    const Eigen::SparseMatrix<double> weights = byColumn.transpose() * byColumn;
    if (const auto found = sandwiched(weights)) return *found;
    VectorXd out(m_size.size());
    for (Index k = 0; k < out.size(); ++k)
        out(k) = (rows * m_factor.solve(wholeForm({{k, 1.0}}))).squaredNorm();
    return out;
}

std::optional<VectorXd> Influence::sandwiched(const Eigen::SparseMatrix<double>& m) const {
    const auto spread = inverseTimes(m_factor, m);
    if (!spread) return std::nullopt;
    VectorXd out(m_size.size());
    for (Index k = 0; k < out.size(); ++k) {
        const auto form = reduced({{k, 1.0}});
        double sum = 0;
        bool whole = form.size() <= kLongForm;
        for (std::size_t i = 0; whole && i < form.size(); ++i)
            for (const auto& [j, right] : form) {
                const auto entry = spread->at(form[i].first, j);
                whole = whole && entry;
                sum += form[i].second * right * entry.value_or(0);
            }
        if (!whole) {
            const VectorXd q = m_factor.solve(wholeForm({{k, 1.0}}));
            sum = q.dot(m * q);
        }
        out(k) = sum;
    }
    return out;
}

SparseVector Influence::exactForm(Index independent) const {
    std::vector<std::pair<Index, double>> terms;
    for (Eigen::SparseMatrix<double>::InnerIterator it(m_exactOnLoose, independent); it; ++it)
        for (SparseRows::InnerIterator z(m_reduced, it.row()); z; ++z)
            terms.emplace_back(z.col(), it.value() * z.value());
    std::sort(terms.begin(), terms.end());
    SparseVector out;
    for (const auto& [z, value] : terms) {
        if (!out.empty() && out.back().first == z)
            out.back().second += value;
        else
            out.emplace_back(z, value);
    }
    return out;
}

void Influence::findLambda() {
    const auto rows = static_cast<Index>(m_at.at.size());
    m_lambda = VectorXd::Zero(rows);
    m_lambdaVariance = VectorXd::Zero(rows);
    m_checked.assign(m_at.at.size(), false);
    for (std::size_t i = 0; i < m_at.loose.size(); ++i) {
        const auto k = static_cast<Index>(m_at.loose[i]);
        const auto form = entriesOf(m_reduced, static_cast<Index>(i));
        const double open = 1 - reducedProduct(form, form);
        m_lambda(k) = m_at.b(static_cast<Index>(i)) / m_at.sigma(k);
        m_lambdaVariance(k) = open / (m_at.sigma(k) * m_at.sigma(k));
        m_checked[m_at.loose[i]] = open > kNoRedundancy;
    }
    const VectorXd multipliers = -(m_exactOnLoose.transpose() * m_at.b);
    for (std::size_t j = 0; j < m_elimination.independent.size(); ++j) {
        const auto place = static_cast<Index>(j);
        const Index exact = m_elimination.independent[j];
        const std::size_t row = m_at.exact[static_cast<std::size_t>(exact)];
        const double unit = m_at.exactNorm(exact);
        const auto form = exactForm(place);
        // Not `squaredNorm`, which Eigen refuses of a column without rows: there may be no loose
        // row.
        double whole = 0;
        for (Eigen::SparseMatrix<double>::InnerIterator it(m_exactOnLoose, place); it; ++it)
            whole += it.value() * it.value();
        const double open = whole - reducedProduct(form, form);
        m_lambda(static_cast<Index>(row)) = multipliers(place) / unit;
        m_lambdaVariance(static_cast<Index>(row)) = open / (unit * unit);
        m_checked[row] = open > kNoRedundancy * std::max(whole, 1e-300);
    }
}

VectorXd Influence::lambdaCovarianceWith(std::size_t row) const {
    VectorXd loose = VectorXd::Zero(m_reduced.rows());
    double unit = 1;
    if (const Index i = m_looseAt[row]; i >= 0) {
        loose(i) = 1;
        unit = m_at.sigma(static_cast<Index>(row));
    } else if (const Index j = m_exactAt[row]; j >= 0) {
        loose = -VectorXd(m_exactOnLoose.col(j));
        unit = m_at.exactNorm(m_elimination.independent[static_cast<std::size_t>(j)]);
    } else {
        return VectorXd::Zero(static_cast<Index>(m_at.at.size()));
    }
    loose -= m_reduced * m_factor.solve(m_reduced.transpose() * loose);
    const VectorXd exact = -(m_exactOnLoose.transpose() * loose);
    VectorXd out = VectorXd::Zero(static_cast<Index>(m_at.at.size()));
    for (std::size_t i = 0; i < m_at.loose.size(); ++i) {
        const auto k = static_cast<Index>(m_at.loose[i]);
        out(k) = loose(static_cast<Index>(i)) / (m_at.sigma(k) * unit);
    }
    for (std::size_t j = 0; j < m_elimination.independent.size(); ++j) {
        const Index e = m_elimination.independent[j];
        out(static_cast<Index>(m_at.exact[static_cast<std::size_t>(e)])) =
            exact(static_cast<Index>(j)) / (m_at.exactNorm(e) * unit);
    }
    return out;
}

VectorXd Influence::answer(const VectorXd& misfit) const {
    VectorXd b(m_reduced.rows());
    for (std::size_t i = 0; i < m_at.loose.size(); ++i) {
        const auto k = static_cast<Index>(m_at.loose[i]);
        b(static_cast<Index>(i)) = misfit(k) / m_at.sigma(k);
    }
    VectorXd d(m_exactOnLoose.cols());
    for (Index j = 0; j < d.size(); ++j) {
        const Index e = m_elimination.independent[static_cast<std::size_t>(j)];
        d(j) =
            misfit(static_cast<Index>(m_at.exact[static_cast<std::size_t>(e)])) / m_at.exactNorm(e);
    }
    b -= m_exactOnLoose * d;
    const VectorXd z = m_factor.solve(m_reduced.transpose() * b);
    return m_size.cwiseProduct(m_elimination.g * d + m_elimination.t * z);
}

}  // namespace evidence::network
