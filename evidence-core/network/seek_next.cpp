#include "evidence-core/network/matters.h"

#include <algorithm>
#include <cmath>

/// What to look for next: rank-one updates of the covariance, Q' = Q − q qᵀ/(σ² + q_dd).
namespace evidence::network {

namespace {

using Eigen::VectorXd;

/// A rule read to 1/32 in (checks: 1/32 / √12).
constexpr double kRuleU = 0.009;
/// A dimension is helped where its variance falls by this share.
constexpr double kHelped = 0.10;
/// Of one connected part at most so many answers, the best.
constexpr std::size_t kMostAnswers = 200;

/// Median σ of the scaled readings through frames of each model.
std::map<record::FrameModel, double> medianScaledU(const Net& net, const Solution& s) {
    std::map<record::FrameModel, std::vector<double>> all;
    for (std::size_t i = 0; i < net.triage.readings.size(); ++i)
        if (net.triage.readings[i].frame && s.readings[i].use == ReadingUse::Used &&
            s.readings[i].u && !net.triage.readings[i].pixels->angle)
            all[net.reg().frames[*net.triage.readings[i].frame].model].push_back(*s.readings[i].u);
    std::map<record::FrameModel, double> out;
    for (auto& [model, us] : all) {
        std::sort(us.begin(), us.end());
        const std::size_t n = us.size();
        out[model] = n % 2 == 1 ? us[n / 2] : (us[n / 2 - 1] + us[n / 2]) / 2;
    }
    return out;
}

/// What each new reading in one part would be worth. The drop of Σ variance/tolerance² by a reading
/// of dimension d is Σ q_dj²/tolerance_j² / (u² + q_dd): found for all d at once; whom it helps
/// only for the best.
std::vector<Wanted> worthInPart(const Net& net, const Solution& s, const PartSolution& part,
                                const std::vector<Matter>& wanted,
                                const std::map<record::FrameModel, double>& scaledU) {
    const auto columnOf = [&](std::size_t d) { return *net.fit.columnOf[*net.eq.ofDimension[d]]; };
    const Influence& influence = *part.influence;
    VectorXd weights = VectorXd::Zero(influence.elimination().t.rows());
    for (const auto& m : wanted) weights(columnOf(m.dimension)) += 1 / (m.tolerance * m.tolerance);
    const VectorXd drops = influence.squaredCovariances(weights);
    std::vector<Wanted> out;
    for (const std::size_t d : part.dimensions) {
        if (!s.dimensions[d].value || net.triage.dimensions[d].measure != quantity::Measure::Length)
            continue;
        std::vector<std::pair<record::Basis, double>> ways{{record::Basis::Gauged, kRuleU}};
        for (const std::size_t i : s.dimensions[d].readings) {
            const auto& t = net.triage.readings[i];
            if (!t.frame || ways.size() > 1) continue;
            const auto u = scaledU.find(net.reg().frames[*t.frame].model);
            if (u != scaledU.end()) ways.emplace_back(record::Basis::Scaled, u->second);
        }
        const double variance = *s.dimensions[d].u * *s.dimensions[d].u;
        for (const auto& [by, u] : ways) {
            const double gain = drops(columnOf(d)) / (u * u + variance);
            if (gain > 0) out.push_back({d, by, u, gain, {}});
        }
    }
    const auto better = [&](const Wanted& a, const Wanted& b) {
        if (a.gain != b.gain) return a.gain > b.gain;
        return net.triage.dimensions[a.dimension].key < net.triage.dimensions[b.dimension].key;
    };
    std::stable_sort(out.begin(), out.end(), better);
    std::size_t asked = 0;
    std::map<std::size_t, VectorXd> covarianceWith;
    std::erase_if(out, [&](Wanted& want) {
        if (asked >= kMostAnswers) return true;
        const auto [it, fresh] = covarianceWith.try_emplace(want.dimension);
        if (fresh) it->second = influence.covarianceWith(columnOf(want.dimension));
        const double variance = it->second(columnOf(want.dimension));
        for (const auto& m : wanted) {
            const double q = it->second(columnOf(m.dimension));
            const double own = *s.dimensions[m.dimension].u;
            if (q * q / (want.assumedU * want.assumedU + variance) > kHelped * own * own)
                want.helps.push_back(m.dimension);
        }
        if (want.helps.empty()) return true;
        ++asked;
        return false;
    });
    return out;
}

}  // namespace

std::vector<Wanted> seekNext(const Net& net, const Solution& s) {
    const auto mattersOf = mattersByPart(net, s);
    const auto scaledU = medianScaledU(net, s);

    std::vector<Wanted> out;
    for (const auto& [p, wanted] : mattersOf) {
        auto found = worthInPart(net, s, s.parts[p], wanted, scaledU);
        std::move(found.begin(), found.end(), std::back_inserter(out));
    }
    std::stable_sort(out.begin(), out.end(), [&](const Wanted& a, const Wanted& b) {
        if (a.gain != b.gain) return a.gain > b.gain;
        return net.triage.dimensions[a.dimension].key < net.triage.dimensions[b.dimension].key;
    });
    return out;
}

}  // namespace evidence::network
