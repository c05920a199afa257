// broadside_coverage [SEEDS] [--each]: takes every clean size off the works photograph of seeds 1
// to SEEDS (20) by real fits on real pixels and prints how often the 95 % intervals hold the truth,
// for each seed and over all, and the widest interval against what is allowed. With --each, every
// size of every seed. Exit status 1 where coverage is below 90 % or an interval is too wide.

#include "tests/support/broadside_trial.h"

#include <fmt/format.h>

#include <cstdlib>
#include <exception>
#include <filesystem>
#include <string>

namespace {

struct Tally {
    int held = 0;
    int all = 0;
    double widest = 0;  ///< share of the allowed width
    std::string widestOf;

    void add(const test::BroadsideResult& result) {
        ++all;
        if (result.holds()) ++held;
        const double share = result.width() / result.allowedWidth();
        if (share > widest) {
            widest = share;
            widestOf = fmt::format("{} {:.3f} in of {:.3f} in", result.dimension, result.width(),
                                   result.allowedWidth());
        }
    }
    [[nodiscard]] double coverage() const { return 100.0 * held / all; }
};

int run(int seeds, bool each, const std::filesystem::path& folder) {
    Tally total;
    for (int seed = 1; seed <= seeds; ++seed) {
        Tally one;
        for (const auto& result :
             test::measureBroadside(static_cast<std::uint64_t>(seed), folder)) {
            one.add(result);
            total.add(result);
            if (each || !result.holds()) {
                fmt::print("  {:3} {:22} true {:9.4f}  found {:9.4f}  u {:.4f}  off {:+.2f} u{}\n",
                           seed, result.dimension, result.truth, result.value, result.u,
                           (result.value - result.truth) / result.u,
                           result.holds() ? "" : "  outside");
            }
        }
        fmt::print("seed {:3}: {:2} of {:2} sizes held ({:.0f} %)\n", seed, one.held, one.all,
                   one.coverage());
        std::fflush(stdout);
    }
    fmt::print("all: {} of {} held, {:.1f} %; widest interval {} ({:.0f} % of what is allowed)\n",
               total.held, total.all, total.coverage(), total.widestOf, 100 * total.widest);
    return total.coverage() >= 90.0 && total.widest <= 1.0 ? 0 : 1;
}

}  // namespace

int main(int count, char** arguments) {
    int seeds = 20;
    bool each = false;
    for (int i = 1; i < count; ++i) {
        const std::string word = arguments[i];
        if (word == "--each") {
            each = true;
        } else {
            seeds = std::atoi(word.c_str());
        }
    }
    if (seeds < 1) {
        fmt::print(stderr, "usage: broadside_coverage [SEEDS] [--each]\n");
        return 2;
    }
    const auto folder = std::filesystem::temp_directory_path() / "lostlines-broadside";
    try {
        std::filesystem::create_directories(folder);
        return run(seeds, each, folder);
    } catch (const std::exception& fault) {
        fmt::print(stderr, "broadside_coverage: {}\n", fault.what());
        return 5;
    }
}
