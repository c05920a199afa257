#include "app/report/pdf_type.h"

#include "app/report/ink.h"

#include <QPainter>
#include <QTextOption>

#include <algorithm>
#include <cmath>

namespace app::report {

QColor colourOf(Tone tone) {
    switch (tone) {
        case Tone::Faint:
            return kGraphite;
        case Tone::Red:
            return kRedPencil;
        case Tone::Blue:
            return kBluePencil;
        case Tone::Ink:
            break;
    }
    return kInk;
}

QFont fontOf(const Face& face) {
    QFont font(face.family);
    font.setPixelSize(int(std::lround(face.size * kUnits)));
    font.setBold(face.bold);
    font.setHintingPreference(QFont::PreferNoHinting);
    // A trace of letter spacing turns ligatures off: text taken out of the PDF keeps its letters.
    // Qt counts in sixty-fourths: less than one would be none.
    font.setLetterSpacing(QFont::AbsoluteSpacing, 1.0 / 64);
    return font;
}

namespace {

QString joined(const Text& text) {
    QString words = text.plain();
    words.replace(QLatin1Char('\n'), QChar::LineSeparator);
    return words;
}

QList<QTextLayout::FormatRange> formatsOf(const Text& text, const Face& face,
                                          const std::set<QString>& anchors) {
    QList<QTextLayout::FormatRange> ranges;
    int at = 0;
    for (const Span& span : text.spans()) {
        const int length = int(span.text.size());
        const bool deadLink = !span.target.isEmpty() && !anchors.contains(span.target);
        QTextLayout::FormatRange range;
        range.start = at;
        range.length = length;
        Face own = face;
        own.bold = face.bold || span.bold;
        if (span.fixedWidth) {
            own.family = QStringLiteral("DejaVu Sans Mono");
            own.size = face.size * 0.88;
        }
        range.format.setFont(fontOf(own));
        const Tone tone = span.tone == Tone::Ink || deadLink ? face.tone : span.tone;
        range.format.setForeground(colourOf(tone));
        ranges.push_back(range);
        at += length;
    }
    return ranges;
}

}  // namespace

SetText::SetText(const Text& text, const Face& face, double width, QPaintDevice* device,
                 const std::set<QString>& anchors)
    : m_face(face), m_lineHeight(face.size * face.leading) {
    m_layout = std::make_unique<QTextLayout>(joined(text), fontOf(face), device);
    QTextOption option(face.align == Align::Right ? Qt::AlignRight : Qt::AlignLeft);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setUseDesignMetrics(true);
    m_layout->setTextOption(option);
    m_layout->setFormats(formatsOf(text, face, anchors));
    m_layout->setCacheEnabled(true);
    m_layout->beginLayout();
    double y = 0;
    for (;;) {
        QTextLine line = m_layout->createLine();
        if (!line.isValid()) break;
        line.setLineWidth(std::max(1.0, width * kUnits));
        line.setPosition(QPointF(0, y));
        y += m_lineHeight * kUnits;
    }
    m_layout->endLayout();
    int at = 0;
    for (const Span& span : text.spans()) {
        const int end = at + int(span.text.size());
        if (!span.target.isEmpty() && anchors.contains(span.target))
            m_links.push_back({at, end, span.target});
        at = end;
    }
}

int SetText::lines() const {
    return m_layout->lineCount();
}

double SetText::naturalWidth() const {
    double widest = 0;
    for (int i = 0; i < m_layout->lineCount(); ++i)
        widest = std::max(widest, double(m_layout->lineAt(i).naturalTextWidth()));
    return widest / kUnits;
}

std::vector<SetText::LinkPlace> SetText::draw(QPainter& painter, const QPointF& at, int first,
                                              int last) const {
    std::vector<LinkPlace> places;
    painter.setPen(colourOf(m_face.tone));
    for (int i = first; i < last && i < m_layout->lineCount(); ++i) {
        const QTextLine line = m_layout->lineAt(i);
        const double top = (i - first) * m_lineHeight;
        // Lines of one text stand on one grid, whatever fonts they mix.
        const double baseline = at.y() + top + m_lineHeight * 0.5 + m_face.size * 0.36;
        const QPointF origin(at.x() * kUnits, baseline * kUnits - line.ascent());
        line.draw(&painter, origin - QPointF(0, line.position().y()));
        for (const LinkRange& link : m_links) {
            const int a = std::max(link.start, line.textStart());
            const int b = std::min(link.end, line.textStart() + line.textLength());
            if (a >= b) continue;
            const double x1 = line.cursorToX(a) / kUnits;
            const double x2 = line.cursorToX(b) / kUnits;
            places.push_back(
                {QRectF(std::min(x1, x2), top, std::abs(x2 - x1), m_lineHeight), link.target});
        }
    }
    return places;
}

}  // namespace app::report
