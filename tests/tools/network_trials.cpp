#include "tests/support/network_trials.h"

#include <fmt/core.h>

#include <cstdlib>

/// Prints how well intervals, χ² and snooping keep their word over random networks:
///   network_trials [COUNT [SEED]]      2000 and 20261127 where not given
int main(int argc, char** argv) {
    const int count = argc > 1 ? std::atoi(argv[1]) : 2000;
    const auto seed = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 20261127ULL;
    if (count < 1) {
        fmt::print(stderr, "The number of networks must be 1 or more.\n");
        return 2;
    }
    const auto t = testsupport::networkTrials(count, seed);
    const auto percent = [](int part, int whole) { return whole > 0 ? 100.0 * part / whole : 0.0; };
    fmt::print("networks                          {} (seed {}), {} without a solution\n",
               t.networks, seed, t.errors);
    fmt::print("95 % intervals that hold truth    {:.2f} % of {}\n", percent(t.held, t.intervals),
               t.intervals);
    fmt::print("chi-squared, normal nets          p of even spread {:.3f} over {} nets\n",
               testsupport::evenSpreadProbability(t.p), t.p.size());
    fmt::print("chi-squared, other nets           {:.2f} % of {} below 0.05\n",
               percent(t.otherBelow5, t.otherNetworks), t.otherNetworks);
    fmt::print("false alarms                      {:.3f} % of {} checked readings\n",
               percent(t.alarms, t.cleanReadings), t.cleanReadings);
    fmt::print("planted errors named first        {:.2f} % of {}, {:.2f} % alone\n",
               percent(t.namedFirst, t.planted), t.planted, percent(t.namedAlone, t.planted));
    return 0;
}
