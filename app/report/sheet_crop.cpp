#include "app/report/sheet_crop.h"

#include "app/report/ink.h"
#include "app/report/sheet_pixels.h"

#include <QFont>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace app::report {

using namespace evidence::record;

struct SheetCrops::Cut {
    const File* file = nullptr;
    int page = 1;
    QRectF box;  ///< sheet pixels, edges of pixels at ±½
    QSizeF size;
    bool printable = false;
    std::shared_ptr<Picture> picture = std::make_shared<Picture>();
    QString instead;  ///< why there is no picture
};

namespace {

constexpr double kPixelsPerInch = 200;

// Room around the marks so that one sees what they are on; never flatter than 3:1 nor narrower
// than 2:3.
QRectF boxAround(const std::vector<MarkOnSheet>& marks) {
    QRectF bounds;
    bool first = true;
    for (const MarkOnSheet& m : marks) {
        if (m.mark == nullptr || m.role != MarkRole::Wanted) continue;
        const QRectF b = markBounds(*m.mark);
        bounds = first ? b
                       : QRectF(QPointF(std::min(bounds.left(), b.left()),
                                        std::min(bounds.top(), b.top())),
                                QPointF(std::max(bounds.right(), b.right()),
                                        std::max(bounds.bottom(), b.bottom())));
        first = false;
    }
    const double longest = std::max(bounds.width(), bounds.height());
    const double room = 0.16 * longest + 30;
    bounds.adjust(-room, -room, room, room);
    const double least = std::max(160.0, longest / 3);
    const double w = std::max({bounds.width(), least, bounds.height() * 0.67});
    const double h = std::max({bounds.height(), least, bounds.width() / 3});
    const QPointF centre = bounds.center();
    return {centre.x() - w / 2, centre.y() - h / 2, w, h};
}

QSizeF fitInto(const QRectF& box, double wide, double high) {
    const double factor = std::min(wide / box.width(), high / box.height());
    return {box.width() * factor, box.height() * factor};
}

// What was measured needs its surroundings; words only have to be read.
QSizeF sizeFor(const CropWanted& wanted, const QRectF& box) {
    const double aspect = box.width() / box.height();
    if (wanted.box) return fitInto(box, aspect > 2 ? 236 : 154, 84);
    return fitInto(box, aspect > 2.2 ? 380 : 236, 162);
}

void drawNote(QPainter& painter, const QRectF& rect, const QString& words) {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(7);
    font.setHintingPreference(QFont::PreferNoHinting);
    painter.setFont(font);
    painter.setPen(kGraphite);
    painter.drawText(rect.adjusted(6, 5, -6, -5),
                     int(Qt::AlignTop | Qt::AlignRight) | Qt::TextWordWrap, words);
}

void paintMarks(QPainter& painter, const QRectF& rect, const SheetCrops::Cut& cut,
                const CropWanted& wanted) {
    painter.save();
    const double scale = rect.width() / cut.box.width();
    if (cut.picture->pixels.isNull()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(kPaper);
        painter.drawRect(rect);
        drawNote(painter, rect, cut.instead);
    }
    painter.setClipRect(rect);
    const ToFigure toFigure = [&](const PixelPoint& p) {
        return QPointF(rect.left() + (p.x - cut.box.left()) * scale,
                       rect.top() + (p.y - cut.box.top()) * scale);
    };
    for (const MarkOnSheet& m : wanted.marks)
        if (m.mark != nullptr && m.role == MarkRole::Known &&
            cut.box.intersects(markBounds(*m.mark).adjusted(-1, -1, 1, 1)))
            drawMark(painter, *m.mark, m.role, toFigure, scale, m.label, rect);
    for (const MarkOnSheet& m : wanted.marks)
        if (m.mark != nullptr && m.role == MarkRole::Wanted)
            drawMark(painter, *m.mark, m.role, toFigure, scale, m.label, rect);
    if (wanted.inchesPerPixel) drawScaleBar(painter, *wanted.inchesPerPixel / scale, rect);
    painter.setClipping(false);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(kGraphite, 0.5));
    painter.drawRect(rect);
    painter.restore();
}

