#include "evidence-core/network/adjust.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <unordered_map>

namespace evidence::network {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr int kMostIterations = 60;
/// Relative step at which Gauss–Newton has arrived; the last step squares it.
constexpr double kArrived = 1e-10;
/// Step in units of the observations' doubts that no longer counts, beside all of their misfit.
constexpr double kUnseen = 1e-8;
/// Relative misfit that rounding may leave in an exact row.
constexpr double kHolds = 1e-9;

/// Unknowns that one part may move, so that a step can be taken back.
class Moving {
  public:
    Moving(std::vector<std::size_t> unknowns, VectorXd& x)
        : m_unknowns(std::move(unknowns)), m_x(x) {
        keep();
    }
    void keep() {
        m_kept.resize(static_cast<Index>(m_unknowns.size()));
        for (Index i = 0; i < m_kept.size(); ++i) m_kept(i) = m_x(at(i));
    }
    void takeBack() {
        for (Index i = 0; i < m_kept.size(); ++i) m_x(at(i)) = m_kept(i);
    }
    void moveBy(const VectorXd& step) {
        for (Index i = 0; i < m_kept.size(); ++i) m_x(at(i)) = m_kept(i) + step(i);
    }
    [[nodiscard]] const VectorXd& kept() const { return m_kept; }
    [[nodiscard]] const std::vector<std::size_t>& unknowns() const { return m_unknowns; }

  private:
    [[nodiscard]] Index at(Index i) const {
        return static_cast<Index>(m_unknowns[static_cast<std::size_t>(i)]);
    }
    std::vector<std::size_t> m_unknowns;
    VectorXd& m_x;
    VectorXd m_kept;
};

std::vector<std::size_t> foldedOf(const Equations& eq, const std::vector<std::size_t>& rows) {
    std::vector<std::size_t> out;
    for (const std::size_t r : rows)
        out.insert(out.end(), eq.rows[r].folded.begin(), eq.rows[r].folded.end());
    return out;
}

class Solver {
  public:
    Solver(const Equations& eq, const std::vector<std::size_t>& unknowns,
           const std::vector<std::size_t>& rows, const std::vector<Index>& column, VectorXd& x)
        : m_eq(eq), m_column(column), m_x(x), m_free(unknowns, x), m_folded(foldedOf(eq, rows), x) {
        m_out.unknowns = unknowns;
        m_out.rows = rows;
        m_size.resize(static_cast<Index>(unknowns.size()));
        for (Index j = 0; j < m_size.size(); ++j)
            m_size(j) = eq.unknowns[unknowns[static_cast<std::size_t>(j)]].size;
    }

    Adjustment run() {
        Moving freeStart = m_free, foldedStart = m_folded;
        m_out.converged = false;
        Linearised lin = linearised();
        double last = std::numeric_limits<double>::infinity();
        double damping = 1;
        while (lin.defined && ++m_out.iterations <= kMostIterations) {
            const auto step = stepFrom(lin);
            if (!step || !step->allFinite()) break;
            const double length = step->size() > 0 ? step->lpNorm<Eigen::Infinity>() : 0.0;
            if (!isPlain(lin) && m_out.iterations > 8 && length > 0.5 * last)
                damping = std::max(damping / 2, 0.05);
            last = length;
            const double seen =
                damping < 1 ? std::numeric_limits<double>::infinity() : (lin.a * *step).norm();
            const double misfit = lin.b.norm();
            if (!advance(*step, foldedSteps(lin, lin.b - lin.a * *step), damping, lin)) break;
            // Or one that moves no prediction by what could be seen beside its doubt: badly
            // conditioned and very tight parts go on shuffling rounding errors for ever.
            const bool unseen = (seen < kUnseen * misfit || seen < kArrived) && exactHold(lin);
            if (length < kArrived || unseen) {
                finish(std::move(lin));
                break;
            }
        }
        if (!m_out.converged) {
            freeStart.takeBack();
            foldedStart.takeBack();
        }
        return std::move(m_out);
    }

  private:
    [[nodiscard]] Linearised linearised() const {
        return linearise(m_eq, m_out.rows, m_column, m_size, m_x);
    }

    [[nodiscard]] static VectorXd exactOpen(const Linearised& lin, const Elimination& e) {
        VectorXd d(static_cast<Index>(e.independent.size()));
        for (Index i = 0; i < d.size(); ++i)
            d(i) = lin.d(e.independent[static_cast<std::size_t>(i)]);
        return d;
    }

    /// Relative step: exact rows met, the others as well as they can be.
    [[nodiscard]] std::optional<VectorXd> stepFrom(const Linearised& lin) const {
        if (lin.c.rows() == 0) {
            const auto factor = factorise(lin.a);
            if (!factor) return std::nullopt;
            return factor->solve(lin.a.transpose() * lin.b);
        }
        const Elimination e = eliminate(lin.c, lin.a);
        VectorXd step = e.g * exactOpen(lin, e);
        const SparseRows reduced = lin.a * e.t;
        const auto factor = factorise(reduced);
        if (!factor) return std::nullopt;
        step += e.t * factor->solve(reduced.transpose() * (lin.b - lin.a * step));
        return step;
    }

