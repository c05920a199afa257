#include "evidence-core/network/selected_inverse.h"

#include <algorithm>
#include <vector>

namespace evidence::network {

namespace {

using Eigen::Index;
using Lower = Eigen::SparseMatrix<double>;

/// A number and its derivative.
struct Dual {
    double value = 0;
    double slope = 0;

    Dual& operator+=(const Dual& o) {
        value += o.value;
        slope += o.slope;
        return *this;
    }
    friend Dual operator*(const Dual& a, const Dual& b) {
        return {a.value * b.value, a.value * b.slope + a.slope * b.value};
    }
    friend Dual operator-(const Dual& a, const Dual& b) {
        return {a.value - b.value, a.slope - b.slope};
    }
    friend Dual operator/(const Dual& a, const Dual& b) {
        const double value = a.value / b.value;
        return {value, (a.slope - value * b.slope) / b.value};
    }
};

Dual inverseOf(const Dual& a) {
    return Dual{1, 0} / a;
}
double inverseOf(double a) {
    return 1 / a;
}

/// `values` holds L in the pattern of `lower`; becomes the inverse in it.
template <class Number>
void takahashi(const Lower& lower, std::vector<Number>& values) {
    const Index n = lower.cols();
    const int* starts = lower.outerIndexPtr();
    const int* rows = lower.innerIndexPtr();
    std::vector<int> position(static_cast<std::size_t>(n), -1);
    std::vector<Number> sum, column;
    for (Index j = n - 1; j >= 0; --j) {
        const int first = starts[j], last = starts[j + 1];
        const auto count = static_cast<std::size_t>(last - first - 1);
        sum.assign(count, Number{});
        column.resize(count);
        for (std::size_t s = 0; s < count; ++s) {
            column[s] = values[static_cast<std::size_t>(first) + 1 + s];
            position[static_cast<std::size_t>(rows[first + 1 + static_cast<int>(s)])] =
                static_cast<int>(s);
        }
        for (std::size_t s = 0; s < count; ++s) {
            const int k = rows[first + 1 + static_cast<int>(s)];
            sum[s] += values[static_cast<std::size_t>(starts[k])] * column[s];
            for (int p = starts[k] + 1; p < starts[k + 1]; ++p) {
                const int t = position[static_cast<std::size_t>(rows[p])];
                if (t < 0) continue;
                const auto ut = static_cast<std::size_t>(t);
                const Number& z = values[static_cast<std::size_t>(p)];
                sum[ut] += z * column[s];
                sum[s] += z * column[ut];
            }
        }
        const Number pivot = inverseOf(values[static_cast<std::size_t>(first)]);
        Number diagonal{};
        for (std::size_t s = 0; s < count; ++s) {
            const Number z = Number{} - sum[s] * pivot;
            values[static_cast<std::size_t>(first) + 1 + s] = z;
            diagonal += z * column[s];
            position[static_cast<std::size_t>(rows[first + 1 + static_cast<int>(s)])] = -1;
        }
        values[static_cast<std::size_t>(first)] = pivot * pivot - diagonal * pivot;
    }
}

/// Derivative of L along a change of N: the left-looking factorisation differentiated. `change` is
/// lower, in the order and within the pattern of the factor.
std::vector<Dual> differentiated(const TriangularFactor& factor, const Lower& change) {
    const Lower& lower = factor.lower;
    const Index n = lower.cols();
    const int* starts = lower.outerIndexPtr();
    const int* rows = lower.innerIndexPtr();
    std::vector<Dual> l(static_cast<std::size_t>(lower.nonZeros()));
    for (std::size_t p = 0; p < l.size(); ++p) l[p].value = lower.valuePtr()[p];
    // Columns that reach row j next, as linked lists; `next` is where each of them stands.
    std::vector<int> head(static_cast<std::size_t>(n), -1), link(static_cast<std::size_t>(n), -1),
        next(static_cast<std::size_t>(n), 0);
    std::vector<double> slope(static_cast<std::size_t>(n), 0.0);
    const auto enlist = [&](int k) {
        const int p = next[static_cast<std::size_t>(k)];
        if (p >= starts[k + 1]) return;
        const auto row = static_cast<std::size_t>(rows[p]);
        link[static_cast<std::size_t>(k)] = head[row];
        head[row] = k;
    };
    for (int j = 0; j < n; ++j) {
        for (Lower::InnerIterator it(change, j); it; ++it)
            slope[static_cast<std::size_t>(it.row())] += it.value();
        for (int k = head[static_cast<std::size_t>(j)]; k >= 0;) {
            const int following = link[static_cast<std::size_t>(k)];
            const int at = next[static_cast<std::size_t>(k)]++;
            const Dual ljk = l[static_cast<std::size_t>(at)];
            for (int p = at; p < starts[k + 1]; ++p)
                slope[static_cast<std::size_t>(rows[p])] -=
                    (ljk * l[static_cast<std::size_t>(p)]).slope;
            enlist(k);
            k = following;
        }
        auto& diagonal = l[static_cast<std::size_t>(starts[j])];
        diagonal.slope = slope[static_cast<std::size_t>(j)] / (2 * diagonal.value);
        slope[static_cast<std::size_t>(j)] = 0;
        for (int p = starts[j] + 1; p < starts[j + 1]; ++p) {
            auto& entry = l[static_cast<std::size_t>(p)];
            auto& open = slope[static_cast<std::size_t>(rows[p])];
            entry.slope = (open - entry.value * diagonal.slope) / diagonal.value;
            open = 0;
        }
        next[static_cast<std::size_t>(j)] = starts[j] + 1;
        enlist(j);
    }
    return l;
}

}  // namespace

SelectedInverse::SelectedInverse(const TriangularFactor& factor)
    : m_place(factor.place), m_values(factor.lower) {
    std::vector<double> values(factor.lower.valuePtr(),
                               factor.lower.valuePtr() + factor.lower.nonZeros());
    takahashi(factor.lower, values);
    std::copy(values.begin(), values.end(), m_values.valuePtr());
}

std::optional<double> SelectedInverse::at(Index i, Index j) const {
    int row = m_place(i), column = m_place(j);
    if (row < column) std::swap(row, column);
    const int* rows = m_values.innerIndexPtr();
    const int* first = rows + m_values.outerIndexPtr()[column];
    const int* last = rows + m_values.outerIndexPtr()[column + 1];
    const int* found = std::lower_bound(first, last, row);
    if (found == last || *found != row) return std::nullopt;
    return m_values.valuePtr()[found - rows];
}

std::optional<SelectedInverse> inverseTimes(const TriangularFactor& factor,
                                            const Eigen::SparseMatrix<double>& m) {
    std::vector<Eigen::Triplet<double>> entries;
    for (Index j = 0; j < m.cols(); ++j)
        for (Lower::InnerIterator it(m, j); it; ++it) {
            const int row = factor.place(it.row()), column = factor.place(j);
            if (row >= column) entries.emplace_back(row, column, it.value());
        }
    Lower change(m.rows(), m.cols());
    change.setFromTriplets(entries.begin(), entries.end());
    SelectedInverse out;
    out.m_place = factor.place;
    out.m_values = factor.lower;
    for (Index j = 0; j < change.cols(); ++j)
        for (Lower::InnerIterator it(change, j); it; ++it)
            if (!out.at(factor.order(it.row()), factor.order(j))) return std::nullopt;
    auto values = differentiated(factor, change);
    takahashi(factor.lower, values);
    for (std::size_t p = 0; p < values.size(); ++p) out.m_values.valuePtr()[p] = -values[p].slope;
    return out;
}

}  // namespace evidence::network
