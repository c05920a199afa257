#include "evidence-core/network/triangular_factor.h"

#include <SuiteSparseQR.hpp>
#include <cholmod.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>

namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;
using Lower = Eigen::SparseMatrix<double>;

/// Up to here QR costs next to nothing and keeps all digits.
constexpr Index kSmall = 1000;
/// 1 / condition of the normal matrix below which its Cholesky factor loses printed digits.
constexpr double kIllConditioned = 1e-10;
/// A squared pivot below this share of the greatest is rounding.
constexpr double kSingular = 1e-24;

/// One CHOLMOD workspace for int indices and one for the long ones that SuiteSparseQR wants.
class Workspace {
  public:
    Workspace() {
        cholmod_start(&m_int);
        cholmod_l_start(&m_long);
        m_int.print = m_long.print = 0;
        m_int.error_handler = m_long.error_handler = nullptr;
        m_int.quick_return_if_not_posdef = 1;
        m_long.SPQR_nthreads = 1;
    }
    Workspace(const Workspace&) = delete;
    Workspace& operator=(const Workspace&) = delete;
    ~Workspace() {
        cholmod_finish(&m_int);
        cholmod_l_finish(&m_long);
    }
    cholmod_common* ints() { return &m_int; }
    cholmod_common* longs() { return &m_long; }

  private:
    cholmod_common m_int{};
    cholmod_common m_long{};
};

Workspace& workspace() {
    thread_local Workspace own;
    return own;
}

TriangularFactor assembled(Lower lower, Eigen::VectorXi order) {
    TriangularFactor out;
    out.place.resize(order.size());
    for (Index k = 0; k < order.size(); ++k) out.place(order(k)) = static_cast<int>(k);
    out.order = std::move(order);
    double least = std::numeric_limits<double>::infinity(), greatest = 0;
    for (Index j = 0; j < lower.cols(); ++j) {
        const double pivot = lower.valuePtr()[lower.outerIndexPtr()[j]];
        least = std::min(least, pivot * pivot);
        greatest = std::max(greatest, pivot * pivot);
    }
    out.spread = greatest > 0 ? least / greatest : (lower.cols() == 0 ? 1.0 : 0.0);
    out.lower.swap(lower);
    return out;
}

std::optional<TriangularFactor> byCholesky(const SparseRows& b) {
    auto* common = workspace().ints();
    // The rows of B, compressed, are the columns of Bᵀ: CHOLMOD factorises F Fᵀ with F = Bᵀ.
    cholmod_sparse f{};
    f.nrow = static_cast<std::size_t>(b.cols());
    f.ncol = static_cast<std::size_t>(b.rows());
    f.nzmax = static_cast<std::size_t>(b.nonZeros());
    f.p = const_cast<int*>(b.outerIndexPtr());
    f.i = const_cast<int*>(b.innerIndexPtr());
    f.x = const_cast<double*>(b.valuePtr());
    f.itype = CHOLMOD_INT;
    f.xtype = CHOLMOD_REAL;
    f.dtype = CHOLMOD_DOUBLE;
    f.sorted = 1;
    f.packed = 1;
    const auto free = [common](cholmod_factor* l) { cholmod_free_factor(&l, common); };
    const std::unique_ptr<cholmod_factor, decltype(free)> l(cholmod_analyze(&f, common), free);
    if (!l || cholmod_factorize(&f, l.get(), common) == 0 || common->status != CHOLMOD_OK ||
        l->minor < l->n)
        return std::nullopt;
    if (cholmod_change_factor(CHOLMOD_REAL, 1, 0, 1, 1, l.get(), common) == 0) return std::nullopt;
    const auto n = static_cast<Index>(l->n);
    const auto* starts = static_cast<const int*>(l->p);
    const Eigen::Map<const Lower> view(n, n, starts[n], starts, static_cast<const int*>(l->i),
                                       static_cast<const double*>(l->x));
    const Eigen::Map<const Eigen::VectorXi> order(static_cast<const int*>(l->Perm), n);
    return assembled(Lower(view), Eigen::VectorXi(order));
}

