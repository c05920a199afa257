#include "app/desk/page/marking.h"

#include "app/desk/analyst.h"
#include "app/desk/form/refusal_sentence.h"
#include "app/desk/open_register.h"
#include "app/desk/page/measure_field.h"
#include "app/desk/page/page_scales.h"
#include "app/desk/page/scale_field.h"
#include "app/desk/selection.h"
#include "app/session/draft_mark.h"
#include "evidence-core/record/lookup.h"

#include <QApplication>

#include <algorithm>
#include <cmath>

namespace app::desk::page {

namespace record = evidence::record;

using Step = MarkMaker::Step;

namespace {

record::AnyId markMadeBy(const record::ChangeSet& changes) {
    for (const auto& change : changes.changes)
        if (change.after && !change.before)
            if (const auto* mark = std::get_if<record::Mark>(&*change.after))
                return record::any(mark->id);
    return {};
}

record::AnyId sizeReadBy(const record::ChangeSet& changes) {
    for (const auto& change : changes.changes)
        if (change.after)
            if (const auto* reading = std::get_if<record::Reading>(&*change.after))
                return reading->of;
    return {};
}

}  // namespace

Marking::Marking(OpenRegister& open, Analyst& analyst, Selection& selection, TileSource& tiles,
                 PageView& view)
    : QObject(&view),
      m_open(open),
      m_analyst(analyst),
      m_selection(selection),
      m_tiles(tiles),
      m_view(view),
      m_scaleField(new ScaleField(&view)),
      m_measureField(new MeasureField(&view)) {
    connect(&view, &PageView::pressed, this, [this](const QPointF& at, Qt::KeyboardModifiers keys) {
        m_last = pointer(at, keys);
        take(m_maker.press(m_last));
    });
    connect(&view, &PageView::moved, this, [this](const QPointF& at, Qt::KeyboardModifiers keys) {
        if (m_maker.complete()) return;  // the figures stay with the mark
        m_last = pointer(at, keys);
        m_moves.start();
    });
    m_moves.setSingleShot(true);
    connect(&m_moves, &QTimer::timeout, this, [this] { take(m_maker.move(m_last)); });
    connect(&view, &PageView::released, this,
            [this](const QPointF& at, Qt::KeyboardModifiers keys) {
                if (m_maker.complete()) return;
                m_moves.stop();
                m_last = pointer(at, keys);
                take(m_maker.release(m_last));
            });
    connect(&view, &PageView::dropped, this, &Marking::drop);
    connect(&view, &PageView::otherSnapWanted, this, &Marking::changeSnap);
    connect(m_scaleField, &PointerField::keepWanted, this, &Marking::keepScale);
    connect(m_scaleField, &PointerField::dropWanted, this, &Marking::drop);
    connect(m_measureField, &PointerField::keepWanted, this, &Marking::keepMeasure);
    connect(m_measureField, &PointerField::dropWanted, this, &Marking::drop);
    connect(m_measureField, &MeasureField::scaleChosen, this, &Marking::useScale);
}

void Marking::setTool(Tool tool) {
    m_tool = tool;
    m_maker.setTool(tool);
    m_view.setHand(tool == Tool::Look ? PageView::Hand::Looks : PageView::Hand::Marks);
    drop();
}

void Marking::setPage(const session::PageOfFile& page) {
    if (page != m_page) m_wanted.reset();
    m_page = page;
    m_maker.setPage(page, m_tiles.picture());
    drop();
    refresh();
}

void Marking::refresh() {
    m_scale.reset();
    m_frame.reset();
    if (m_page.file.empty()) return;
    const auto held = m_open.snapshot();
    const auto scales = session::scalesOf(held->reg, m_page.file, m_page.page);
    const bool stillThere = m_wanted && std::ranges::count(scales, *m_wanted) > 0;
    m_frame = stillThere ? m_wanted : usualScale(held->reg, m_page);
    if (const auto judged = m_analyst.judged(); judged && m_frame)
        m_scale = session::liveScale(held->reg, judged->analysis, *m_frame);
}

void Marking::useScale(const record::FrameId& frame) {
    m_wanted = frame;
    refresh();
    m_measureField->setFigure(figures());
    Q_EMIT scaleChosen();
}

PointerAt Marking::pointer(const QPointF& page, Qt::KeyboardModifiers keys) const {
    return {page, m_view.viewport().zoom(), keys.testFlag(Qt::AltModifier)};
}

void Marking::take(Step step) {
    switch (step) {
        case Step::Nothing:
            return;
        case Step::TooShort:
            Q_EMIT said(tr("Press where the thing begins and drag to where it ends."));
            [[fallthrough]];
        case Step::Changed:
            m_scaleField->hide();
            m_measureField->hide();
            return show();
        case Step::Made:
            show();
            return ask();
    }
}

void Marking::show() {
    const auto& draft = m_maker.draft();
    if (draft)
        m_view.setDraft(Draft{session::asPlaced(*draft), m_maker.snapped()});
    else
        m_view.setDraft(std::nullopt);
    m_view.setNote(m_maker.complete() ? QString() : figures());
}

/// What stands at the pointer while the mark is drawn.
QString Marking::figures() const {
    if (!m_maker.draft()) return m_maker.whyNot();
    const session::MarkDraft& draft = *m_maker.draft();
    QString words;
    if (m_tool == Tool::Scale && draft.points.size() == 2) {
        const double length = std::hypot(draft.points[1].x - draft.points[0].x,
                                         draft.points[1].y - draft.points[0].y);
        words = tr("%1 px").arg(length, 0, 'f', 1);
    } else if (m_tool != Tool::Scale && !m_frame) {
        return tr("This page has no scale yet: press S and drag along something of known length.");
    } else if (m_tool != Tool::Scale && !m_scale) {
        const auto judged = m_analyst.judged();
        const bool current = judged && judged->snapshot->version == m_open.snapshot()->version;
        words = current ? tr("This scale cannot be worked out yet.")
                        : tr("The scale is being worked out …");
    } else if (m_scale) {
        if (const auto live = session::liveLength(*m_scale, draft, asked()))
            words = QString::fromStdString(live->text);
    }
    if (m_maker.whyNot().isEmpty()) return words;
    const QString free = m_maker.snap() == Snap::Edge ? tr("no edge here, ends as placed")
                                                      : tr("no line here, ends as placed");
    return words.isEmpty() ? free : words + QLatin1Char('\n') + free;
}

record::DimensionQuantity Marking::asked() const {
    return m_tool == Tool::Circle ? record::DimensionQuantity::Diameter
                                  : record::DimensionQuantity::Length;
}

void Marking::ask() {
    const auto held = m_open.snapshot();
    const QPointF at = m_view.viewport().toView(m_last.page);
    if (m_tool == Tool::Scale) {
        m_scaleField->clear();
        const auto* source = record::sourceOf(held->reg, m_page.file);
        m_scaleField->setPageOf(source ? std::optional(source->id) : std::nullopt);
        m_scaleField->setSnapshot(held);
        m_scaleField->setChoices(scaleChoices(held->reg, m_page), m_frame);
        m_scaleField->setFigure(figures());
        m_scaleField->openAt(at);
    } else if (m_frame) {
        m_measureField->clear();
        m_measureField->setSnapshot(held);
        m_measureField->setChoices(scaleChoices(held->reg, m_page), *m_frame);
        m_measureField->setFigure(figures());
        m_measureField->openAt(at);
    } else {
        const QString words = figures();
        drop();
        m_view.setNote(words);  // stays at the pointer until the next press
        Q_EMIT said(words);
    }
}

void Marking::drop() {
    const bool hadFocus = m_view.isAncestorOf(QApplication::focusWidget());
    m_maker.drop();
    m_scaleField->hide();
    m_measureField->hide();
    m_view.setDraft(std::nullopt);
    m_view.setNote({});
    if (hadFocus) m_view.setFocus();
}

void Marking::changeSnap() {
    m_maker.setSnap(m_maker.snap() == Snap::Edge ? Snap::LineCentre : Snap::Edge);
    Q_EMIT said(m_maker.snap() == Snap::Edge
                    ? tr("The ends snap to edges. L: to the middle of lines. Alt: not at all.")
                    : tr("The ends snap to the middle of lines. L: to edges. Alt: not at all."));
    if (!m_maker.complete()) take(m_maker.move(m_last));
}

void Marking::keepScale() {
    if (!m_maker.draft()) return;
    const auto held = m_open.snapshot();
    const auto length = knownLengthOf(held->reg, m_scaleField->entered());
    if (!length)
        return m_scaleField->refuse(form::refusalSentence(length.error()),
                                    m_scaleField->fieldAt(length.error().place));
    session::ScaleDraft draft{.mark = *m_maker.draft(), .length = *length};
    draft.frame = m_scaleField->joined();
    record::AnyId made;
    const auto outcome = m_open.perform([&](const session::Context& context) {
        auto plan = session::planScale(context, draft);
        if (plan) made = markMadeBy(*plan);
        return plan;
    });
    kept(outcome, *m_scaleField, outcome ? nullptr : m_scaleField->fieldAt(outcome.error().place),
         made);
}

void Marking::keepMeasure() {
    if (!m_maker.draft() || !m_frame) return;
    session::MeasureDraft draft{.mark = *m_maker.draft(), .frame = *m_frame};
    draft.quantity = asked();
    m_measureField->enterInto(draft);
    record::AnyId made;
    const auto outcome = m_open.perform([&](const session::Context& context) {
        auto plan = session::planMeasure(context, draft);
        if (plan) made = sizeReadBy(*plan);
        return plan;
    });
    kept(outcome, *m_measureField,
         outcome ? nullptr : m_measureField->fieldAt(outcome.error().place), made);
}

void Marking::kept(const evidence::Result<void>& outcome, PointerField& field,
                   QWidget* refusedField, const record::AnyId& chosen) {
    if (!outcome) return field.refuse(form::refusalSentence(outcome.error()), refusedField);
    drop();
    m_selection.choose(chosen);
}

}  // namespace app::desk::page
