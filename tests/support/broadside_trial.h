#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace test {

/// One size taken off one works photograph by `imaging::task::measure`, against the truth.
struct BroadsideResult {
    std::string dimension;
    double truth = 0;
    double value = 0;
    double u = 0;
    double low = 0;  ///< of the 95 % interval
    double high = 0;

    [[nodiscard]] bool holds() const { return low <= truth && truth <= high; }
    [[nodiscard]] double width() const { return high - low; }
    /// The widest the interval may be: 5 % of the length or 1/2 in, whichever is larger.
    [[nodiscard]] double allowedWidth() const { return truth * 0.05 > 0.5 ? truth * 0.05 : 0.5; }
};

/// Draws the works photograph of a seed, writes it as JPEG 90 into `folder`, places rough marks as
/// a person would (each coordinate up to 2 px off), and measures them all through the name plate
/// with real fits on the real pixels. Throws std::runtime_error with the refusal where `measure`
/// refuses.
[[nodiscard]] std::vector<BroadsideResult> measureBroadside(std::uint64_t seed,
                                                            const std::filesystem::path& folder);

}  // namespace test
