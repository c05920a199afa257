#include "evidence-core/network/net.h"
#include "evidence-core/network/pulls.h"
#include "evidence-core/quantity/interval.h"

#include <algorithm>
#include <cmath>

/// Values, intervals and limits of dimensions; connected parts.
namespace evidence::network {

namespace {

using Index = Eigen::Index;

LimitSolution limitsOf(const Net& net, std::size_t d) {
    LimitSolution out;
    for (const auto& t : net.triage.readings) {
        if (t.dimension != d || t.use != ReadingUse::Limit) continue;
        const auto& id = net.reg().readings[t.record].id;
        if (t.low) {
            if (!out.low || *t.low > *out.low) out.lowFrom.clear();
            if (!out.low || *t.low >= *out.low) {
                out.low = t.low;
                out.lowFrom.push_back(id);
            }
        }
        if (t.high) {
            if (!out.high || *t.high < *out.high) out.highFrom.clear();
            if (!out.high || *t.high <= *out.high) {
                out.high = t.high;
                out.highFrom.push_back(id);
            }
        }
    }
    out.empty = out.low && out.high && *out.low > *out.high;
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r)
        if (net.eq.rows[r].kind == RowKind::Limit && net.eq.rows[r].record == d)
            out.acts = net.fit.acting[r];
    return out;
}

/// Where nothing but its own direct readings pulls a value, it must lie among them and none may
/// pull it away from itself.
bool outsideReadings(const Net& net, const Adjustment& part, Index column, std::size_t d,
                     double value) {
    std::optional<double> least, greatest;
    bool backwards = false;
    const double size = std::max(std::abs(value), 1e-9);
    for (std::size_t k = 0; k < part.rows.size(); ++k) {
        const Row& row = net.eq.rows[part.rows[k]];
        const double pull = part.pull(column, static_cast<Index>(k));
        const bool own =
            row.kind == RowKind::Direct && net.triage.readings[row.record].dimension == d;
        if (own) {
            const Prediction& at = part.at[k];
            const double read = at.size + part.residual(static_cast<Index>(k)) / at.perUnit;
            least = least ? std::min(*least, read) : read;
            greatest = greatest ? std::max(*greatest, read) : read;
            backwards = backwards || pull * at.perUnit < -1e-9;
        } else if (row.kind != RowKind::Prior && std::abs(pull) > 1e-12 * size) {
            return false;
        }
    }
    return least && (backwards || value < *least - 1e-9 * size || value > *greatest + 1e-9 * size);
}

std::string whyOpen(const Net& net, std::size_t unknown) {
    bool any = false;
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r) {
        if (!net.evidence[r]) continue;
        const auto& of = net.eq.rows[r].unknowns;
        if (std::find(of.begin(), of.end(), unknown) == of.end()) continue;
        any = true;
        for (const std::size_t i : of)
            if (net.eq.unknowns[i].kind == UnknownKind::Scale && !net.all.estimable[i])
                return "its scale frame has no size of its own";
    }
    return any ? "what speaks of it has further unknowns: there are fewer equations than unknowns"
               : "no usable evidence speaks of it";
}

void writeValue(const Net& net, const Adjustment& part, Index column, double value, std::size_t d,
                DimensionSolution& to) {
    to.value = value;
    to.u = std::sqrt(std::max(part.covariance(column, column), 0.0));
    const Pulls pulls = pullsOn(net, part, column);
    const auto uncut = quantity::coverage95(value, pulls.components);
    const auto cut = quantity::cutTo(uncut, to.limits.low, to.limits.high);
    to.uncut95 = Interval{uncut.low, uncut.high};
    to.interval95 = Interval{cut.low, cut.high};
    const double slack = 1e-9 * std::max(std::abs(value), 1.0);
    to.limits.excludes = to.limits.empty || (to.limits.low && value < *to.limits.low - slack) ||
                         (to.limits.high && value > *to.limits.high + slack);

    double total = 0;
    for (const auto& [leaf, variance] : pulls.variance) total += variance;
    for (const auto& [leaf, variance] : pulls.variance) {
        const double share = variance / total;
        to.contributions.push_back({leaf, std::sqrt(variance), share});
        const auto& strength = net.eq.leaves[leaf].strength;
        if (strength == record::Grade::OurCall) to.guessShare += share;
        if (strength == record::Grade::OurCall || strength == record::Grade::CarriedOver)
            to.borrowedShare += share;
    }
    std::stable_sort(to.contributions.begin(), to.contributions.end(),
                     [](const auto& a, const auto& b) { return a.share > b.share; });
    to.outsideReadings = outsideReadings(net, part, column, d, value);
}

}  // namespace

