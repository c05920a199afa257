#include "app/desk/look/look.h"

#include <QApplication>
#include <QImage>
#include <QPixmap>
#include <gtest/gtest.h>

#include <set>

namespace {

using app::desk::look::icon;
using app::desk::look::iconNames;
using app::desk::look::Theme;

QImage drawn(const QString& name, int side, QIcon::Mode mode = QIcon::Normal,
             QIcon::State state = QIcon::Off) {
    return icon(name)
        .pixmap(QSize(side, side), mode, state)
        .toImage()
        .convertToFormat(QImage::Format_ARGB32);
}

/// Share of the picture that is covered, 0 … 1.
double covered(const QImage& image) {
    double sum = 0;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) sum += qAlpha(image.pixel(x, y)) / 255.0;
    return sum / (image.width() * image.height());
}

/// The colour where the lines cover wholly.
QColor inkOf(const QImage& image) {
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            if (qAlpha(image.pixel(x, y)) == 255) return QColor(image.pixel(x, y));
    return {};
}

TEST(Icons, EveryOneRendersAsLines) {
    for (const QString& name : iconNames()) {
        const double share = covered(drawn(name, 80));
        EXPECT_GT(share, 0.06) << name.toStdString();
        EXPECT_LT(share, 0.45) << name.toStdString();
    }
}

TEST(Icons, StayInsideTheirGrid) {
    for (const QString& name : iconNames()) {
        const QImage image = drawn(name, 80);
        for (int i = 0; i < 80; ++i)
            for (const auto& [x, y] : {std::pair{i, 0}, {i, 79}, {0, i}, {79, i}})
                EXPECT_EQ(qAlpha(image.pixel(x, y)), 0) << name.toStdString() << " is cut off";
    }
}

TEST(Icons, DifferFromEachOther) {
    std::set<QByteArray> pictures;
    for (const QString& name : iconNames()) {
        const QImage image = drawn(name, 20);
        const QByteArray bits(reinterpret_cast<const char*>(image.constBits()),
                              static_cast<qsizetype>(image.sizeInBytes()));
        EXPECT_TRUE(pictures.insert(bits).second) << name.toStdString();
    }
}

TEST(Icons, AreDrawnInTheColoursOfTheMoment) {
    const QIcon dividers = icon(QStringLiteral("measure"));
    for (const Theme theme : {Theme::Lamp, Theme::Paper}) {
        app::desk::look::dress(*qApp, theme);
        const auto& colours = app::desk::look::coloursOf(theme);
        const auto ink = [&](QIcon::Mode mode, QIcon::State state) {
            return inkOf(dividers.pixmap(QSize(80, 80), mode, state).toImage());
        };
        EXPECT_EQ(ink(QIcon::Normal, QIcon::Off), colours.ink);
        EXPECT_EQ(ink(QIcon::Normal, QIcon::On), colours.bluePencil);
        EXPECT_NE(ink(QIcon::Disabled, QIcon::Off), colours.ink);
    }
}

TEST(Icons, AnUnknownNameIsABrokenPromise) {
    EXPECT_DEATH((void)icon(QStringLiteral("no such thing")), "");
}

}  // namespace
