#include "app/desk/look/look.h"
#include "app/desk/look/resources.h"

#include <QApplication>
#include <QFile>
#include <QFontDatabase>
#include <QFontMetricsF>
#include <QPalette>
#include <QStyle>
#include <QStyleFactory>

#include <array>
#include <cmath>
#include <utility>

namespace app::desk::look {

namespace {

constexpr const char* kThemeProperty = "lookTheme";  // the application remembers what it wears

QPalette paletteOf(const Colours& c) {
    QPalette palette;
    const auto set = [&](const QColor& colour, std::initializer_list<QPalette::ColorRole> roles) {
        for (const auto role : roles) palette.setColor(role, colour);
    };
    set(c.panel, {QPalette::Window, QPalette::Button, QPalette::Light, QPalette::Midlight});
    set(c.paper, {QPalette::Base, QPalette::ToolTipBase, QPalette::HighlightedText});
    set(report::figure::blended(c.paper, c.panel, 0.5), {QPalette::AlternateBase});
    set(c.ink, {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText});
    set(c.hairline, {QPalette::Mid, QPalette::Dark, QPalette::Shadow});
    set(c.graphite, {QPalette::PlaceholderText});
    set(c.bluePencil, {QPalette::Highlight, QPalette::Link, QPalette::LinkVisited});
    set(c.redPencil, {QPalette::BrightText});
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
        palette.setColor(QPalette::Disabled, role, c.graphite);
    return palette;
}

QString styleSheetOf(const Colours& c) {
    QFile file(QStringLiteral(":/look/desk.qss"));
    if (!file.open(QIODevice::ReadOnly))
        qFatal("the desk's style sheet is not among the resources");
    QString sheet = QString::fromUtf8(file.readAll());
    const std::array<std::pair<const char*, QColor>, 8> names{{{"@paper", c.paper},
                                                               {"@panel", c.panel},
                                                               {"@ink", c.ink},
                                                               {"@graphite", c.graphite},
                                                               {"@hairline", c.hairline},
                                                               {"@bluePencil", c.bluePencil},
                                                               {"@redPencil", c.redPencil},
                                                               {"@chosen", c.chosen}}};
    for (const auto& [name, colour] : names) sheet.replace(QLatin1String(name), colour.name());
    return sheet;
}

double pointsOf(Size size) {
    switch (size) {
        case Size::Small:
            return 9;
        case Size::Text:
            return 10;
        case Size::Heading:
            return 12;
        case Size::Title:
            return 16;
    }
    return 10;
}

bool digitsAreEquallyWide(const QFont& font) {
    const QFontMetricsF metrics(font);
    const double zero = metrics.horizontalAdvance(QLatin1Char('0'));
    for (char digit = '1'; digit <= '9'; ++digit)
        if (std::abs(metrics.horizontalAdvance(QLatin1Char(digit)) - zero) > 0.01) return false;
    return true;
}

/// Qt 6.4 cannot ask a font for its tabular figures, so a family is taken whose figures are so.
QString familyForFigures() {
    if (digitsAreEquallyWide(QApplication::font())) return QApplication::font().family();
    const QStringList installed = QFontDatabase::families();
    for (const char* family : {"DejaVu Sans", "Noto Sans", "Liberation Sans"})
        if (installed.contains(QLatin1String(family)) &&
            digitsAreEquallyWide(QFont(QLatin1String(family))))
            return QLatin1String(family);
    return QFontDatabase::systemFont(QFontDatabase::FixedFont).family();
}

}  // namespace

Theme theme() {
    return qApp != nullptr && qApp->property(kThemeProperty).toInt() == 1 ? Theme::Lamp
                                                                          : Theme::Paper;
}

QFont type(Size size) {
    QFont font = QApplication::font();
    font.setPointSizeF(pointsOf(size));
    return font;
}

QFont figures(Size size) {
    QFont font = type(size);
    font.setFamily(familyForFigures());
    return font;
}

void dress(QApplication& application, Theme theme) {
    openLookResources();
    application.setProperty(kThemeProperty, theme == Theme::Lamp ? 1 : 0);
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QApplication::setFont(type(Size::Text));
    QApplication::setPalette(paletteOf(coloursOf(theme)));
    application.setStyleSheet(styleSheetOf(coloursOf(theme)));
}

}  // namespace app::desk::look
