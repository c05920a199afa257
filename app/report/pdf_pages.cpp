#include "app/report/pdf_pages.h"

#include "app/report/figure/grade_mark.h"
#include "app/report/ink.h"

#include <QPainter>
#include <QPdfWriter>

#include <algorithm>
#include <cmath>

namespace app::report {

namespace {

const QString kSans = QStringLiteral("DejaVu Sans");
const QString kSerif = QStringLiteral("DejaVu Serif");

Face faceOf(ParagraphStyle style) {
    switch (style) {
        case ParagraphStyle::Title:
            return {kSerif, 25, true, Tone::Ink, 1.2, Align::Left};
        case ParagraphStyle::Subtitle:
            return {kSans, 10.5, false, Tone::Blue, 1.3, Align::Left};
        case ParagraphStyle::Lead:
            return {kSerif, 12, false, Tone::Ink, 1.35, Align::Left};
        case ParagraphStyle::Small:
            return {kSans, 7, false, Tone::Faint, 1.4, Align::Left};
        case ParagraphStyle::Label:
            return {kSans, 8, true, Tone::Ink, 1.4, Align::Left};
        case ParagraphStyle::Quote:
            return {kSerif, 8.4, false, Tone::Ink, 1.35, Align::Left};
        case ParagraphStyle::Caution:
            return {kSans, 8, false, Tone::Ink, 1.4, Align::Left};
        case ParagraphStyle::Note:
            return {kSans, 7.6, false, Tone::Ink, 1.4, Align::Left};
        case ParagraphStyle::Body:
            break;
    }
    return {kSerif, 8.8, false, Tone::Ink, 1.42, Align::Left};
}

QRectF units(double x, double y, double w, double h) {
    return {x * kUnits, y * kUnits, w * kUnits, h * kUnits};
}

}  // namespace

PdfPages::PdfPages(QSizeF paper, QPdfWriter& writer, QPainter* painter, const PageMap& known)
    : m_paper(paper), m_writer(writer), m_painter(painter), m_known(known) {}

PageMap PdfPages::set(const Document& document) {
    m_document = &document;
    startPage();
    for (const Block& b : document.blocks)
        std::visit([this](const auto& content) { block(content); }, b);
    m_map.pages = m_page;
    return m_map;
}

void PdfPages::startPage() {
    ++m_page;
    m_y = m_top;
    m_blank = true;
    headAndFoot();
}

void PdfPages::newPage() {
    if (m_painter != nullptr) m_writer.newPage();
    startPage();
}

void PdfPages::headAndFoot() {
    const Face face{kSans, 6.8, false, Tone::Faint, 1.4, Align::Left};
    Face right = face;
    right.align = Align::Right;
    if (m_page > 1) {
        const SetText head = laid(Text(m_document->runningHead), face, width());
        drawLines(head, left(), 34, 0, 1);
        rule(left(), left() + width(), 47, kHairline, 0.5);
    }
    const double y = m_paper.height() - 44;
    rule(left(), left() + width(), y - 4, kHairline, 0.5);
    const SetText note = laid(Text(m_document->footNote), face, width() - 70);
    drawLines(note, left(), y, 0, note.lines());
    const QString of = m_known.pages > 0
                           ? QStringLiteral("%1 of %2")
                                 .arg(QString::number(m_page), QString::number(m_known.pages))
                           : QString::number(m_page);
    const SetText number = laid(Text(of), right, 66);
    drawLines(number, left() + width() - 66, y, 0, 1);
}

void PdfPages::need(double height) {
    if (room() < std::min(height, wholePage()) && !m_blank) newPage();
}

void PdfPages::space(double height) {
    if (!m_blank) m_y += height;
}

void PdfPages::anchorHere(const QString& anchor) {
    if (anchor.isEmpty()) return;
    m_map.anchors.emplace(anchor, PdfPlace{m_page, m_y});
    m_map.names.insert(anchor);
}

SetText PdfPages::laid(const Text& text, const Face& face, double wide) const {
    return SetText(text, face, wide, &m_writer, m_known.names);
}

void PdfPages::drawLines(const SetText& text, double x, double y, int first, int last) {
    if (m_painter == nullptr) return;
    for (const auto& link : text.draw(*m_painter, QPointF(x, y), first, last)) {
        const auto target = m_known.anchors.find(link.target);
        if (target == m_known.anchors.end()) continue;
        m_map.links.push_back({m_page, link.rect.translated(x, y), target->second});
    }
}

void PdfPages::flow(const SetText& text, double x) {
    int at = 0;
    while (at < text.lines()) {
        int fits = int(std::floor((room() + 0.01) / text.lineHeight()));
        const int left_ = text.lines() - at;
        // No single line of a paragraph stands alone at the foot or the head of a page.
        if (fits < left_ && left_ - fits == 1 && fits > 2) --fits;
        if (fits < std::min(2, left_) && !m_blank) {
            newPage();
            continue;
        }
        const int n = std::clamp(fits, 1, left_);
        drawLines(text, x, m_y, at, at + n);
        m_y += n * text.lineHeight();
        m_blank = false;
        at += n;
        if (at < text.lines()) newPage();
    }
}

void PdfPages::rule(double x1, double x2, double y, const QColor& colour, double thickness) {
    if (m_painter == nullptr) return;
    m_painter->fillRect(units(x1, y - thickness / 2, x2 - x1, thickness), colour);
}

void PdfPages::block(const Heading& heading) {
    if (heading.newPage && !m_blank) newPage();
    const double size = heading.level == 1 ? 17 : heading.level == 2 ? 12.5 : 9.6;
    Face face{heading.level == 3 ? kSans : kSerif, size, true, Tone::Ink, 1.25, Align::Left};
    Face asideFace{heading.level == 3 ? kSerif : kSans,
                   heading.aside.empty() ? 8 : size,
                   false,
                   Tone::Ink,
                   1.25,
                   Align::Right};
    const double markWide = heading.grade ? 15 : 0;
    const double asideWide =
        heading.aside.empty()
            ? 0
            : std::min(width() * 0.4, laid(heading.aside, asideFace, 1000).naturalWidth() + 12);
    const SetText words = laid(Text(heading.text), face, width() - markWide - asideWide);
    const double after = heading.level == 1 ? 150 : heading.level == 2 ? 120 : 92;
    space(heading.level == 1 ? 20 : heading.level == 2 ? 14 : 11);
    need(words.height() + after);
    anchorHere(heading.anchor);
    m_map.bookmarks.push_back({heading.level, heading.text, {m_page, m_y}});
    if (heading.level == 3) {
        rule(left(), left() + width(), m_y - 2, kInk, 0.6);
        m_y += 2;
    }
    if (heading.grade && m_painter != nullptr) {
        m_painter->save();
        m_painter->translate(left() * kUnits, m_y * kUnits);
        m_painter->scale(kUnits, kUnits);
        figure::drawGradeMark(*m_painter, QRectF(0, 1.4, 10, 10), *heading.grade, kInk,
                              QColor(Qt::white));
        m_painter->restore();
    }
    double height = words.height();
    if (!heading.aside.empty()) {
        const SetText aside = laid(heading.aside, asideFace, asideWide);
        drawLines(aside, left() + width() - asideWide, m_y, 0, aside.lines());
        height = std::max(height, aside.height());
    }
    const double x = left() + markWide;
    drawLines(words, x, m_y, 0, words.lines());
    m_y += height;
    m_blank = false;
    if (heading.level == 1) {
        rule(left(), left() + width(), m_y + 3, kInk, 0.8);
        m_y += 9;
    } else {
        m_y += 3;
    }
}

void PdfPages::block(const Paragraph& paragraph) {
    const Face face = faceOf(paragraph.style);
    const ParagraphStyle style = paragraph.style;
    const bool barred = style == ParagraphStyle::Caution || style == ParagraphStyle::Note;
    const double indent = style == ParagraphStyle::Quote ? 14 : barred ? 9 : 0;
    const SetText words = laid(paragraph.text, face, width() - indent);
    if (style == ParagraphStyle::Label) {
        space(6);
        need(words.height() + 40);
    }
    if (style == ParagraphStyle::Subtitle && m_page == 1 && m_blank) m_y += 110;
    if (barred) need(std::min(words.height() + 4, 120.0));
    anchorHere(paragraph.anchor);
    if (style == ParagraphStyle::Caution && m_painter != nullptr && words.height() <= room())
        m_painter->fillRect(units(left(), m_y - 1, width(), words.height() + 6), kPanel);
    const double top = m_y;
    const int page = m_page;
    if (style == ParagraphStyle::Caution) m_y += 2;
    flow(words, left() + indent);
    if (style == ParagraphStyle::Caution) m_y += 2;
    if (barred && m_painter != nullptr && page == m_page)
        m_painter->fillRect(
            units(left(), top - 1, style == ParagraphStyle::Caution ? 3 : 1.4, m_y - top + 2),
            kRedPencil);
    m_y += style == ParagraphStyle::Title   ? 10
           : style == ParagraphStyle::Lead  ? 14
           : style == ParagraphStyle::Label ? 1
           : barred                         ? 5
                                            : 6;
}

void PdfPages::block(const List& list) {
    const Face face{kSerif, 8.4, false, Tone::Ink, 1.38, Align::Left};
    const SetText bullet = laid(Text("–"), face, 10);
    for (const Text& item : list.items) {
        const SetText words = laid(item, face, width() - 12);
        need(std::min(words.height(), 2 * words.lineHeight()));
        drawLines(bullet, left(), m_y, 0, 1);
        flow(words, left() + 12);
        m_y += 2.2;
    }
    m_y += 4;
}

void PdfPages::block(const Facts& facts) {
    const Face labelFace{kSans, 7.2, false, Tone::Faint, 1.4, Align::Left};
    const Face face{kSerif, 8.4, false, Tone::Ink, 1.36, Align::Left};
    const double labelWide = 98;
    for (const auto& [label, words] : facts.rows) {
        const SetText name = laid(Text(label), labelFace, labelWide - 8);
        const SetText text = laid(words, face, width() - labelWide);
        need(std::min(std::max(name.height(), text.height()), 3 * text.lineHeight()));
        const double top = m_y;
        const int page = m_page;
        drawLines(name, left(), m_y + 0.7, 0, name.lines());
        flow(text, left() + labelWide);
        if (page == m_page) m_y = std::max(m_y, top + name.height());
        m_y += 1.8;
    }
    m_y += 3;
}

void PdfPages::block(const PageBreak&) {
    if (!m_blank) newPage();
}

}  // namespace app::report
