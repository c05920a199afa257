#pragma once

#include <cstdint>
#include <string>
#include <vector>

/// Trials of frames on scenes with known truth: a pinhole camera of our own (nothing of the
/// imaging's equations) looks at known things, marks are placed with seeded normal errors, known
/// sizes are given with errors of their own, and what `measure` says is held against the truth.
namespace test {

struct TrialResult {
    std::string what;
    double truth = 0;
    double value = 0;
    double u = 0;
    double low95 = 0;
    double high95 = 0;
    [[nodiscard]] bool holds() const { return low95 <= truth && truth <= high95; }
};

struct FrameTrial {
    std::string refused;  ///< why, where it was
    std::vector<TrialResult> results;
    double chi2 = 0;
    int redundancy = 0;
};

/// Names of the scenes: a frame and how it is solved.
[[nodiscard]] const std::vector<std::string>& frameScenes();

/// One trial of a scene. Same seed, same numbers.
[[nodiscard]] FrameTrial frameTrial(const std::string& scene, std::uint32_t seed);

}  // namespace test
