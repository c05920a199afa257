#pragma once

#include "app/desk/page/sheet_to_read.h"
#include "imaging/raster/grey_image.h"
#include "imaging/raster/raster.h"

#include <QImage>
#include <QRect>
#include <QSize>

#include <functional>
#include <memory>
#include <vector>

namespace app::desk::page {

/// One decoded page for screen and fits: its full-depth pixels and a pyramid of reductions by area.
/// Pixel i of level k is the mean of the page's pixels i·2ᵏ … (i+1)·2ᵏ − 1. Immutable: any thread.
class PagePicture {
  public:
    /// Decodes a page; `cancelled` is asked between the steps, and a null picture returned then.
    /// Errors: those of `readSheet`.
    [[nodiscard]] static imaging::Result<std::shared_ptr<const PagePicture>> read(
        const SheetToRead& sheet, const std::function<bool()>& cancelled = {});

    explicit PagePicture(imaging::raster::Raster raster,
                         const std::function<bool()>& cancelled = {});

    [[nodiscard]] QSize size() const { return sizeOf(0); }
    /// The page for measuring, at full depth.
    [[nodiscard]] const imaging::raster::GreyImage& grey() const { return m_grey; }
    /// The file's orientation tag, 1 … 8.
    [[nodiscard]] int orientation() const { return m_raster.header.orientation; }
    /// Whether every part of the page could be decoded.
    [[nodiscard]] bool complete() const { return m_raster.complete; }

    /// Level 0 is the page itself; every further one has half the pixels each way.
    [[nodiscard]] int levels() const { return 1 + static_cast<int>(m_reduced.size()); }
    [[nodiscard]] QSize sizeOf(int level) const;
    /// A part of a level for the screen. Entry: `part` lies within the level.
    [[nodiscard]] QImage part(int level, const QRect& part) const;

  private:
    imaging::raster::Raster m_raster;
    std::vector<cv::Mat> m_reduced;  ///< levels 1 …, 8 bits
    imaging::raster::GreyImage m_grey;
};

}  // namespace app::desk::page
