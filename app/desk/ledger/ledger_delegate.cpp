#include "app/desk/ledger/ledger_delegate.h"

#include "app/desk/ledger/aligned_figure.h"
#include "app/desk/ledger/ledger_model.h"
#include "app/desk/look/look.h"
#include "app/desk/look/wrapped_text.h"
#include "app/report/figure/grade_mark.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QHeaderView>
#include <QPainter>
#include <QTreeView>

#include <cmath>

namespace app::desk::ledger {

namespace {

using look::kGrid;

constexpr int kLine = 6 * kGrid;
constexpr int kMark = 3 * kGrid;
constexpr int kBar = 3 * kGrid;

int linesHigh(const QFont& font, int lines) {
    return static_cast<int>(std::ceil(lines * QFontMetricsF(font).lineSpacing())) + 2 * kGrid;
}

/// Names that are too long for their column take a second line.
int nameHeight(const QModelIndex& index, const QWidget* widget) {
    const auto* view = qobject_cast<const QTreeView*>(widget);
    if (view == nullptr) return kLine;
    int left = view->columnWidth(LedgerModel::Name) - view->indentation() - 2 * kGrid;
    for (QModelIndex at = index.parent(); at.isValid(); at = at.parent())
        left -= view->indentation();
    const QFont font = look::type(look::Size::Text);
    const double wide = QFontMetricsF(font).horizontalAdvance(index.data().toString());
    return wide <= left ? kLine : linesHigh(font, 2);
}

double roomForPart() {
    static const QString kWidest = QStringLiteral(" 31⁄32″");
    return QFontMetricsF(look::figures(look::Size::Text)).horizontalAdvance(kWidest);
}

void drawFigure(QPainter& painter, const QRectF& box, const QString& figure, const QColor& pencil) {
    const auto [whole, part] = alignedFigure(figure);
    const QFontMetricsF metrics(painter.font());
    // The common line of all figures of the column, unless this one's part needs more room.
    const double line =
        box.right() - std::max(roomForPart(), metrics.horizontalAdvance(part) + kGrid);
    painter.setPen(pencil);
    painter.drawText(QRectF(box.left(), box.top(), line - box.left(), box.height()),
                     Qt::AlignRight | Qt::AlignVCenter | Qt::TextDontClip, whole);
    painter.drawText(QRectF(line, box.top(), box.right() - line, box.height()),
                     Qt::AlignLeft | Qt::AlignVCenter | Qt::TextDontClip, part);
}

void drawWords(QPainter& painter, const QRectF& box, const QString& words, const QColor& pencil) {
    painter.setPen(pencil);
    painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetricsF(painter.font()).elidedText(words, Qt::ElideRight, box.width()));
}

void drawSign(QPainter& painter, const QRectF& box, const LedgerEntry& entry) {
    const auto& colours = look::colours();
    const QRectF mark(box.left(), box.center().y() - kMark / 2.0, kMark, kMark);
    report::figure::drawGradeMark(painter, mark, entry.grade, colours.ink, colours.paper);
    QRectF letter(mark.right() + kGrid, box.top(), 3 * kGrid, box.height());
    drawWords(painter, letter, report::figure::gradeLetter(entry.grade), colours.ink);
    using evidence::record::Grade;
    if (entry.restsOnGuess && entry.grade != Grade::OurCall)
        report::figure::drawGradeMark(painter,
                                      QRectF(letter.right(), mark.top() + 2, kMark - 4, kMark - 4),
                                      Grade::OurCall, colours.ink, colours.paper);
}

void drawMargin(QPainter& painter, QRectF box, const Margin& margin) {
    const auto& colours = look::colours();
    painter.setPen(margin.attention ? colours.redPencil : colours.graphite);
    if (margin.more > 0) {
        const QString more = QStringLiteral("+%1").arg(margin.more);
        const double wide = QFontMetricsF(painter.font()).horizontalAdvance(more);
        painter.drawText(box, Qt::AlignRight | Qt::AlignVCenter, more);
        box.setRight(box.right() - wide - 2 * kGrid);
    }
    look::drawWrapped(painter, box, margin.words, 2);
}

/// Where the column of bars has no room, they stand below the ± figures.
bool drawsBarBelow(const LedgerEntry& entry, const QWidget* widget) {
    const auto* view = qobject_cast<const QTreeView*>(widget);
    return entry.bar && view != nullptr && view->isColumnHidden(LedgerModel::Interval);
}

/// The two sides of a lopsided interval stand over each other.
int linesOf(const QString& spread) {
    return spread.contains(QLatin1Char('+')) ? 2 : 1;
}

void drawBar(QPainter& painter, const QRectF& box, const LedgerEntry& entry) {
    if (entry.bar && !entry.setAside)
        report::figure::drawIntervalBar(painter, box, *entry.bar, entry.tolerance,
                                        look::figureStyle().palette);
}

/// A particular's words may run on over the columns of figures that it has no use for.
QRectF overFigures(const QRectF& box, const QWidget* widget) {
    const auto* view = qobject_cast<const QTreeView*>(widget);
    if (view == nullptr) return box;
    return box.adjusted(0, 0,
                        view->columnWidth(LedgerModel::Spread) +
                            view->columnWidth(LedgerModel::Interval) - 2 * kGrid,
                        0);
}

}  // namespace

