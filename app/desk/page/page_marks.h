#pragma once

#include "app/desk/analyst.h"
#include "app/desk/page/page_viewport.h"
#include "app/session/chosen.h"
#include "evidence-core/record/mark.h"

#include <QPainterPath>
#include <QString>

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace app::desk::page {

/// What a mark is for.
enum class MarkUse {
    Measured,   ///< a size is read off it
    Reference,  ///< the known length of a scale
    Loose,      ///< neither yet
};

struct PageMark {
    const evidence::record::Mark* mark = nullptr;
    MarkUse use = MarkUse::Loose;
    QString label;  ///< the codes of what it measures, or the length it stands for
    QString words;  ///< code, name and size in full, for the pointer
};

/// The marks of one page, with what they are called. Those set aside are left out, unless they are
/// `alsoThis`. Pointers lead into the snapshot, which is kept alive.
struct PageMarks {
    std::shared_ptr<const session::Snapshot> snapshot;
    std::vector<PageMark> marks;

    [[nodiscard]] const PageMark* find(const evidence::record::MarkId& id) const;
};

/// `judged` may be null or older than the snapshot: then sizes that it does not know are left out.
[[nodiscard]] PageMarks marksOf(const std::shared_ptr<const session::Snapshot>& snapshot,
                                const Judged* judged, const session::PageOfFile& page,
                                const evidence::record::MarkId& alsoThis = {});

/// The line that shows a mark, in view coordinates.
[[nodiscard]] QPainterPath pathInView(const evidence::record::Mark& mark,
                                      const PageViewport& viewport);

/// How far the pointer is from a mark's line, view px; nothing for an empty mark.
[[nodiscard]] std::optional<double> distanceTo(const QPainterPath& path, const QPointF& at);

/// The mark whose line lies nearest to `at` (view coordinates) and within `reach` view px; of
/// equals the shorter one, which is the harder to hit.
[[nodiscard]] const PageMark* markAt(std::span<const PageMark> marks, const PageViewport& viewport,
                                     const QPointF& at, double reach = 6);

}  // namespace app::desk::page
