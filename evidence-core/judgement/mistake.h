#pragma once

#include "evidence-core/quantity/unit.h"

#include <optional>
#include <string>
#include <vector>

/// Which slip of pen, tape or rule would explain a reading that disagrees (the trade's table of
/// signs, docs/method). A hypothesis with its odds, never a correction.
namespace evidence::judgement {

/// A reading that disagrees with everything else. Lengths in inches, angles in radians, masses in
/// pounds.
struct Disagreement {
    double observed = 0;
    double uObserved = 0;
    double predicted = 0;  ///< by everything else
    double uPredicted = 0;
    quantity::Measure measure = quantity::Measure::Length;
    std::optional<std::string> written;      ///< the figure as it was written, if it was
    std::optional<quantity::Unit> bareUnit;  ///< of a figure without a unit
    std::vector<std::pair<std::string, double>>
        thicknesses;                                     ///< of skins and plates nearby, inches
    std::vector<std::pair<std::string, double>> widths;  ///< of members nearby, inches
};

struct Mistake {
    std::string sign;   ///< short name: "metric", "swapped-digits" …
    std::string cause;  ///< what would have happened, in words
    std::string test;   ///< what would settle it
    double odds = 0;    ///< likelihood ratio against an error of any size
    int signsTried = 0;
    double corrected = 0;  ///< what the reading would have been without the mistake, canonical
};

/// The sign with the highest likelihood ratio, if it exceeds 20 × the number of signs tried. The
/// variants of one sign share one trial by their best; exactly one inch and exactly twelve inches
/// are a sign each.
///
/// Likelihood of a sign x = f(m): the normal density of x about f(predicted), its variance
/// u²(x) + f′² u²(predicted). Against it: an error of any size, uniform over ± the larger of
/// |observed| and |predicted|. For a figure read wrongly the corrected figure is compared with the
/// prediction in the same way.
/// Needs uObserved² + uPredicted² > 0.
[[nodiscard]] std::optional<Mistake> likelyMistake(const Disagreement& disagreement);

}  // namespace evidence::judgement
