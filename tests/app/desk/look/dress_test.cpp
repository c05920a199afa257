#include "app/desk/look/look.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QLabel>
#include <QPalette>
#include <QStyle>
#include <gtest/gtest.h>

#include <cmath>

namespace {

namespace look = app::desk::look;
using look::Theme;

constexpr std::array kThemes{Theme::Paper, Theme::Lamp};

/// WCAG 2.1, "relative luminance" and "contrast ratio".
double luminance(const QColor& colour) {
    const auto linear = [](double v) {
        return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
    const double light = std::max(luminance(a), luminance(b));
    const double dark = std::min(luminance(a), luminance(b));
    return (light + 0.05) / (dark + 0.05);
}

TEST(Colours, CanBeReadOnPaperAndPanel) {
    for (const Theme theme : kThemes) {
        const auto& c = look::coloursOf(theme);
        for (const QColor& ground : {c.paper, c.chosen}) {
            EXPECT_GT(contrast(c.ink, ground), 7.0);  // WCAG 2.1, 1.4.6
            EXPECT_GT(contrast(c.redPencil, ground), 4.0);
        }
        EXPECT_GT(contrast(c.graphite, c.paper), 4.5);  // WCAG 2.1, 1.4.3
        EXPECT_GT(contrast(c.bluePencil, c.paper), 4.5);
        EXPECT_GT(contrast(c.redPencil, c.paper), 4.5);
        EXPECT_GT(contrast(c.graphite, c.panel), 4.0);  // as large or bold words
        EXPECT_GT(contrast(c.ink, c.panel), 7.0);
    }
}

TEST(Dress, GivesTheApplicationTheThemesColours) {
    for (const Theme theme : kThemes) {
        look::dress(*qApp, theme);
        const auto& c = look::coloursOf(theme);
        EXPECT_EQ(look::theme(), theme);
        EXPECT_EQ(look::colours().paper, c.paper);
        EXPECT_EQ(QApplication::palette().color(QPalette::Base), c.paper);
        EXPECT_EQ(QApplication::palette().color(QPalette::Window), c.panel);
        EXPECT_EQ(QApplication::palette().color(QPalette::Text), c.ink);
        EXPECT_EQ(QApplication::palette().color(QPalette::Highlight), c.bluePencil);
        EXPECT_EQ(look::figureStyle().palette.paper, c.paper);
        EXPECT_EQ(look::figureStyle().palette.redPencil, c.redPencil);
    }
}

TEST(Dress, LeavesNoNameOfTheStyleSheetOpen) {
    look::dress(*qApp, Theme::Paper);
    EXPECT_FALSE(qApp->styleSheet().isEmpty());
    EXPECT_FALSE(qApp->styleSheet().contains(QLatin1Char('@')));
    EXPECT_FALSE(qApp->styleSheet().contains(QStringLiteral("gradient(")));
}

TEST(Dress, WritesInTheAskedPencil) {
    look::dress(*qApp, Theme::Paper);
    QLabel label(QStringLiteral("settle first"));
    label.setProperty("pencil", "red");
    label.ensurePolished();
    EXPECT_EQ(label.palette().color(QPalette::WindowText), look::coloursOf(Theme::Paper).redPencil);
}

TEST(Type, HasTheFourSizes) {
    look::dress(*qApp, Theme::Paper);
    EXPECT_EQ(look::type(look::Size::Small).pointSizeF(), 9);
    EXPECT_EQ(look::type(look::Size::Text).pointSizeF(), 10);
    EXPECT_EQ(look::type(look::Size::Heading).pointSizeF(), 12);
    EXPECT_EQ(look::type(look::Size::Title).pointSizeF(), 16);
    EXPECT_EQ(QApplication::font().pointSizeF(), 10);
}

TEST(Type, FiguresAreEquallyWide) {
    const QFontMetricsF metrics(look::figures(look::Size::Small));
    for (char digit = '1'; digit <= '9'; ++digit)
        EXPECT_NEAR(metrics.horizontalAdvance(QLatin1Char(digit)),
                    metrics.horizontalAdvance(QLatin1Char('0')), 0.01);
}

}  // namespace
