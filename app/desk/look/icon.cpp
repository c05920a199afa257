#include "app/desk/look/look.h"
#include "app/desk/look/resources.h"

#include <QFile>
#include <QIconEngine>
#include <QPainter>
#include <QPixmap>
#include <QSvgRenderer>

#include <algorithm>
#include <utility>

namespace app::desk::look {

namespace {

/// Draws the lines in the colours of the moment, so that icons follow the theme.
class LineIcon : public QIconEngine {
  public:
    explicit LineIcon(QByteArray lines) : m_lines(std::move(lines)) {}

    void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode,
               QIcon::State state) override {
        QByteArray lines = m_lines;
        lines.replace("currentColor", colourOf(mode, state).name().toLatin1());
        QSvgRenderer renderer(lines);
        const int side = std::min(rect.width(), rect.height());
        QRect square(0, 0, side, side);
        square.moveCenter(rect.center());
        renderer.render(painter, square);
    }

    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
        QPixmap pixmap(size);
        pixmap.fill(Qt::transparent);
        QPainter painter(&pixmap);
        paint(&painter, QRect(QPoint(), size), mode, state);
        return pixmap;
    }

    [[nodiscard]] QIconEngine* clone() const override { return new LineIcon(m_lines); }

  private:
    static QColor colourOf(QIcon::Mode mode, QIcon::State state) {
        if (mode == QIcon::Disabled) return colours().hairline;
        return state == QIcon::On ? colours().bluePencil : colours().ink;
    }

    QByteArray m_lines;
};

}  // namespace

QStringList iconNames() {
    return {QStringLiteral("look"),        QStringLiteral("scale"),     QStringLiteral("measure"),
            QStringLiteral("circle"),      QStringLiteral("glass"),     QStringLiteral("pin"),
            QStringLiteral("guess"),       QStringLiteral("rule"),      QStringLiteral("reading"),
            QStringLiteral("dimension"),   QStringLiteral("report"),    QStringLiteral("portfolio"),
            QStringLiteral("undo"),        QStringLiteral("redo"),      QStringLiteral("whole"),
            QStringLiteral("nearer"),      QStringLiteral("farther"),   QStringLiteral("take-in"),
            QStringLiteral("print-scale"), QStringLiteral("set-aside"), QStringLiteral("filter"),
            QStringLiteral("lamp")};
}

QIcon icon(const QString& name) {
    openLookResources();
    QFile file(QStringLiteral(":/look/icons/%1.svg").arg(name));
    if (!file.open(QIODevice::ReadOnly)) qFatal("no icon is called %s", qPrintable(name));
    return QIcon(new LineIcon(file.readAll()));
}

}  // namespace app::desk::look