// Out to the next edges of pixels, which lie at ±½.
QRectF onWholePixels(const QRectF& box) {
    const QPointF from(std::floor(box.left() + 0.5) - 0.5, std::floor(box.top() + 0.5) - 0.5);
    const QPointF to(std::ceil(box.right() + 0.5) - 0.5, std::ceil(box.bottom() + 0.5) - 0.5);
    return {from, to};
}

}  // namespace

SheetCrops::SheetCrops(OriginalLookup originals) : m_originals(std::move(originals)) {}
SheetCrops::~SheetCrops() = default;

std::optional<QSize> SheetCrops::sizeOf(const File& file, int page) {
    const auto [place, fresh] = m_sizes.try_emplace({file.id.text, page});
    if (fresh) place->second = sheetSize(m_originals(file), file, page);
    return place->second;
}

std::shared_ptr<SheetCrops::Cut> SheetCrops::cutFor(const CropWanted& wanted) {
    const bool printable = wanted.source != nullptr && wanted.file != nullptr &&
                           wanted.source->mayPrint.value_or(false);
    QRectF box = wanted.box ? *wanted.box : boxAround(wanted.marks);
    // The box stays on the sheet, whose size a mark may have recorded; what is not cleared for
    // printing is not even opened.
    std::optional<QSize> sheet;
    for (const MarkOnSheet& m : wanted.marks)
        if (m.mark != nullptr && m.mark->seen && m.mark->seen->width > 0)
            sheet = QSize(m.mark->seen->width, m.mark->seen->height);
    if (!sheet && printable) sheet = sizeOf(*wanted.file, wanted.page);
    if (sheet) {
        const QRectF part = box.intersected(QRectF(-0.5, -0.5, sheet->width(), sheet->height()));
        if (part.width() > 20 && part.height() > 20) box = part;
    }
    box = onWholePixels(box);
    for (const auto& cut : m_cuts)
        if (cut->file == wanted.file && cut->page == wanted.page && cut->box == box) return cut;
    auto cut = std::make_shared<Cut>();
    cut->file = wanted.file;
    cut->page = wanted.page;
    cut->box = box;
    cut->size = sizeFor(wanted, box);
    cut->printable = printable;
    if (!printable)
        cut->instead = QStringLiteral("Picture not cleared for printing: outline only.");
    m_cuts.push_back(cut);
    return cut;
}

Figure SheetCrops::figure(const CropWanted& wanted, const Text& caption) {
    const std::shared_ptr<Cut> cut = cutFor(wanted);
    Figure figure;
    figure.size = cut->size;
    figure.caption = caption;
    figure.description = caption.plain();
    figure.picture = cut->picture;
    figure.paint = [cut, wanted](QPainter& painter, const QRectF& rect) {
        paintMarks(painter, rect, *cut, wanted);
    };
    return figure;
}

void SheetCrops::load() {
    std::vector<std::shared_ptr<Cut>> byPage;
    for (const auto& cut : m_cuts)
        if (cut->printable) byPage.push_back(cut);
    std::stable_sort(byPage.begin(), byPage.end(), [](const auto& a, const auto& b) {
        return std::pair(a->file->id.text, a->page) < std::pair(b->file->id.text, b->page);
    });
    for (std::size_t i = 0; i < byPage.size();) {
        const File& file = *byPage[i]->file;
        const int page = byPage[i]->page;
        const SheetPixels sheet(m_originals(file), file, page);
        for (; i < byPage.size() && byPage[i]->file == &file && byPage[i]->page == page; ++i) {
            Cut& cut = *byPage[i];
            if (!sheet.problem().isEmpty()) {
                cut.instead = sheet.problem();
                continue;
            }
            const double widest = cut.size.width() / 72 * kPixelsPerInch;
            cut.picture->pixels = sheet.part(cut.box, int(std::ceil(widest)));
            if (cut.picture->pixels.isNull())
                cut.instead = QStringLiteral("The marks lie outside the page.");
        }
    }
}

}  // namespace app::report
