#include "evidence-core/network/net.h"

#include <algorithm>
#include <cmath>
#include <numeric>

/// What to look for next: rank-one updates of the covariance, Q' = Q − q qᵀ/(σ² + q_dd).
namespace evidence::network {

namespace {

using Index = Eigen::Index;

/// A rule read to 1/32 in (checks: 1/32 / √12).
constexpr double kRuleU = 0.009;
/// Wanted tolerance of a critical dimension that states none, inches.
constexpr double kCriticalTolerance = 1.0 / 32.0;
/// A dimension is helped where its variance falls by this share.
constexpr double kHelped = 0.10;

struct Matter {
    std::size_t dimension = 0;
    double tolerance = 0;
};

/// Critical, or wanted finer than the evidence gives.
std::optional<Matter> matters(const Net& net, const Solution& s, std::size_t d) {
    const auto& record = net.reg().dimensions[d];
    const auto& found = s.dimensions[d];
    if (!found.value || !found.part) return std::nullopt;
    const bool critical = record.critical.value_or(false);
    if (record.tolerance) {
        const double tolerance =
            std::abs(quantity::toCanonical(*record.tolerance, net.triage.dimensions[d].unit));
        if (!(tolerance > 0)) return std::nullopt;
        const double half = (found.uncut95->high - found.uncut95->low) / 2;
        if (critical || half > tolerance / 2) return Matter{d, tolerance};
        return std::nullopt;
    }
    if (critical && net.triage.dimensions[d].measure == quantity::Measure::Length)
        return Matter{d, kCriticalTolerance};
    return std::nullopt;
}

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

}  // namespace

std::vector<Wanted> seekNext(const Net& net, const Solution& s) {
    std::map<std::size_t, std::vector<Matter>> mattersOf;  // by part
    std::vector<std::size_t> byContent(s.dimensions.size());
    std::iota(byContent.begin(), byContent.end(), std::size_t{0});
    std::sort(byContent.begin(), byContent.end(), [&](std::size_t a, std::size_t b) {
        return net.triage.dimensions[a].key < net.triage.dimensions[b].key;
    });
    for (const std::size_t d : byContent)
        if (const auto m = matters(net, s, d)) mattersOf[*s.dimensions[d].part].push_back(*m);
    const auto scaledU = medianScaledU(net, s);

    std::vector<Wanted> out;
    for (const auto& [p, wanted] : mattersOf) {
        const auto& part = s.parts[p];
        for (std::size_t k = 0; k < part.dimensions.size(); ++k) {
            const std::size_t d = part.dimensions[k];
            if (!s.dimensions[d].value ||
                net.triage.dimensions[d].measure != quantity::Measure::Length)
                continue;
            std::vector<std::pair<record::Basis, double>> ways{{record::Basis::Gauged, kRuleU}};
            for (const std::size_t i : s.dimensions[d].readings) {
                const auto& t = net.triage.readings[i];
                if (!t.frame || ways.size() > 1) continue;
                const auto u = scaledU.find(net.reg().frames[*t.frame].model);
                if (u != scaledU.end()) ways.emplace_back(record::Basis::Scaled, u->second);
            }
            for (const auto& [by, u] : ways) {
                Wanted want{d, by, u, 0, {}};
                const auto dd = part.covariance(static_cast<Index>(k), static_cast<Index>(k));
                for (const auto& m : wanted) {
                    const auto j =
                        std::find(part.dimensions.begin(), part.dimensions.end(), m.dimension) -
                        part.dimensions.begin();
                    const double q = part.covariance(j, static_cast<Index>(k));
                    const double drop = q * q / (u * u + dd);
                    want.gain += drop / (m.tolerance * m.tolerance);
                    if (drop > kHelped * part.covariance(j, j)) want.helps.push_back(m.dimension);
                }
                if (!want.helps.empty()) out.push_back(std::move(want));
            }
        }
    }
    std::stable_sort(out.begin(), out.end(), [&](const Wanted& a, const Wanted& b) {
        if (a.gain != b.gain) return a.gain > b.gain;
        return net.triage.dimensions[a.dimension].key < net.triage.dimensions[b.dimension].key;
    });
    return out;
}

}  // namespace evidence::network
