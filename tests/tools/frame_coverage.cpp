// frame_coverage [TRIALS] [SCENE]: solves every frame on scenes with known truth with seeded errors
// of marks and known sizes, TRIALS (2000) times each, and prints for each frame and measured
// quantity: mean error and its scatter in units of the claimed u, how often the 95 % interval holds
// the truth, and the mean chi2 over its redundancy. Exit status 1 where a coverage lies outside
// 93 … 97 % (with fewer than 2000 trials: outside what chance allows) or a trial was refused.

#include "tests/support/frame_trial.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <map>
#include <string>

namespace {

struct Tally {
    double held = 0;
    double all = 0;
    double sum = 0;
    double squares = 0;
    double u = 0;
    double truth = 0;

    void add(const test::TrialResult& result) {
        all += 1;
        held += result.holds() ? 1 : 0;
        const double scaled = (result.value - result.truth) / result.u;
        sum += scaled;
        squares += scaled * scaled;
        u += result.u;
        truth = result.truth;
    }
};

bool tabulate(const std::string& scene, int trials) {
    std::map<std::string, Tally> tallies;
    double chi2 = 0;
    int redundancy = 0;
    int refused = 0;
    std::string why;
    for (int i = 0; i < trials; ++i) {
        const test::FrameTrial trial = test::frameTrial(scene, 1000 + static_cast<unsigned>(i));
        if (!trial.refused.empty()) {
            ++refused;
            why = trial.refused;
            continue;
        }
        chi2 += trial.chi2;
        redundancy = trial.redundancy;
        for (const auto& result : trial.results) {
            tallies[result.what].add(result);
        }
    }
    fmt::print("{}: {} trials, {} refused, chi2 {:.2f} with {} to spare\n", scene, trials, refused,
               chi2 / (trials - refused + 1e-9), redundancy);
    if (refused > 0) {
        fmt::print("    {}\n", why);
    }
    const double slack = std::max(2.0, 100 * 4 * std::sqrt(0.95 * 0.05 / trials));
    bool good = refused == 0;
    for (const auto& [what, t] : tallies) {
        const double coverage = 100 * t.held / t.all;
        const bool holds = std::abs(coverage - 95) <= slack;
        good = good && holds;
        fmt::print(
            "    {:<24} {:>9.4g}  u {:>8.3g}  mean {:>6.2f} u  scatter {:>5.2f} u  {:>6.2f} %"
            "{}\n",
            what, t.truth, t.u / t.all, t.sum / t.all, std::sqrt(t.squares / t.all), coverage,
            holds ? "" : "  <--");
    }
    return good;
}

}  // namespace

int main(int argc, char** argv) {
    const int trials = argc > 1 ? std::atoi(argv[1]) : 2000;
    bool good = true;
    for (const std::string& scene : test::frameScenes()) {
        if (argc <= 2 || scene.find(argv[2]) != std::string::npos) {
            good = tabulate(scene, trials) && good;
        }
    }
    return good ? 0 : 1;
}
