#pragma once

#include "app/session/actions.h"
#include "imaging/mark/mark.h"
#include "imaging/raster/grey_image.h"

namespace app::session {

struct FitOptions {
    imaging::mark::Fit fit = imaging::mark::Fit::Edge;
    double searchPx = imaging::mark::kSearchDefault;  ///< to either side of the placed mark
};

/// A mark as placed (file, page, kind, points, u_px), moved onto what the pixels of its page show:
/// points, covariance, how it was made and the sheet as it was seen. A circle's points stay as
/// placed; its fit says where the rim is. With `Fit::None` only a circle gains anything beyond
/// `made` and `seen`. Pure and widget-free; takes milliseconds. Errors: those of `fitMark`
/// converted, at "mark/points…".
[[nodiscard]] evidence::Result<MarkDraft> fitDraft(const imaging::raster::GreyImage& page,
                                                   const MarkDraft& placed,
                                                   const FitOptions& options = {});

}  // namespace app::session
