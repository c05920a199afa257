#pragma once

#include "tests/evidence-core/network/net_sketch.h"

#include <random>
#include <vector>

/// Random registers whose truth is known, for simulations of intervals, χ² and snooping.
namespace testsupport {

struct RandomNetwork {
    NetSketch sketch;
    std::vector<double> truth;  ///< by dimension, in
    /// All observations that something else checks have normal errors.
    bool normal = false;
};

/// 4 to 16 lengths: stated, rounded and guessed ones (with floors kept), sheets with one or two
/// known lengths (some of them dimensions) and what is scaled from them, tracings with a common
/// shrinkage, rules with a common error, sums that close exactly, symmetries with an uncertainty,
/// and products with a ratio. Each reading has a source of its own. `normal`: no rounding, and
/// guesses only where nothing else speaks.
RandomNetwork randomNetwork(std::mt19937_64& chance, bool normal);

}  // namespace testsupport
