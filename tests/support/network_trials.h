#pragma once

#include <cstdint>
#include <vector>

/// Simulations of the whole network over random registers with known truth.
namespace testsupport {

struct NetworkTrials {
    int networks = 0;
    int intervals = 0;      ///< printed for a dimension
    int held = 0;           ///< that hold the truth
    std::vector<double> p;  ///< of χ², where all checked observations are normal
    int otherNetworks = 0;  ///< those with redundancy whose checked observations are not
    int otherBelow5 = 0;    ///< of them, p below 0.05
    int cleanReadings = 0;  ///< that something checks
    int alarms = 0;         ///< conflicts named among them
    int planted = 0;        ///< gross errors of 1.5 × the minimal detectable error
    int namedFirst = 0;     ///< named by the first conflict, alone or in its group
    int namedAlone = 0;     ///< of them, alone
    int errors = 0;         ///< networks that gave no solution at all
};

/// `count` networks, every other one with normal errors only; the same numbers for the same seed.
NetworkTrials networkTrials(int count, std::uint64_t seed);

/// Kolmogorov–Smirnov probability that the values are evenly spread over 0 … 1. Source: the
/// asymptotic distribution with Stephens' correction of the sample size (M. A. Stephens, JRSS B 32
/// (1970) 115).
double evenSpreadProbability(std::vector<double> values);

}  // namespace testsupport
