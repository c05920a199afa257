#pragma once

#include "imaging/mark/profile_fit.h"

namespace imaging::mark {

/// A row of equal steps (rivets, boards, frames, the ticks of a scale bar) fitted as a comb. The
/// request's points are two neighbouring teeth and the last one; the teeth between are looked for
/// where the comb of those found so far expects them (in perspective: (a·k + b)/(c·k + 1)), each
/// within 0.35 of a step, and may be missing. A tooth is the middle of the dark or light run that
/// the row crosses (`LineCentre`), or the edge (`Edge`).
/// The mark's points become the teeth found, `teeth` their numbers from the first on; covariance
/// from the pixels along the row, raised where teeth scatter more about the comb than that.
/// Errors: BadValue where the three points give no row; NoFit where the first two or last, or more
/// than half of the teeth, are not found; OutsideSheet.
/// Source: docs/method/marks.md, "Pattern".
[[nodiscard]] Result<FittedMark> fitPattern(const raster::GreyImage& image,
                                            const MarkRequest& request);

/// The same for teeth placed by hand: three points as above, or all teeth in their order.
[[nodiscard]] Result<FittedMark> placedPattern(const MarkRequest& request);

}  // namespace imaging::mark
