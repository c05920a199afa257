#pragma once

#include "imaging/mark/mark.h"

namespace imaging::mark {

/// Mean of the points as placed and picked again, with the uncertainty of that mean.
struct RepeatedPicks {
    std::vector<PixelPoint> points;
    Eigen::MatrixXd covariance;
};

/// Uncertainty of one pick: the pooled scatter s of all coordinates about their means, ν = (m −
/// 1)·2n degrees of freedom for m picks of n points; of the mean s/√m, times √(ν/(ν − 2)) for ν ≥ 3
/// (JCGM 101:2008, 6.4.9.4, the spread of a t-distribution). With fewer degrees of freedom, and
/// never below: the default of picking joined in as two more degrees of freedom.
/// Errors: BadValue where a repeat has another number of points; NotFinite.
[[nodiscard]] Result<RepeatedPicks> meanOfRepeats(const MarkRequest& request);

}  // namespace imaging::mark
