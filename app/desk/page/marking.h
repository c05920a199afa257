#pragma once

#include "app/desk/page/mark_maker.h"
#include "app/desk/page/page_view.h"
#include "app/desk/page/tool.h"
#include "app/session/chosen.h"
#include "app/session/live_length.h"
#include "evidence-core/refusal.h"

#include <QObject>
#include <QString>
#include <QTimer>

#include <optional>

namespace app::desk {
class Analyst;
class OpenRegister;
class Selection;
}  // namespace app::desk

namespace app::desk::page {

class MeasureField;
class PointerField;
class ScaleField;

/// Setting a scale and measuring on a page: takes the pointer's moves from the view, shows the mark
/// and its live figures there, asks what it is, and has the plan carried out.
class Marking : public QObject {
    Q_OBJECT

  public:
    Marking(OpenRegister& open, Analyst& analyst, Selection& selection, TileSource& tiles,
            PageView& view);

    [[nodiscard]] Tool tool() const { return m_tool; }
    void setTool(Tool tool);
    /// Another page lies open, or its pixels have come.
    void setPage(const session::PageOfFile& page);
    /// The register or its analysis is another one.
    void refresh();
    /// The scale that is measured with; nothing where the page has none.
    [[nodiscard]] const std::optional<evidence::record::FrameId>& scaleUsed() const {
        return m_frame;
    }

  Q_SIGNALS:
    void said(const QString& sentence);
    /// Another scale of the page is measured with.
    void scaleChosen();

  private:
    [[nodiscard]] PointerAt pointer(const QPointF& page, Qt::KeyboardModifiers keys) const;
    void take(MarkMaker::Step step);
    void show();
    void ask();
    void drop();
    void changeSnap();
    void useScale(const evidence::record::FrameId& frame);
    void keepScale();
    void keepMeasure();
    void kept(const evidence::Result<void>& outcome, PointerField& field, QWidget* refusedField,
              const evidence::record::AnyId& chosen);
    [[nodiscard]] QString figures() const;
    [[nodiscard]] evidence::record::DimensionQuantity asked() const;

    OpenRegister& m_open;
    Analyst& m_analyst;
    Selection& m_selection;
    TileSource& m_tiles;
    PageView& m_view;
    ScaleField* m_scaleField;
    MeasureField* m_measureField;
    MarkMaker m_maker;
    Tool m_tool = Tool::Look;
    session::PageOfFile m_page;
    std::optional<evidence::record::FrameId> m_wanted;  ///< the scale that was asked for
    std::optional<evidence::record::FrameId> m_frame;   ///< the scale to measure with
    std::optional<session::LiveScale> m_scale;          ///< the same, where it has a size
    PointerAt m_last;
    QTimer m_moves;  ///< a fit takes longer than moves may come: only the last one counts
};

}  // namespace app::desk::page