int LedgerDelegate::widthOf(int column) {
    const auto wide = [](look::Size size, const char* widest) {
        const QFontMetricsF metrics(look::figures(size));
        return static_cast<int>(std::ceil(metrics.horizontalAdvance(QString::fromUtf8(widest)))) +
               2 * kGrid;
    };
    switch (column) {
        case LedgerModel::Code:
            return wide(look::Size::Small, "D888");
        case LedgerModel::Value:
            return wide(look::Size::Text, "88′-8 31⁄32″");
        case LedgerModel::Spread:
            return wide(look::Size::Small, "± 0.888 in");
        case LedgerModel::Interval:
            return 16 * kGrid;
        case LedgerModel::Sign:
            return kMark + 8 * kGrid;
        default:
            return 0;
    }
}

void LedgerDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                           const QModelIndex& index) const {
    QStyleOptionViewItem bare(option);
    initStyleOption(&bare, index);
    bare.text.clear();
    const QStyle* style = option.widget ? option.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &bare, painter, option.widget);
    const LedgerEntry* entry = LedgerModel::entryAt(index);
    if (entry == nullptr) return;
    const auto& colours = look::colours();
    const QColor ink = entry->setAside ? colours.graphite : colours.ink;
    const QRectF box = QRectF(option.rect).adjusted(kGrid, 0, -kGrid, 0);
    painter->save();
    painter->setFont(look::type(look::Size::Text));
    switch (index.column()) {
        case LedgerModel::Code:
            painter->setFont(look::figures(look::Size::Small));
            drawWords(*painter, box, entry->code, colours.graphite);
            break;
        case LedgerModel::Name: {
            QFont font = painter->font();
            font.setBold(entry->kind == EntryKind::Component);
            font.setStrikeOut(entry->setAside);
            painter->setFont(font);
            painter->setPen(ink);
            look::drawWrapped(*painter, box, entry->name, 2);
            break;
        }
        case LedgerModel::Value:
            if (entry->kind == EntryKind::Dimension && entry->bar) {
                painter->setFont(look::figures(look::Size::Text));
                drawFigure(*painter, box, entry->value, ink);
            } else {
                drawWords(*painter, overFigures(box, option.widget), entry->value,
                          entry->kind == EntryKind::Particular ? ink : colours.graphite);
            }
            break;
        case LedgerModel::Spread: {
            const bool both = drawsBarBelow(*entry, option.widget);
            painter->setFont(look::figures(look::Size::Small));
            painter->setPen(colours.graphite);
            look::drawWrapped(*painter, both ? box.adjusted(0, 0, 0, -kBar) : box, entry->spread,
                              linesOf(entry->spread));
            if (both)
                drawBar(*painter, QRectF(box.left(), box.bottom() - kBar - 2, box.width(), kBar),
                        *entry);
            break;
        }
        case LedgerModel::Interval:
            drawBar(*painter, QRectF(box.left(), box.center().y() - 8, box.width(), 16), *entry);
            break;
        case LedgerModel::Sign:
            if (entry->kind != EntryKind::Component) drawSign(*painter, box, *entry);
            break;
        case LedgerModel::Margin:
            painter->setFont(look::type(look::Size::Small));
            drawMargin(*painter, box, entry->margin);
            break;
        default:
            break;
    }
    painter->restore();
}

QSize LedgerDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const auto* entry = LedgerModel::entryAt(index);
    if (entry == nullptr) return {0, kLine};
    const QFont small = look::type(look::Size::Small);
    int height = kLine;
    switch (index.column()) {
        case LedgerModel::Name:
            height = nameHeight(index, option.widget);
            break;
        case LedgerModel::Spread:
            height = std::max(kLine, linesHigh(small, linesOf(entry->spread)) +
                                         (drawsBarBelow(*entry, option.widget) ? kBar : 0));
            break;
        case LedgerModel::Margin:
            if (entry->kind != EntryKind::Component && !entry->margin.words.isEmpty())
                height = linesHigh(small, 2);
            break;
        default:
            break;
    }
    return {widthOf(index.column()), height};
}

}  // namespace app::desk::ledger