void writeDimensions(const Net& net, Solution& to) {
    std::vector<bool> circular(net.eq.unknowns.size(), false);
    for (const auto& core : net.cores)
        for (const std::size_t i : core.unknowns) circular[i] = true;
    for (std::size_t d = 0; d < net.reg().dimensions.size(); ++d) {
        DimensionSolution out;
        out.id = net.reg().dimensions[d].id;
        const auto unknown = net.eq.ofDimension[d];
        if (!unknown) {
            out.setAside = true;
            out.why = "set aside";
            to.dimensions.push_back(std::move(out));
            continue;
        }
        out.limits = limitsOf(net, d);
        out.limits.excludes = out.limits.empty;
        out.estimable = net.all.estimable[*unknown];
        if (out.estimable) {
            out.footing = Footing::Determined;
        } else if (circular[*unknown]) {
            out.footing = Footing::Circular;
            out.why = "the evidence for it leads back to itself";
        } else {
            out.why = whyOpen(net, *unknown);
        }
        const auto part = net.fit.partOf[*unknown];
        if (part) {
            for (std::size_t p = 0; p < to.parts.size(); ++p) {
                const auto& members = to.parts[p].dimensions;
                if (std::find(members.begin(), members.end(), d) != members.end()) out.part = p;
            }
        }
        if (net.fit.has(*unknown))
            writeValue(net, net.fit.parts[*part], *net.fit.columnOf[*unknown],
                       net.fit.x(static_cast<Index>(*unknown)), d, out);
        else if (out.estimable)
            out.why = "the adjustment of its part of the network did not converge";
        to.dimensions.push_back(std::move(out));
    }
}

void writeParts(const Net& net, Solution& to) {
    for (std::size_t p = 0; p < net.fit.parts.size(); ++p) {
        const Adjustment& part = net.fit.parts[p];
        PartSolution out;
        for (const std::size_t i : net.fit.members[p])
            if (net.eq.unknowns[i].kind == UnknownKind::Dimension)
                out.dimensions.push_back(net.eq.unknowns[i].record);
        if (out.dimensions.empty()) {
            // A scale that nothing is measured with, or the prior of a mere check.
            continue;
        }
        std::sort(out.dimensions.begin(), out.dimensions.end());
        out.unknowns = static_cast<int>(part.unknowns.size());
        out.observations = static_cast<int>(part.rows.size());
        out.converged = part.converged;
        out.redundancy = part.redundancy;
        out.chi2 = part.chi2;
        if (part.converged && part.redundancy > 0)
            out.p = quantity::chiSquareProbability(part.chi2, static_cast<int>(part.redundancy));
        const auto n = static_cast<Index>(out.dimensions.size());
        out.covariance = Eigen::MatrixXd::Zero(n, n);
        if (part.converged)
            for (Index i = 0; i < n; ++i)
                for (Index j = 0; j < n; ++j) {
                    const auto a = *net.eq.ofDimension[out.dimensions[static_cast<std::size_t>(i)]];
                    const auto b = *net.eq.ofDimension[out.dimensions[static_cast<std::size_t>(j)]];
                    if (net.fit.has(a) && net.fit.has(b))
                        out.covariance(i, j) =
                            part.covariance(*net.fit.columnOf[a], *net.fit.columnOf[b]);
                }
        to.unknowns += out.unknowns;
        to.observations += out.observations;
        to.redundancy += out.redundancy;
        to.chi2 += out.chi2;
        to.converged = to.converged && out.converged;
        to.parts.push_back(std::move(out));
    }
    if (to.redundancy > 0)
        to.p = quantity::chiSquareProbability(to.chi2, static_cast<int>(to.redundancy));
}

void writeWithoutGuess(const Net& net, const Eigen::VectorXd& start, Solution& to) {
    RowMask allowed = net.evidence;
    bool anyGuess = false;
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r) {
        if (net.eq.rows[r].strength != record::Grade::OurCall) continue;
        anyGuess = anyGuess || allowed[r];
        allowed[r] = false;
    }
    for (auto& d : to.dimensions) {
        d.valueWithoutGuess = d.value;
        d.uWithoutGuess = d.u;
    }
    if (!anyGuess) return;
    const Fit without = fit(net.eq, net.structure, std::move(allowed), start, Detail::ValuesOnly);
    for (std::size_t d = 0; d < to.dimensions.size(); ++d) {
        auto& out = to.dimensions[d];
        out.valueWithoutGuess.reset();
        out.uWithoutGuess.reset();
        const auto unknown = net.eq.ofDimension[d];
        if (!unknown || !without.has(*unknown)) continue;
        out.valueWithoutGuess = without.x(static_cast<Index>(*unknown));
        const auto column = *without.columnOf[*unknown];
        out.uWithoutGuess = std::sqrt(
            std::max(without.parts[*without.partOf[*unknown]].covariance(column, column), 0.0));
    }
}

}  // namespace evidence::network