/// Rows of each column of L closed under elimination, from the pattern of what QR left.
Lower closed(const Lower& lower) {
    const Index n = lower.cols();
    std::vector<std::vector<int>> rows(static_cast<std::size_t>(n));
    for (Index j = 0; j < n; ++j) {
        auto& own = rows[static_cast<std::size_t>(j)];
        own.push_back(static_cast<int>(j));
        for (Lower::InnerIterator it(lower, j); it; ++it)
            if (it.row() > j) own.push_back(static_cast<int>(it.row()));
        std::sort(own.begin(), own.end());
        own.erase(std::unique(own.begin(), own.end()), own.end());
    }
    Index total = 0;
    for (std::size_t j = 0; j < rows.size(); ++j) {
        auto& own = rows[j];
        own.erase(std::unique(own.begin(), own.end()), own.end());
        total += static_cast<Index>(own.size());
        if (own.size() < 2) continue;
        auto& parent = rows[static_cast<std::size_t>(own[1])];
        std::vector<int> merged;
        std::set_union(parent.begin(), parent.end(), own.begin() + 1, own.end(),
                       std::back_inserter(merged));
        parent = std::move(merged);
    }
    Lower out(n, n);
    out.reserve(total);
    for (Index j = 0; j < n; ++j) {
        out.startVec(j);
        Lower::InnerIterator it(lower, j);
        for (const int i : rows[static_cast<std::size_t>(j)]) {
            while (it && it.row() < i) ++it;
            out.insertBack(i, j) = it && it.row() == i ? it.value() : 0.0;
        }
    }
    out.finalize();
    return out;
}

std::optional<TriangularFactor> byQr(const SparseRows& b) {
    auto* common = workspace().longs();
    const Index n = b.cols();
    if (b.rows() < n) return std::nullopt;
    const Lower byColumn(b);
    std::vector<SuiteSparse_long> starts(byColumn.outerIndexPtr(),
                                         byColumn.outerIndexPtr() + n + 1);
    std::vector<SuiteSparse_long> places(byColumn.innerIndexPtr(),
                                         byColumn.innerIndexPtr() + byColumn.nonZeros());
    cholmod_sparse a{};
    a.nrow = static_cast<std::size_t>(b.rows());
    a.ncol = static_cast<std::size_t>(n);
    a.nzmax = places.size();
    a.p = starts.data();
    a.i = places.data();
    a.x = const_cast<double*>(byColumn.valuePtr());
    a.itype = CHOLMOD_LONG;
    a.xtype = CHOLMOD_REAL;
    a.dtype = CHOLMOD_DOUBLE;
    a.sorted = 1;
    a.packed = 1;
    cholmod_sparse* r = nullptr;
    SuiteSparse_long* order = nullptr;
    const SuiteSparse_long rank =
        SuiteSparseQR<double>(SPQR_ORDERING_DEFAULT, 0, n, &a, &r, &order, common);
    const auto un = static_cast<std::size_t>(n);
    Eigen::VectorXi permutation(n);
    for (Index k = 0; k < n; ++k)
        permutation(k) = order != nullptr ? static_cast<int>(order[k]) : static_cast<int>(k);
    if (order != nullptr) cholmod_l_free(un, sizeof(SuiteSparse_long), order, common);
    if (r == nullptr) return std::nullopt;
    std::vector<Eigen::Triplet<double>> entries;
    std::vector<double> sign(un, 1.0);
    const auto* rp = static_cast<const SuiteSparse_long*>(r->p);
    const auto* ri = static_cast<const SuiteSparse_long*>(r->i);
    const auto* rx = static_cast<const double*>(r->x);
    for (std::size_t j = 0; j < un; ++j)
        for (auto p = rp[j]; p < rp[j + 1]; ++p)
            if (std::cmp_equal(ri[p], j) && rx[p] < 0) sign[j] = -1;
    for (std::size_t j = 0; j < un; ++j)
        for (auto p = rp[j]; p < rp[j + 1]; ++p)
            entries.emplace_back(static_cast<int>(j), static_cast<int>(ri[p]),
                                 rx[p] * sign[static_cast<std::size_t>(ri[p])]);
    const bool whole = rank >= n && std::cmp_equal(r->nrow, n);
    cholmod_l_free_sparse(&r, common);
    if (!whole) return std::nullopt;
    Lower lower(n, n);
    lower.setFromTriplets(entries.begin(), entries.end());
    auto out = assembled(closed(lower), std::move(permutation));
    if (!(out.spread > kSingular)) return std::nullopt;
    return out;
}

}  // namespace

