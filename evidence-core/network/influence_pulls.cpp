#include "evidence-core/network/influence.h"

#include <queue>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <unordered_set>

/// What moves one unknown: all rows of a part of ordinary size, the rows near by in a very large
/// one.
namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// Up to so many free unknowns every pull is worked out.
constexpr Index kFollowedWhole = 500;
/// Beyond, rows are followed until this share of the variance is left,
constexpr double kLeft = 1e-3;
/// or until those that lead farther carry less than this share each: the rest, many small ones,
/// adds up to a normal error.
constexpr double kWeak = 1e-3;
constexpr std::size_t kMostRows = 400;
/// What the entries of the selected inverse may leave before the rest of the inverse is asked.
constexpr double kLeftByPattern = 0.10;

/// What is followed is known to this share of its largest entry.
constexpr double kDropped = 1e-4;

/// Entries of L⁻ᵀ y one by one, each with its path towards the root as far as y reaches.
class LazyBackward {
  public:
    LazyBackward(const TriangularFactor& factor, const SparseVector& y) : m_factor(factor) {
        const auto n = static_cast<std::size_t>(factor.size());
        if (s_x.size() < n) {
            s_x.resize(n, 0.0);
            s_known.resize(n, 0);
        }
        for (const auto& [place, value] : y) s_x[static_cast<std::size_t>(place)] = value;
        for (const auto& [place, value] : y) m_touched.push_back(static_cast<int>(place));
        m_last = y.empty() ? -1 : static_cast<int>(y.back().first);
    }
    LazyBackward(const LazyBackward&) = delete;
    LazyBackward& operator=(const LazyBackward&) = delete;
    ~LazyBackward() {
        for (const int j : m_touched) {
            s_x[static_cast<std::size_t>(j)] = 0;
            s_known[static_cast<std::size_t>(j)] = 0;
        }
    }

    double operator()(Index column) {
        const int start = m_factor.place(column);
        const int* starts = m_factor.lower.outerIndexPtr();
        const int* rows = m_factor.lower.innerIndexPtr();
        const double* values = m_factor.lower.valuePtr();
        for (int j = start; j <= m_last && !s_known[static_cast<std::size_t>(j)];) {
            m_path.push_back(j);
            if (starts[j] + 1 >= starts[j + 1]) break;
            j = rows[starts[j] + 1];
        }
        while (!m_path.empty()) {
            const int j = m_path.back();
            m_path.pop_back();
            double& x = s_x[static_cast<std::size_t>(j)];  // holds y until it is known
            for (int p = starts[j] + 1; p < starts[j + 1]; ++p)
                x -= values[p] * s_x[static_cast<std::size_t>(rows[p])];
            x /= values[starts[j]];
            s_known[static_cast<std::size_t>(j)] = 1;
            m_touched.push_back(j);
        }
        return s_x[static_cast<std::size_t>(start)];
    }

  private:
    const TriangularFactor& m_factor;
    int m_last = -1;  ///< beyond it y, and so the answer, is nought
    std::vector<int> m_path;
    std::vector<int> m_touched;
    // By place in L; noughts between uses, so that no use pays for the size of the part.
    static thread_local std::vector<double> s_x;
    static thread_local std::vector<char> s_known;
};
thread_local std::vector<double> LazyBackward::s_x;
thread_local std::vector<char> LazyBackward::s_known;

/// Follows rows outwards from one unknown, those next that the strongest pull leads to.
class Follower {
  public:
    Follower(const SparseRows& rows, const Eigen::SparseMatrix<double>& byUnknown, double variance)
        : m_rows(&rows), m_byUnknown(&byUnknown), m_variance(variance) {}

    /// `answer` gives an unknown's covariance with the one followed, or nothing where it is not
    /// known: rows with such unknowns are passed over.
    template <class Answer>
    void follow(const SparseVector& from, Answer answer) {
        std::priority_queue<std::pair<double, Index>> next;
        for (const auto& [z, value] : from)
            next.emplace(std::numeric_limits<double>::infinity(), z);
        std::unordered_set<Index> expanded;
        while (!next.empty() && !enough() && m_pulls.size() < kMostRows) {
            const auto [lead, z] = next.top();
            if (lead * lead < kWeak * m_variance) break;
            next.pop();
            if (!expanded.insert(z).second) continue;
            for (Eigen::SparseMatrix<double>::InnerIterator it(*m_byUnknown, z);
                 it && m_pulls.size() < kMostRows; ++it) {
                const auto pull = pullOf(it.row(), answer);
                if (!pull || !m_pulls.emplace(it.row(), *pull).second) continue;
                m_explained += *pull * *pull;
                for (SparseRows::InnerIterator other(*m_rows, it.row()); other; ++other)
                    if (!expanded.contains(other.col())) next.emplace(std::abs(*pull), other.col());
            }
        }
    }
    [[nodiscard]] bool enough() const { return m_explained >= (1 - kLeft) * m_variance; }
    [[nodiscard]] double left() const {
        return m_variance > 0 ? std::clamp(1 - m_explained / m_variance, 0.0, 1.0) : 0.0;
    }
    [[nodiscard]] const std::map<Index, double>& pulls() const { return m_pulls; }

