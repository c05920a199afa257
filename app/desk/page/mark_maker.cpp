#include "app/desk/page/mark_maker.h"

#include "app/desk/form/refusal_sentence.h"
#include "app/session/fit_draft.h"

#include <algorithm>
#include <cmath>

namespace app::desk::page {

namespace mark = imaging::mark;
namespace record = evidence::record;

namespace {

constexpr double kShortest = 5;  ///< view px: less is a click
constexpr std::size_t kRimPoints = 3;

/// The hand aims on the screen: the farther the page, the wider the search.
double reachAt(double zoom) {
    constexpr double kLeast = 4;
    constexpr double kMost = 40;
    return std::clamp(mark::kSearchDefault / zoom, kLeast, kMost);
}

record::PixelPoint pixel(const QPointF& at) {
    return {at.x(), at.y()};
}

}  // namespace

void MarkMaker::setPage(const session::PageOfFile& page,
                        std::shared_ptr<const PagePicture> picture) {
    m_page = page;
    m_picture = std::move(picture);
    drop();
}

void MarkMaker::setTool(Tool tool) {
    m_tool = tool;
    drop();
}

void MarkMaker::drop() {
    m_points.clear();
    m_draft.reset();
    m_snapped = false;
    m_complete = false;
    m_whyNot.clear();
}

MarkMaker::Step MarkMaker::press(const PointerAt& at) {
    if (!m_picture || m_tool == Tool::Look) return Step::Nothing;
    if (m_complete) drop();
    if (m_tool == Tool::Circle) return pressRim(at);
    drop();
    m_points = {pixel(at.page)};
    return Step::Changed;
}

MarkMaker::Step MarkMaker::pressRim(const PointerAt& at) {
    m_points.push_back(pixel(at.page));
    if (m_points.size() < kRimPoints) return Step::Changed;
    draw(at, record::MarkKind::Circle);
    m_complete = m_draft.has_value();
    if (!m_complete) m_points.clear();
    return m_complete ? Step::Made : Step::Changed;
}

MarkMaker::Step MarkMaker::move(const PointerAt& at) {
    if (m_points.empty() || m_complete) return Step::Nothing;
    const std::size_t placed = m_points.size();
    m_points.push_back(pixel(at.page));
    if (m_tool != Tool::Circle)
        draw(at, record::MarkKind::Segment);
    else if (placed + 1 < kRimPoints)
        m_draft = session::MarkDraft{.file = m_page.file,
                                     .page = m_page.page,
                                     .kind = record::MarkKind::Curve,
                                     .points = m_points};
    else
        draw(at, record::MarkKind::Circle);
    m_points.resize(placed);
    return Step::Changed;
}

MarkMaker::Step MarkMaker::release(const PointerAt& at) {
    if (m_tool == Tool::Circle || m_points.empty() || m_complete) return Step::Nothing;
    const QPointF dragged = at.page - QPointF(m_points.front().x, m_points.front().y);
    if (std::hypot(dragged.x(), dragged.y()) * at.zoom < kShortest) {
        drop();
        return Step::TooShort;
    }
    move(at);
    m_points.clear();
    m_complete = m_draft.has_value();
    return m_complete ? Step::Made : Step::Changed;
}

void MarkMaker::draw(const PointerAt& at, record::MarkKind kind) {
    session::MarkDraft placed{
        .file = m_page.file, .page = m_page.page, .kind = kind, .points = m_points};
    placed.seen = record::SheetSeen{m_picture->size().width(), m_picture->size().height(),
                                    m_picture->orientation()};
    m_draft.reset();
    m_snapped = false;
    m_whyNot.clear();
    if (!at.placeByHand) {
        const auto fit = m_snap == Snap::Edge ? mark::Fit::Edge : mark::Fit::LineCentre;
        auto fitted = session::fitDraft(m_picture->grey(), placed, {fit, reachAt(at.zoom)});
        m_snapped = fitted.has_value();
        if (fitted)
            m_draft = std::move(*fitted);
        else
            m_whyNot = form::refusalSentence(fitted.error());
    }
    if (m_draft) return;
    auto asPlaced = session::fitDraft(m_picture->grey(), placed, {mark::Fit::None, reachAt(1)});
    if (asPlaced)
        m_draft = std::move(*asPlaced);
    else
        m_whyNot = form::refusalSentence(asPlaced.error());
}

}  // namespace app::desk::page
