#include "evidence-core/network/echo.h"
#include "evidence-core/network/net.h"
#include "evidence-core/network/solution.h"

#include <algorithm>

namespace evidence::network {

double Solution::covariance(std::size_t a, std::size_t b) const {
    if (!dimensions[a].part || dimensions[a].part != dimensions[b].part) return 0;
    const auto& part = parts[*dimensions[a].part];
    const auto column = [&](std::size_t d) {
        // Ascending, see writeParts.
        const auto at = std::lower_bound(part.dimensions.begin(), part.dimensions.end(), d);
        return part.columns[static_cast<std::size_t>(at - part.dimensions.begin())];
    };
    if (!part.influence || !column(a) || !column(b)) return 0;
    return part.influence->covariance(*column(a), *column(b));
}

namespace {

/// Echoes, equations and structure hang on each other: a reading that rests on a circle does not
/// lead. A few rounds settle it.
constexpr int kMostEchoRounds = 4;

RowMask evidenceRows(const Equations& eq) {
    RowMask use(eq.rows.size());
    for (std::size_t r = 0; r < eq.rows.size(); ++r) use[r] = eq.rows[r].role != RowRole::Check;
    return use;
}

std::vector<bool> readingsOnCircles(const Equations& eq, const Triage& triage,
                                    const std::vector<Core>& cores) {
    std::vector<bool> out(triage.readings.size(), false);
    std::vector<bool> circular(eq.unknowns.size(), false);
    for (const auto& core : cores)
        for (const std::size_t i : core.unknowns) circular[i] = true;
    for (std::size_t i = 0; i < triage.readings.size(); ++i) {
        const auto& r = triage.readings[i];
        if (!r.frame || !r.pixels || r.pixels->angle) continue;
        const auto scale = eq.ofFrame[*r.frame];
        out[i] = scale && circular[*scale];
    }
    return out;
}

Structure::Estimability evidenceEstimability(const Net& net) {
    return net.structure.estimability(net.evidence);
}

}  // namespace

Result<Solution> solve(const record::Register& reg) {
    const RegisterIndex index(reg);
    const Origins origins(reg.sources);
    auto sorted = triage(index, origins);
    if (!sorted) return tl::unexpected<Refusal>(sorted.error());

    std::vector<bool> onCircle(sorted->readings.size(), false);
    for (int round = 1;; ++round) {
        tellEchoes(*sorted, origins, onCircle);
        auto equations = equationsOf(index, origins, *sorted);
        if (!equations) return tl::unexpected<Refusal>(equations.error());
        findStartValues(*equations);
        const Eigen::VectorXd point = relationPoint(*equations);
        Structure structure(*equations, point);
        RowMask evidence = evidenceRows(*equations);
        auto all = structure.estimability(evidence);
        auto cores = circularCores(*equations, structure, evidence, all.estimable);
        auto again = onCircle;
        const auto found = readingsOnCircles(*equations, *sorted, cores);
        for (std::size_t i = 0; i < again.size(); ++i) again[i] = again[i] || found[i];
        if (again != onCircle && round < kMostEchoRounds) {
            onCircle = std::move(again);
            continue;
        }

        Eigen::VectorXd start(static_cast<Eigen::Index>(equations->unknowns.size()));
        for (std::size_t i = 0; i < equations->unknowns.size(); ++i)
            start(static_cast<Eigen::Index>(i)) = equations->unknowns[i].start;
        Fit fitted = fit(*equations, structure, evidence, start);
        Net net{&index,
                &origins,
                *std::move(sorted),
                *std::move(equations),
                std::move(structure),
                std::move(evidence),
                {},
                std::move(cores),
                std::move(fitted),
                {},
                {},
                {},
                {}};
        for (const std::size_t r : net.fit.contradicted) net.evidence[r] = false;
        net.all = evidenceEstimability(net);
        net.placeInPart.resize(net.eq.rows.size());
        net.partOfRow.resize(net.eq.rows.size());
        for (std::size_t p = 0; p < net.fit.parts.size(); ++p)
            for (std::size_t k = 0; k < net.fit.parts[p].rows.size(); ++k) {
                net.placeInPart[net.fit.parts[p].rows[k]] = k;
                net.partOfRow[net.fit.parts[p].rows[k]] = p;
            }
        net.rowOfReading.resize(net.triage.readings.size());
        net.rowOfRelation.resize(reg.relations.size());
        for (std::size_t r = 0; r < net.eq.rows.size(); ++r) {
            const Row& row = net.eq.rows[r];
            if (row.kind == RowKind::Direct || row.kind == RowKind::Scaled)
                net.rowOfReading[row.record] = r;
            if (row.kind == RowKind::Relation) net.rowOfRelation[row.record] = r;
        }

        Solution out;
        out.leaves = net.eq.leaves;
        writeParts(net, out);
        writeDimensions(net, out);
        writeDrawnIntervals(net, out);
        writeReadings(net, out);
        writeRelations(net, out);
        writeFrames(net, out);
        writeSupport(net, out);
        writeWithoutGuess(net, start, out);
        out.conflicts = conflictsOf(net);
        for (const auto& core : net.cores) out.circles.push_back(described(core, net.eq, index));
        out.seekNext = seekNext(net, out);
        out.hurtsMost = hurtsMost(net, out);
        return out;
    }
}

}  // namespace evidence::network
