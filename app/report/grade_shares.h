#pragma once

#include "app/report/register_index.h"
#include "app/report/selection.h"

#include <QString>

#include <array>
#include <vector>

namespace app::report {

/// Shares of the seven grades in one way of weighing; they add up to 1.
struct GradeShare {
    QString name;   ///< "By count", "By length", "By mass"
    QString total;  ///< "124 sizes", "1,203 in", "571 lb"
    std::array<double, 7> share{};

    [[nodiscard]] double of(evidence::record::Grade grade) const {
        return share[static_cast<std::size_t>(grade)];
    }
};

/// By count, by length and by mass (grading rules, "Summary figures for reviewers"): each dimension
/// weighs 1, its length, its mass. A way of weighing without anything to weigh is left out; sizes
/// without a value count, but weigh nothing.
[[nodiscard]] std::vector<GradeShare> gradeShares(const RegisterIndex& index,
                                                  const Selection& selection);

}  // namespace app::report
