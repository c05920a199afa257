#pragma once

#include "app/desk/page/page_picture.h"
#include "app/desk/page/tool.h"
#include "app/session/actions.h"
#include "app/session/chosen.h"

#include <QPointF>
#include <QString>

#include <memory>
#include <optional>
#include <vector>

namespace app::desk::page {

/// To what the ends of a mark are drawn.
enum class Snap { Edge, LineCentre };

/// Where the pointer is, in page coordinates, and how the page is seen.
struct PointerAt {
    QPointF page;
    double zoom = 1;
    bool placeByHand = false;  ///< no snapping
};

/// The mark under the pointer's hand: a drag makes a segment, three clicks a circle; both are
/// fitted to the pixels at once. Knows no widget.
class MarkMaker {
  public:
    enum class Step {
        Nothing,
        Changed,  ///< another draft, or none any more
        Made,     ///< complete: now somebody has to say what it is
        TooShort  ///< a click where a drag was expected, and nothing was made
    };

    void setPage(const session::PageOfFile& page, std::shared_ptr<const PagePicture> picture);
    void setTool(Tool tool);

    Step press(const PointerAt& at);
    Step move(const PointerAt& at);
    Step release(const PointerAt& at);
    void drop();

    [[nodiscard]] Snap snap() const { return m_snap; }
    void setSnap(Snap snap) { m_snap = snap; }

    /// The mark as it is now.
    [[nodiscard]] const std::optional<session::MarkDraft>& draft() const { return m_draft; }
    /// Whether its ends (its rim) lie on what the pixels show.
    [[nodiscard]] bool snapped() const { return m_snapped; }
    /// Why it does not, where snapping was wanted: a sentence.
    [[nodiscard]] const QString& whyNot() const { return m_whyNot; }
    [[nodiscard]] bool complete() const { return m_complete; }

  private:
    void draw(const PointerAt& at, evidence::record::MarkKind kind);
    Step pressRim(const PointerAt& at);

    session::PageOfFile m_page;
    std::shared_ptr<const PagePicture> m_picture;
    Tool m_tool = Tool::Look;
    Snap m_snap = Snap::Edge;
    std::vector<evidence::record::PixelPoint> m_points;  ///< as placed
    std::optional<session::MarkDraft> m_draft;
    bool m_snapped = false;
    bool m_complete = false;
    QString m_whyNot;
};

}  // namespace app::desk::page