    /// Steps that bring the folded errors where the whitened residuals put them:
    /// e = prior + u² s λ.
    [[nodiscard]] VectorXd foldedSteps(const Linearised& lin, const VectorXd& whitened) const {
        std::unordered_map<std::size_t, double> lambdaSlope;
        for (Index i = 0; i < whitened.size(); ++i) {
            const std::size_t k = lin.loose[static_cast<std::size_t>(i)];
            const auto& folded = m_eq.rows[m_out.rows[k]].folded;
            if (folded.empty()) continue;
            const double lambda = whitened(i) / lin.sigma(static_cast<Index>(k));
            for (const std::size_t f : folded)
                for (const auto& s : lin.at[k].slopes)
                    if (s.unknown == f) lambdaSlope[f] = s.slope * lambda;
        }
        const auto& folded = m_folded.unknowns();
        VectorXd out = VectorXd::Zero(static_cast<Index>(folded.size()));
        for (std::size_t i = 0; i < folded.size(); ++i) {
            const auto found = lambdaSlope.find(folded[i]);
            if (found == lambdaSlope.end()) continue;
            const auto& error = m_eq.unknowns[folded[i]];
            const auto place = static_cast<Index>(i);
            out(place) = error.start + error.u * error.u * found->second - m_folded.kept()(place);
        }
        return out;
    }

    [[nodiscard]] static bool exactHold(const Linearised& lin) {
        return lin.d.size() == 0 || lin.d.lpNorm<Eigen::Infinity>() <= kHolds;
    }
    [[nodiscard]] bool isPlain(const Linearised& lin) const {
        return lin.c.rows() == 0 && m_folded.unknowns().empty();
    }

    /// Goes along the step as far as the equations can bear.
    bool advance(const VectorXd& step, const VectorXd& folded, double fraction, Linearised& lin) {
        const double before = lin.b.norm();
        for (int halving = 0; halving < 25; ++halving, fraction /= 2) {
            m_free.moveBy(fraction * step.cwiseProduct(m_size));
            m_folded.moveBy(fraction * folded);
            lin = linearised();
            if (!lin.defined) continue;
            // The sum of squares is what is made small: no step may raise it. Exact rows and folded
            // errors, whose weights move with them, have no such measure.
            if (isPlain(lin) && halving < 20 && lin.b.norm() > before * (1 + 1e-9) + 1e-9) continue;
            m_free.keep();
            m_folded.keep();
            return true;
        }
        m_free.takeBack();
        m_folded.takeBack();
        return false;
    }

    /// Exact rows that depend on others and do not hold with them, with those others.
    [[nodiscard]] std::vector<std::size_t> contradictions(const Linearised& lin,
                                                          const Elimination& e) const {
        std::vector<std::size_t> bad;
        const auto name = [&](Index exact) {
            bad.push_back(m_out.rows[lin.exact[static_cast<std::size_t>(exact)]]);
        };
        for (std::size_t i = 0; i < e.dependent.size(); ++i) {
            if (std::abs(lin.d(e.dependent[i])) <= kHolds) continue;
            name(e.dependent[i]);
            for (const auto& [k, factor] : e.follows[i])
                if (std::abs(factor) > 1e-8) name(e.independent[static_cast<std::size_t>(k)]);
        }
        std::sort(bad.begin(), bad.end());
        bad.erase(std::unique(bad.begin(), bad.end()), bad.end());
        return bad;
    }

    void finish(Linearised lin) {
        auto influence = Influence::of(std::move(lin), m_size);
        if (!influence) return;
        m_out.converged = true;
        const Linearised& at = influence->at();
        m_out.contradicted = contradictions(at, influence->elimination());
        if (!m_out.contradicted.empty()) return;
        m_out.chi2 = at.b.squaredNorm();
        m_out.redundancy =
            static_cast<double>(at.loose.size()) - static_cast<double>(influence->freeUnknowns());
        m_out.influence = std::make_shared<const Influence>(*std::move(influence));
    }

    const Equations& m_eq;
    const std::vector<Index>& m_column;
    VectorXd& m_x;
    Moving m_free;
    Moving m_folded;
    Adjustment m_out;
    VectorXd m_size;
};

}  // namespace

Adjustment Adjuster::run(const std::vector<std::size_t>& unknowns,
                         const std::vector<std::size_t>& rows, VectorXd& x) {
    for (std::size_t j = 0; j < unknowns.size(); ++j) m_column[unknowns[j]] = static_cast<Index>(j);
    Adjustment out = Solver(*m_eq, unknowns, rows, m_column, x).run();
    for (const std::size_t i : unknowns) m_column[i] = -1;
    return out;
}

}  // namespace evidence::network
