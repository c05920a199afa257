#include "tests/support/network_trials.h"

#include "evidence-core/network/solution.h"
#include "tests/support/random_network.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace testsupport {

namespace {

using namespace evidence;

constexpr double kPlanted = 1.5;

void count(NetworkTrials& to, const RandomNetwork& net, const network::Solution& s) {
    for (std::size_t d = 0; d < net.truth.size(); ++d) {
        const auto& interval = s.dimensions[d].interval95;
        if (!interval) continue;
        ++to.intervals;
        to.held += interval->low <= net.truth[d] && net.truth[d] <= interval->high;
    }
    if (s.p) {
        if (net.normal) {
            to.p.push_back(*s.p);
        } else {
            ++to.otherNetworks;
            to.otherBelow5 += *s.p < 0.05;
        }
    }
    for (const auto& r : s.readings) to.cleanReadings += r.reliability && r.reliability->w;
    to.alarms += static_cast<int>(s.conflicts.size());
}

void plant(NetworkTrials& to, RandomNetwork net, const network::Solution& clean,
           std::mt19937_64& chance) {
    std::vector<std::size_t> victims;
    for (std::size_t i = 0; i < clean.readings.size(); ++i)
        if (clean.readings[i].reliability && clean.readings[i].reliability->mde &&
            net.sketch.reg.readings[i].value)
            victims.push_back(i);
    if (victims.empty()) return;
    const std::size_t victim =
        victims[std::uniform_int_distribution<std::size_t>(0, victims.size() - 1)(chance)];
    auto& reading = net.sketch.reg.readings[victim];
    auto& number = std::get<record::Number>(*reading.value);
    const double sign = chance() % 2 == 0 ? 1 : -1;
    number.value += sign * kPlanted * *clean.readings[victim].reliability->mde;
    number.text.clear();
    const auto s = network::solve(net.sketch.reg);
    if (!s) return;
    ++to.planted;
    if (s->conflicts.empty()) return;
    const auto& members = s->conflicts[0].members;
    const bool named = std::any_of(members.begin(), members.end(),
                                   [&](const auto& m) { return m.id == reading.id.text; });
    to.namedFirst += named;
    to.namedAlone += named && members.size() == 1;
}

}  // namespace

NetworkTrials networkTrials(int networks, std::uint64_t seed) {
    NetworkTrials out;
    std::mt19937_64 chance(seed);
    for (int i = 0; i < networks; ++i) {
        const RandomNetwork net = randomNetwork(chance, i % 2 == 0);
        const auto solution = network::solve(net.sketch.reg);
        ++out.networks;
        if (!solution || !solution->converged) {
            ++out.errors;
            continue;
        }
        count(out, net, *solution);
        plant(out, net, *solution, chance);
    }
    return out;
}

double evenSpreadProbability(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto n = static_cast<double>(values.size());
    double distance = 0;
    for (std::size_t i = 0; i < values.size(); ++i)
        distance = std::max({distance, (static_cast<double>(i) + 1) / n - values[i],
                             values[i] - static_cast<double>(i) / n});
    const double t = distance * (std::sqrt(n) + 0.12 + 0.11 / std::sqrt(n));
    double sum = 0;
    for (int k = 1; k <= 100; ++k) sum += (k % 2 == 1 ? 2 : -2) * std::exp(-2.0 * k * k * t * t);
    return std::clamp(sum, 0.0, 1.0);
}

}  // namespace testsupport