  private:
    template <class Answer>
    std::optional<double> pullOf(Index row, Answer& answer) const {
        double sum = 0;
        for (SparseRows::InnerIterator it(*m_rows, row); it; ++it) {
            const std::optional<double> covariance = answer(it.col());
            if (!covariance) return std::nullopt;
            sum += it.value() * *covariance;
        }
        return sum;
    }

    const SparseRows* m_rows;
    const Eigen::SparseMatrix<double>* m_byUnknown;
    double m_variance;
    double m_explained = 0;
    std::map<Index, double> m_pulls;  ///< whitened, by loose row
};

}  // namespace

double Influence::pull(Index column, std::size_t row) const {
    const auto to = reduced({{column, 1.0}});
    if (const Index i = m_looseAt[row]; i >= 0)
        return reducedProduct(to, entriesOf(m_reduced, i)) / m_at.sigma(static_cast<Index>(row));
    const Index j = m_exactAt[row];
    if (j < 0) return 0;
    const double unit = m_at.exactNorm(m_elimination.independent[static_cast<std::size_t>(j)]);
    return (m_elimination.g.coeff(column, j) * m_size(column) - reducedProduct(to, exactForm(j))) /
           unit;
}

bool Influence::followsEveryRow() const {
    return m_factor.size() <= kFollowedWhole;
}

Pulls Influence::pullsOn(Index column) const {
    return followsEveryRow() ? allPulls(column) : nearbyPulls(column);
}

Pulls Influence::allPulls(Index column) const {
    const VectorXd loose = m_reduced * m_factor.solve(wholeForm({{column, 1.0}}));
    VectorXd exact = -(m_exactOnLoose.transpose() * loose);
    for (SparseRows::InnerIterator it(m_elimination.g, column); it; ++it)
        exact(it.col()) += it.value() * m_size(column);
    Pulls out;
    out.rows.reserve(m_at.at.size());
    for (std::size_t k = 0; k < m_at.at.size(); ++k) {
        double pull = 0;
        if (const Index i = m_looseAt[k]; i >= 0)
            pull = loose(i) / m_at.sigma(static_cast<Index>(k));
        else if (const Index j = m_exactAt[k]; j >= 0)
            pull =
                exact(j) / m_at.exactNorm(m_elimination.independent[static_cast<std::size_t>(j)]);
        if (pull != 0) out.rows.push_back({k, pull});
    }
    return out;
}

Pulls Influence::nearbyPulls(Index column) const {
    const auto form = reduced({{column, 1.0}});
    // What stands in the factor's pattern costs nothing and mostly suffices.
    Follower follower(m_reduced, m_byUnknown, reducedProduct(form, form));
    follower.follow(form, [&](Index z) {
        std::optional<double> sum = 0.0;
        for (const auto& [i, value] : form) {
            const auto entry = m_inverse.at(i, z);
            if (!entry) return std::optional<double>{};
            *sum += value * *entry;
        }
        return sum;
    });
    if (follower.left() > kLeftByPattern) {
        follower = Follower(m_reduced, m_byUnknown, reducedProduct(form, form));
        LazyBackward answer(m_factor, m_factor.forward(form, kDropped));
        follower.follow(form, [&](Index z) { return std::optional<double>(answer(z)); });
    }

    Pulls out;
    for (const auto& [i, u] : follower.pulls()) {
        const std::size_t k = m_at.loose[static_cast<std::size_t>(i)];
        out.rows.push_back({k, u / m_at.sigma(static_cast<Index>(k))});
    }
    for (SparseRows::InnerIterator it(m_elimination.g, column); it; ++it) {
        const Index e = m_elimination.independent[static_cast<std::size_t>(it.col())];
        const std::size_t k = m_at.exact[static_cast<std::size_t>(e)];
        out.rows.push_back({k, pull(column, k)});
    }
    std::sort(out.rows.begin(), out.rows.end(),
              [](const RowPull& a, const RowPull& b) { return a.row < b.row; });
    out.unfollowed = follower.left();
    return out;
}

}  // namespace evidence::network
