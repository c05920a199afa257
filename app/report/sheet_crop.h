#pragma once

#include "app/report/document.h"
#include "app/report/mark_drawing.h"
#include "app/report/report.h"
#include "evidence-core/record/mark.h"
#include "evidence-core/record/source.h"

#include <QRectF>
#include <QSize>

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace app::report {

struct MarkOnSheet {
    const evidence::record::Mark* mark = nullptr;
    MarkRole role = MarkRole::Wanted;
    QString label;
};

/// A part of a page with what was marked on it.
struct CropWanted {
    const evidence::record::Source* source = nullptr;
    const evidence::record::File* file = nullptr;
    int page = 1;
    std::vector<MarkOnSheet> marks;
    std::optional<QRectF> box;             ///< sheet pixels; absent: what the wanted marks need
    std::optional<double> inchesPerPixel;  ///< absent: no scale bar
};

/// Cuts pictures of the evidence out of the originals. Sections ask for crops while they are
/// written; `load` then decodes each page once and fills them. Where the source's rights do not
/// allow printing (`may_print` is not true), its pixels are never read: the marks' outline is drawn
/// on blank paper. Reduced by area to at most 200 pixels an inch; figures of the same part of the
/// same page share one picture.
class SheetCrops {
  public:
    explicit SheetCrops(OriginalLookup originals);
    ~SheetCrops();

    [[nodiscard]] Figure figure(const CropWanted& wanted, const Text& caption);
    void load();

    struct Cut;

  private:
    [[nodiscard]] std::shared_ptr<Cut> cutFor(const CropWanted& wanted);
    [[nodiscard]] std::optional<QSize> sizeOf(const evidence::record::File& file, int page);

    OriginalLookup m_originals;
    std::map<std::pair<std::string, int>, std::optional<QSize>> m_sizes;
    std::vector<std::shared_ptr<Cut>> m_cuts;
};

}  // namespace app::report
