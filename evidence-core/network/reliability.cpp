#include "evidence-core/network/net.h"

#include <algorithm>
#include <cmath>

namespace evidence::network {

std::optional<Net::Place> Net::placeOf(std::size_t row) const {
    const auto part = partOfRow[row];
    if (!part || !fit.parts[*part].converged) return std::nullopt;
    return Place{&fit.parts[*part], placeInPart[row]};
}

bool isNamed(const Leaf& leaf) {
    return leaf.kind != LeafKind::Workmanship && leaf.kind != LeafKind::Placing &&
           leaf.kind != LeafKind::Mark;
}

bool Net::known(const Row& row) const {
    return std::all_of(row.unknowns.begin(), row.unknowns.end(), [&](std::size_t i) {
        return eq.unknowns[i].kind == UnknownKind::Error || fit.has(i);
    });
}

double ownU(const Net& net, const Row& row, const Prediction& at) {
    return std::sqrt(varianceOf(row, at, net.eq) + at.marksVariance) / std::abs(at.perUnit);
}

Reliability reliabilityOf(const Net& net, const Net::Place& place) {
    const Influence& influence = *place.part->influence;
    const auto k = static_cast<Eigen::Index>(place.row);
    const Prediction& at = influence.at().at[place.row];
    const Row& row = net.eq.rows[place.part->rows[place.row]];
    const double unit = std::abs(at.perUnit);
    Reliability out;
    out.residual = (influence.at().residual(k) + at.marks) / at.perUnit;
    if (!influence.checked(place.row)) return out;
    const double lambda = influence.lambda()(k);
    const double c = influence.lambdaVariance()(k);
    const double variance = varianceOf(row, at, net.eq) + at.marksVariance;
    out.redundancy = std::clamp(variance * c, 0.0, 1.0);
    out.w = lambda / std::sqrt(c);
    out.mde = kDelta0 / std::sqrt(c) / unit;
    out.misfit = lambda / c / at.perUnit;
    out.uMisfit = 1 / std::sqrt(c) / unit;
    return out;
}

std::optional<Reliability> checkOf(const Net& net, std::size_t r) {
    const Row& row = net.eq.rows[r];
    if (!net.known(row)) return std::nullopt;
    const Prediction at = row.predict(net.fit.x);
    if (!at.defined) return std::nullopt;
    double variance = varianceOf(row, at, net.eq) + net.fit.covariance(at.slopes, at.slopes);
    // Errors that stand in this check alone have no column: their prior variance counts in full.
    for (const auto& s : at.slopes) {
        const auto& unknown = net.eq.unknowns[s.unknown];
        if (unknown.kind == UnknownKind::Error && !net.eq.isFolded[s.unknown] &&
            !net.fit.columnOf[s.unknown])
            variance += s.slope * s.slope * unknown.u * unknown.u;
    }
    Reliability out;
    const double unit = std::abs(at.perUnit);
    const double misfit = misfitOf(row, at, net.fit.x, net.eq);
    out.residual = (misfit + at.marks) / at.perUnit;
    out.misfit = misfit / at.perUnit;
    out.uMisfit = std::sqrt(std::max(variance, 0.0)) / unit;
    if (*out.uMisfit > 0) {
        out.w = *out.misfit / *out.uMisfit;
        out.mde = kDelta0 * *out.uMisfit;
    }
    return out;
}

}  // namespace evidence::network