SparseVector entriesOf(const SparseRows& matrix, Index row) {
    SparseVector out;
    for (SparseRows::InnerIterator it(matrix, row); it; ++it)
        out.emplace_back(it.col(), it.value());
    return out;
}

std::optional<TriangularFactor> factorise(const SparseRows& b, Factorisation by) {
    if (b.cols() == 0) return assembled(Lower(0, 0), Eigen::VectorXi(0));  // nothing left to find
    return by == Factorisation::Cholesky ? byCholesky(b) : byQr(b);
}

std::optional<TriangularFactor> factorise(const SparseRows& b) {
    if (b.cols() > kSmall) {
        auto out = byCholesky(b);
        if (out && out->spread > kIllConditioned) return out;
    }
    return factorise(b, Factorisation::Orthogonal);
}

VectorXd TriangularFactor::solve(const VectorXd& b) const {
    VectorXd y(b.size());
    for (Index k = 0; k < y.size(); ++k) y(k) = b(order(k));
    lower.triangularView<Eigen::Lower>().solveInPlace(y);
    return colour(y);
}

VectorXd TriangularFactor::colour(const VectorXd& y) const {
    VectorXd x = y;
    lower.transpose().triangularView<Eigen::Upper>().solveInPlace(x);
    VectorXd out(x.size());
    for (Index k = 0; k < x.size(); ++k) out(order(k)) = x(k);
    return out;
}

SparseVector TriangularFactor::forward(const SparseVector& b, double drop) const {
    thread_local std::vector<double> work;
    thread_local std::vector<char> waiting;
    const auto n = static_cast<std::size_t>(size());
    if (work.size() < n) {
        work.resize(n, 0.0);
        waiting.resize(n, 0);
    }
    const int* starts = lower.outerIndexPtr();
    const int* rows = lower.innerIndexPtr();
    const double* values = lower.valuePtr();
    std::vector<int> heap;  // least place on top
    const auto wait = [&](int j) {
        char& is = waiting[static_cast<std::size_t>(j)];
        if (is) return;
        is = 1;
        heap.push_back(j);
        std::push_heap(heap.begin(), heap.end(), std::greater<>());
    };
    for (const auto& [column, value] : b) {
        work[static_cast<std::size_t>(place(column))] += value;
        wait(place(column));
    }
    SparseVector out;
    double largest = 0;
    while (!heap.empty()) {
        std::pop_heap(heap.begin(), heap.end(), std::greater<>());
        const int j = heap.back();
        heap.pop_back();
        const auto at = static_cast<std::size_t>(j);
        const double y = work[at] / values[starts[j]];
        work[at] = 0;
        waiting[at] = 0;
        if (std::abs(y) <= drop * largest) continue;
        largest = std::max(largest, std::abs(y));
        out.emplace_back(j, y);
        for (int p = starts[j] + 1; p < starts[j + 1]; ++p) {
            if (values[p] == 0) continue;
            work[static_cast<std::size_t>(rows[p])] -= values[p] * y;
            wait(rows[p]);
        }
    }
    return out;
}

double TriangularFactor::product(const SparseVector& a, const SparseVector& b) const {
    const SparseVector left = forward(a), right = forward(b);
    double sum = 0;
    for (auto i = left.begin(), j = right.begin(); i != left.end() && j != right.end();) {
        if (i->first < j->first)
            ++i;
        else if (j->first < i->first)
            ++j;
        else
            sum += (i++)->second * (j++)->second;
    }
    return sum;
}

}  // namespace evidence::network
