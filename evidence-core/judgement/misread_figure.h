#pragma once

#include "evidence-core/quantity/unit.h"

#include <optional>
#include <string>
#include <vector>

/// Private to judgement/: other figures that a hand-written figure could have been.
namespace evidence::judgement {

struct OtherFigure {
    std::string text;
    double canonical = 0;
};

/// One sign of the trade's table with its variants.
struct MisreadFamily {
    std::string sign;  ///< "swapped-digits", "misread-figure", "eighths"
    std::string test;
    double asWritten = 0;  ///< what the written figure means, canonical
    std::vector<OtherFigure> readings;
};

/// Two neighbouring figures swapped; one figure misread for another (6 and 9, 3 and 8, 1 and 7, 0
/// and 6; 3 and 5 above a fraction's line, as in 3/16 and 5/16); offsets in feet, inches and
/// eighths, 6-0-4, taken for 6 ft 0.4 in or 6 ft 4 in. Families without a variant are left out, so
/// is a text that cannot be read at all.
[[nodiscard]] std::vector<MisreadFamily> misreadFigures(const std::string& written,
                                                        quantity::Measure measure,
                                                        std::optional<quantity::Unit> bareUnit);

}  // namespace evidence::judgement
