#pragma once

#include "evidence-core/record/source.h"

#include <QImage>
#include <QRectF>
#include <QSize>
#include <QString>

#include <filesystem>
#include <memory>
#include <optional>

namespace app::report {

/// Width and height of a page, upright, from the file's header; nothing where it cannot be read.
[[nodiscard]] std::optional<QSize> sheetSize(const std::filesystem::path& original,
                                             const evidence::record::File& file, int page);

/// The pixels of one page of an original, decoded once for all the crops taken from it. A page of a
/// PDF file is rastered at the resolution recorded with the file, 300 dpi where there is none.
class SheetPixels {
  public:
    SheetPixels(const std::filesystem::path& original, const evidence::record::File& file,
                int page);
    ~SheetPixels();

    /// Empty, or one sentence: why the page cannot be shown.
    [[nodiscard]] const QString& problem() const { return m_problem; }

    /// A part of the page, upright, white where `box` (sheet pixels, pixel edges at ±½) lies
    /// beyond it, reduced by area to at most `widest` pixels across, never enlarged. Null where the
    /// box misses the page.
    [[nodiscard]] QImage part(const QRectF& box, int widest) const;

  private:
    struct Pixels;
    std::unique_ptr<Pixels> m_pixels;
    QString m_problem;
};

}  // namespace app::report
