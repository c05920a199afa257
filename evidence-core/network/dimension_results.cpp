#include "evidence-core/network/net.h"
#include "evidence-core/network/pulls.h"
#include "evidence-core/quantity/interval.h"

#include <algorithm>
#include <cmath>
#include <set>

/// Values, intervals and limits of dimensions; connected parts.
namespace evidence::network {

namespace {

using Index = Eigen::Index;

/// A smaller share of a variance is rounding of the solution.
constexpr double kNoShare = 1e-12;

/// Where things stand that speak of each dimension.
struct ByDimension {
    std::vector<std::vector<std::size_t>> limits;      ///< triaged readings that are limits
    std::vector<std::optional<std::size_t>> limitRow;  ///< row in which they act
    std::vector<std::optional<std::size_t>> part;      ///< of the solution
};

ByDimension byDimension(const Net& net, const Solution& solution) {
    const std::size_t n = net.reg().dimensions.size();
    ByDimension out;
    out.limits.resize(n);
    out.limitRow.resize(n);
    out.part.resize(n);
    for (std::size_t i = 0; i < net.triage.readings.size(); ++i)
        if (net.triage.readings[i].use == ReadingUse::Limit)
            out.limits[net.triage.readings[i].dimension].push_back(i);
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r)
        if (net.eq.rows[r].kind == RowKind::Limit) out.limitRow[net.eq.rows[r].record] = r;
    for (std::size_t p = 0; p < solution.parts.size(); ++p)
        for (const std::size_t d : solution.parts[p].dimensions) out.part[d] = p;
    return out;
}

LimitSolution limitsOf(const Net& net, const ByDimension& by, std::size_t d) {
    LimitSolution out;
    for (const std::size_t i : by.limits[d]) {
        const auto& t = net.triage.readings[i];
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
    out.acts = by.limitRow[d] && net.fit.acting[*by.limitRow[d]];
    return out;
}

/// Where nothing but its own direct readings pulls a value, it must lie among them and none may
/// pull it away from itself.
bool outsideReadings(const Net& net, const Adjustment& part, const LeafPulls& pulls, std::size_t d,
                     double value) {
    std::optional<double> least, greatest;
    bool backwards = false;
    const double size = std::max(std::abs(value), 1e-9);
    const Linearised& lin = part.influence->at();
    for (const auto& [k, pull] : pulls.rows) {
        const Row& row = net.eq.rows[part.rows[k]];
        const bool own =
            row.kind == RowKind::Direct && net.triage.readings[row.record].dimension == d;
        if (own) {
            const Prediction& at = lin.at[k];
            const double read = at.size + lin.residual(static_cast<Index>(k)) / at.perUnit;
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
    for (const std::size_t r : net.structure.rowsOf(unknown)) {
        if (!net.evidence[r]) continue;
        any = true;
        for (const std::size_t i : net.eq.rows[r].unknowns)
            if (net.eq.unknowns[i].kind == UnknownKind::Scale && !net.all.estimable[i])
                return "its scale frame has no size of its own";
    }
    return any ? "what speaks of it has further unknowns: there are fewer equations than unknowns"
               : "no usable evidence speaks of it";
}

void writeValue(const Net& net, const Adjustment& part, const BorrowedVariance& leans, Index column,
                double value, std::size_t d, DimensionSolution& to) {
    to.value = value;
    to.u = std::sqrt(std::max(part.influence->covariance(column, column), 0.0));
    const LeafPulls pulls = leafPullsOn(net, part, column, value);
    const auto uncut = quantity::coverage95(value, pulls.components);
    const auto cut = quantity::cutTo(uncut, to.limits.low, to.limits.high);
    to.uncut95 = Interval{uncut.low, uncut.high};
    to.interval95 = Interval{cut.low, cut.high};
    const double slack = 1e-9 * std::max(std::abs(value), 1.0);
    to.limits.excludes = to.limits.empty || (to.limits.low && value < *to.limits.low - slack) ||
                         (to.limits.high && value > *to.limits.high + slack);

    for (const auto& [leaf, variance] : pulls.variance) {
        const double share = variance / pulls.total;
        if (share < kNoShare) continue;
        to.contributions.push_back({leaf, std::sqrt(variance), share});
        const auto& strength = net.eq.leaves[leaf].strength;
        if (strength == record::Grade::OurCall) to.guessShare += share;
        if (strength == record::Grade::OurCall || strength == record::Grade::CarriedOver)
            to.borrowedShare += share;
    }
    if (leans.guessed) to.guessShare = (*leans.guessed)(column) / pulls.total;
    if (leans.borrowed) to.borrowedShare = (*leans.borrowed)(column) / pulls.total;
    std::stable_sort(to.contributions.begin(), to.contributions.end(),
                     [](const auto& a, const auto& b) { return a.share > b.share; });
    to.outsideReadings = outsideReadings(net, part, pulls, d, value);
    std::set<record::SourceId> origins;
    for (const std::size_t leaf : pulls.leaves)
        if (isNamed(net.eq.leaves[leaf]) && net.eq.leaves[leaf].origin)
            origins.insert(*net.eq.leaves[leaf].origin);
    to.origins.assign(origins.begin(), origins.end());
}

}  // namespace

void writeDimensions(const Net& net, Solution& to) {
    std::vector<bool> circular(net.eq.unknowns.size(), false);
    for (const auto& core : net.cores)
        for (const std::size_t i : core.unknowns) circular[i] = true;
    const ByDimension by = byDimension(net, to);
    std::vector<BorrowedVariance> leans;  // by part
    for (const auto& part : net.fit.parts) leans.push_back(borrowedVariance(net, part));
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
        out.limits = limitsOf(net, by, d);
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
        out.part = by.part[d];
        if (net.fit.has(*unknown))
            writeValue(net, net.fit.parts[*part], leans[*part], *net.fit.columnOf[*unknown],
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
        out.influence = part.influence;
        for (const std::size_t d : out.dimensions) {
            const std::size_t unknown = *net.eq.ofDimension[d];
            out.columns.push_back(net.fit.has(unknown) ? net.fit.columnOf[unknown] : std::nullopt);
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
    for (auto& d : to.dimensions) {
        d.valueWithoutGuess = d.value;
        d.uWithoutGuess = d.u;
    }
    // Only the parts that a guess stands in are adjusted anew.
    std::vector<bool> leans(net.fit.parts.size(), false);
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r)
        if (const auto part = net.partOfRow[r];
            part && net.eq.rows[r].strength == record::Grade::OurCall)
            leans[*part] = true;
    if (std::find(leans.begin(), leans.end(), true) == leans.end()) return;
    RowMask allowed = net.evidence;
    for (std::size_t r = 0; r < net.eq.rows.size(); ++r) {
        const auto part = net.partOfRow[r];
        if (net.eq.rows[r].strength == record::Grade::OurCall || (part && !leans[*part]))
            allowed[r] = false;
    }
    const Fit without = fit(net.eq, net.structure, std::move(allowed), start);
    for (std::size_t d = 0; d < to.dimensions.size(); ++d) {
        auto& out = to.dimensions[d];
        const auto unknown = net.eq.ofDimension[d];
        if (!unknown || !net.fit.partOf[*unknown] || !leans[*net.fit.partOf[*unknown]]) continue;
        out.valueWithoutGuess.reset();
        out.uWithoutGuess.reset();
        if (!without.has(*unknown)) continue;
        out.valueWithoutGuess = without.x(static_cast<Index>(*unknown));
        const auto column = *without.columnOf[*unknown];
        out.uWithoutGuess = std::sqrt(std::max(
            without.parts[*without.partOf[*unknown]].influence->covariance(column, column), 0.0));
    }
}

}  // namespace evidence::network
