#pragma once

#include "imaging/mark/profile_fit.h"

#include <optional>
#include <span>

namespace imaging::mark {

/// Start values for a profile fit, and the stretch of u it may use.
struct ProfileSeed {
    Profile profile = Profile::Edge;  ///< `DrawnLine` also for an edge with its opposite close by
    double at = 0;                    ///< of the edge, or the middle of the line
    double width = 0;                 ///< of the line
    int side = 0;  ///< wanted edge of the line: −1 left, +1 right, 0 its middle
    double from = 0;
    double to = 0;  ///< u-range free of other edges
    double blur = 1;
};

/// Looks at the samples summed up along v for the wanted edge or line (see fitProfile).
[[nodiscard]] std::optional<ProfileSeed> seedProfile(std::span<const Sample> samples,
                                                     const ProfileSearch& search);

}  // namespace imaging::mark
