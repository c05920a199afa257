#include "app/desk/portfolio/card_delegate.h"

#include "app/desk/look/look.h"
#include "app/desk/portfolio/portfolio_model.h"

#include <QFontMetrics>
#include <QPainter>
#include <QPixmap>

#include <algorithm>

namespace app::desk::portfolio {

namespace {

constexpr int kMargin = 2 * look::kGrid;
constexpr int kPicture = 72;  ///< px, square kept for the picture of a source

Row::Kind kindOf(const QModelIndex& index) {
    return static_cast<Row::Kind>(index.data(PortfolioModel::KindRole).toInt());
}

int lineOf(look::Size size) {
    return QFontMetrics(look::type(size)).height();
}

/// Writes lines under each other, each shortened to the width.
class Writer {
  public:
    Writer(QPainter& painter, const QRect& within) : m_painter(painter), m_rest(within) {}

    void line(const QString& words, look::Size size, const QColor& colour) {
        if (words.isEmpty()) return;
        const QFont font = look::type(size);
        const QFontMetrics metrics(font);
        m_painter.setFont(font);
        m_painter.setPen(colour);
        m_painter.drawText(m_rest.left(), m_rest.top() + metrics.ascent(),
                           metrics.elidedText(words, Qt::ElideRight, m_rest.width()));
        m_rest.setTop(m_rest.top() + metrics.height());
    }

  private:
    QPainter& m_painter;
    QRect m_rest;
};

void paintPicture(QPainter& painter, const QRect& square, const QModelIndex& index) {
    const auto& colours = look::colours();
    const QPixmap picture = index.data(Qt::DecorationRole).value<QPixmap>();
    painter.setBrush(Qt::NoBrush);
    painter.setPen(colours.hairline);
    if (picture.isNull()) {
        painter.drawRect(square.adjusted(0, 0, -1, -1));
        if (!index.data(PortfolioModel::HasPictureRole).toBool()) {
            painter.setFont(look::type(look::Size::Small));
            painter.setPen(colours.graphite);
            painter.drawText(square, Qt::AlignCenter, CardDelegate::tr("no picture"));
        }
        return;
    }
    const QSize size = picture.size().scaled(square.size(), Qt::KeepAspectRatio);
    QRect shown(QPoint(0, 0), size);
    shown.moveCenter(square.center());
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawPixmap(shown, picture);
    painter.drawRect(shown.adjusted(0, 0, -1, -1));
}

}  // namespace

QSize CardDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const {
    const auto facts =
        static_cast<int>(index.data(PortfolioModel::FactsRole).toStringList().size());
    const int attention = index.data(PortfolioModel::AttentionRole).toString().isEmpty() ? 0 : 1;
    switch (kindOf(index)) {
        case Row::Kind::Heading:
            return {120, lineOf(look::Size::Text) + 3 * kMargin};
        case Row::Kind::Letter:
            return {120, lineOf(look::Size::Text) +
                             (facts + attention) * lineOf(look::Size::Small) + 2 * kMargin};
        case Row::Kind::Card:
            break;
    }
    const int words = lineOf(look::Size::Text) + facts * lineOf(look::Size::Small);
    return {160, std::max(kPicture, words) + 2 * kMargin};
}

void CardDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    const auto& colours = look::colours();
    painter->save();
    const QRect inner = option.rect.adjusted(kMargin, kMargin, -kMargin, -kMargin);
    if (kindOf(index) == Row::Kind::Heading) {
        QRect words = inner;
        words.setTop(option.rect.bottom() - kMargin / 2 - lineOf(look::Size::Text));
        Writer(*painter, words).line(index.data().toString(), look::Size::Text, colours.graphite);
        painter->setPen(colours.hairline);
        painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
        painter->restore();
        return;
    }
    if (option.state.testFlag(QStyle::State_Selected)) {
        painter->fillRect(option.rect, colours.chosen);
        painter->fillRect(QRect(option.rect.topLeft(), QSize(3, option.rect.height())),
                          colours.bluePencil);
    }
    QRect words = inner;
    if (kindOf(index) == Row::Kind::Card) {
        paintPicture(*painter, QRect(inner.topLeft(), QSize(kPicture, kPicture)), index);
        words.setLeft(inner.left() + kPicture + kMargin);
    }
    Writer writer(*painter, words);
    const QString code = index.data(PortfolioModel::CodeRole).toString();
    const QString title = index.data().toString();
    writer.line(code.isEmpty() ? title : code + QLatin1Char(' ') + title, look::Size::Text,
                colours.ink);
    for (const QString& fact : index.data(PortfolioModel::FactsRole).toStringList())
        writer.line(fact, look::Size::Small, colours.graphite);
    writer.line(index.data(PortfolioModel::AttentionRole).toString(), look::Size::Small,
                colours.redPencil);
    painter->restore();
}

}  // namespace app::desk::portfolio
