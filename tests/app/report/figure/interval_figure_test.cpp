#include "app/report/figure/interval_figure.h"

#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

namespace {

using app::report::figure::FigurePalette;
using app::report::figure::FigureStyle;
using app::report::figure::IntervalPlot;
using app::report::figure::IntervalRow;
using evidence::record::Grade;

IntervalRow row(double value, double half) {
    return {QStringLiteral("stated"), value, value - half, value + half, Grade::Figured};
}

QImage barOf(const IntervalRow& interval, std::optional<double> tolerance) {
    QImage image(120, 20, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    app::report::figure::drawIntervalBar(painter, QRectF(0, 2, 120, 16), interval, tolerance,
                                         FigurePalette{});
    return image;
}

/// Painted pixels of the middle row of the picture.
int inkAcross(const QImage& image) {
    int ink = 0;
    for (int x = 0; x < image.width(); ++x)
        ink += image.pixelColor(x, image.height() / 2) != QColor(Qt::white) ? 1 : 0;
    return ink;
}

bool showsRed(const QImage& image) {
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
            const QColor c = image.pixelColor(x, y);
            if (c.red() > c.green() + 60 && c.red() > c.blue() + 60) return true;
        }
    return false;
}

TEST(IntervalBar, IsAsWideAsTheIntervalAgainstTheTolerance) {
    // The gap is 60 of 120 px wide for ± 0.25: ± 0.125 takes 30.
    EXPECT_NEAR(inkAcross(barOf(row(10, 0.125), 0.25)), 30 + 2 * 2, 4);
    EXPECT_NEAR(inkAcross(barOf(row(10, 0.0625), 0.25)), 15 + 2 * 2, 4);
}

TEST(IntervalBar, ReddensOnlyWhereTheToleranceIsTooTight) {
    EXPECT_FALSE(showsRed(barOf(row(10, 0.125), 0.25)));
    EXPECT_TRUE(showsRed(barOf(row(10, 0.5), 0.25)));
}

TEST(IntervalBar, DrawsNothingWithoutAValue) {
    EXPECT_EQ(inkAcross(barOf({}, 0.25)), 0);
}

TEST(IntervalPlot, GrowsWithItsRows) {
    IntervalPlot plot;
    plot.readings = {row(10, 1), row(11, 1)};
    const double two = app::report::figure::intervalPlotHeight(plot, FigureStyle{});
    plot.readings.push_back(row(12, 1));
    EXPECT_GT(app::report::figure::intervalPlotHeight(plot, FigureStyle{}), two);
}

TEST(IntervalPlot, DrawsTheRuledValueWhereItLies) {
    IntervalPlot plot;
    plot.readings = {row(10, 1), row(12, 1)};
    plot.ruled = 13;  // the highest bound, so at the right
    QImage image(400, 120, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    const FigureStyle style;
    app::report::figure::drawIntervalPlot(painter, QRectF(0, 0, 400, 120), plot, style);
    painter.end();
    int at = -1;
    for (int x = 0; x < 400; ++x) {
        const QColor c = image.pixelColor(x, 2);
        if (c.blue() > c.red() + 25) at = x;
    }
    EXPECT_GT(at, 330);
}

}  // namespace
