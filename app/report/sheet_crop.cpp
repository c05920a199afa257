#include "app/report/sheet_crop.h"

#include "app/report/ink.h"
#include "app/report/sheet_pixels.h"

#include <QFont>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace app::report {

using namespace evidence::record;

struct SheetCrops::Crop {
    CropWanted wanted;
    QRectF box;  ///< sheet pixels, edges of pixels at ±½
    QSizeF size;
    bool printable = false;
    QImage picture;
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

QSizeF sizeFor(const QRectF& box) {
    const double aspect = box.width() / box.height();
    double width = aspect > 2.2 ? 420 : 236;
    double height = width / aspect;
    constexpr double kHighest = 190;
    if (height > kHighest) {
        height = kHighest;
        width = height * aspect;
    }
    return {width, height};
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

void paintCrop(const SheetCrops::Crop& crop, QPainter& painter, const QRectF& rect) {
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform, true);
    painter.setRenderHint(QPainter::LosslessImageRendering, true);
    const double scale = rect.width() / crop.box.width();
    if (crop.picture.isNull()) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(kPaper);
        painter.drawRect(rect);
        drawNote(painter, rect, crop.instead);
    } else {
        painter.drawImage(rect, crop.picture);
    }
    painter.setClipRect(rect);
    const ToFigure toFigure = [&](const PixelPoint& p) {
        return QPointF(rect.left() + (p.x - crop.box.left()) * scale,
                       rect.top() + (p.y - crop.box.top()) * scale);
    };
    for (const MarkOnSheet& m : crop.wanted.marks)
        if (m.mark != nullptr && m.role == MarkRole::Known &&
            crop.box.intersects(markBounds(*m.mark).adjusted(-1, -1, 1, 1)))
            drawMark(painter, *m.mark, m.role, toFigure, scale, m.label, rect);
    for (const MarkOnSheet& m : crop.wanted.marks)
        if (m.mark != nullptr && m.role == MarkRole::Wanted)
            drawMark(painter, *m.mark, m.role, toFigure, scale, m.label, rect);
    if (crop.wanted.inchesPerPixel)
        drawScaleBar(painter, *crop.wanted.inchesPerPixel / scale, rect);
    painter.setClipping(false);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(kGraphite, 0.5));
    painter.drawRect(rect);
    painter.restore();
}

}  // namespace

SheetCrops::SheetCrops() = default;
SheetCrops::~SheetCrops() = default;

Figure SheetCrops::figure(const CropWanted& wanted, const Text& caption) {
    auto crop = std::make_shared<Crop>();
    crop->wanted = wanted;
    crop->box = wanted.box ? *wanted.box : boxAround(wanted.marks);
    crop->printable = wanted.source != nullptr && wanted.source->mayPrint.value_or(false);
    if (!crop->printable)
        crop->instead = QStringLiteral("Picture not cleared for printing: outline only.");
    // The sheet's size is known where a mark recorded it; then the box stays on the sheet.
    for (const MarkOnSheet& m : wanted.marks)
        if (m.mark != nullptr && m.mark->seen && m.mark->seen->width > 0) {
            const QRectF sheet(-0.5, -0.5, m.mark->seen->width, m.mark->seen->height);
            const QRectF cut = crop->box.intersected(sheet);
            if (cut.width() > 20 && cut.height() > 20) crop->box = cut;
            break;
        }
    crop->size = sizeFor(crop->box);
    m_crops.push_back(crop);
    Figure figure;
    figure.size = crop->size;
    figure.caption = caption;
    figure.description = caption.plain();
    figure.paint = [crop](QPainter& painter, const QRectF& rect) {
        paintCrop(*crop, painter, rect);
    };
    return figure;
}

void SheetCrops::load(const OriginalLookup& originals) {
    std::vector<std::shared_ptr<Crop>> byPage;
    for (const auto& crop : m_crops)
        if (crop->printable && crop->wanted.file != nullptr) byPage.push_back(crop);
    std::stable_sort(byPage.begin(), byPage.end(), [](const auto& a, const auto& b) {
        return std::pair(a->wanted.file->id.text, a->wanted.page) <
               std::pair(b->wanted.file->id.text, b->wanted.page);
    });
    for (std::size_t i = 0; i < byPage.size();) {
        const File& file = *byPage[i]->wanted.file;
        const int page = byPage[i]->wanted.page;
        const SheetPixels sheet(originals(file), file, page);
        for (;
             i < byPage.size() && byPage[i]->wanted.file == &file && byPage[i]->wanted.page == page;
             ++i) {
            Crop& crop = *byPage[i];
            if (!sheet.problem().isEmpty()) {
                crop.instead = sheet.problem();
                continue;
            }
            const double widest = crop.size.width() / 72 * kPixelsPerInch;
            crop.picture = sheet.part(crop.box, int(std::ceil(widest)));
            if (crop.picture.isNull())
                crop.instead = QStringLiteral("The marks lie outside the page.");
        }
    }
}

}  // namespace app::report
