#include "imaging/mark/mark.h"
#include "tests/imaging/mark/drawn_sheet.h"
#include "tests/imaging/mark/trials.h"

#include <gtest/gtest.h>

namespace imaging::mark {
namespace {

using test::photographed;
using test::render;
using test::Trials;

double uAlong(const FittedMark& mark) {
    const PixelPoint along = (mark.points[1] - mark.points[0]).normalized();
    Eigen::RowVector4d by;
    by << -along.transpose(), along.transpose();
    return std::sqrt((by * mark.covariance * by.transpose())(0));
}

double length(const FittedMark& mark) {
    return (mark.points[1] - mark.points[0]).norm();
}

/// A plate between x = left(y) and x = right(y), slanted by `lean` px per px.
struct Plate {
    double left;
    double right;
    double lean;
    [[nodiscard]] bool holds(double x, double y) const {
        const double shift = lean * (y - 40);
        return x > left + shift && x < right - shift;
    }
};

TEST(Segment, CalipersMeasureAlongTheSegmentAlsoOnSlantedEdges) {
    for (const double lean : {0.0, 0.217, -0.437}) {
        const Plate plate{30.375, 118.75, lean};
        const cv::Mat clean = render(
            150, 80, [&](double x, double y) { return plate.holds(x, y); }, 1.1);
        std::mt19937 random(31);
        std::uniform_real_distribution<double> wobble(-3, 3);
        Trials trials;
        for (int i = 0; i < 100; ++i) {
            const auto image = photographed(clean, 6, random);
            MarkRequest request;
            request.kind = MarkKind::Segment;
            request.fit = Fit::Edge;
            request.points = {{plate.left + wobble(random), 40},
                              {plate.right + wobble(random), 40}};
            const auto mark = fitMark(image, request);
            ASSERT_TRUE(mark) << mark.error().help;
            EXPECT_DOUBLE_EQ(mark->points[0].y(), 40);
            trials.add(length(*mark) - (plate.right - plate.left), uAlong(*mark));
        }
        EXPECT_LT(std::abs(trials.bias()), 0.02) << lean;
        EXPECT_GE(trials.coverage(), 0.90) << lean;
        // Two ends of 11 rows each; a slanted edge is steeper to find along the segment.
        const double bound = std::sqrt(2.0) *
                             test::stepBound(6.0 / 120, std::sqrt(1.21 + 1.0 / 12), 11) *
                             std::sqrt(std::sqrt(1 + lean * lean));
        EXPECT_LT(trials.rms(), 1.4 * bound) << lean << " bound " << bound;
    }
}

TEST(Segment, EndsGoToTheMiddleOfDrawnLines) {
    // Two witness lines 3 px wide, 80.5 px apart.
    const auto shape = [](double x, double y) {
        return (std::abs(x - 25.25 - 0.1 * (y - 30)) < 1.5 || std::abs(x - 105.75) < 1.5);
    };
    const cv::Mat clean = render(130, 60, shape, 0.8);
    std::mt19937 random(3);
    Trials trials;
    for (int i = 0; i < 60; ++i) {
        const auto image = photographed(clean, 5, random);
        MarkRequest request;
        request.kind = MarkKind::Segment;
        request.fit = Fit::LineCentre;
        request.points = {{27, 30}, {103.5, 30}};
        const auto mark = fitMark(image, request);
        ASSERT_TRUE(mark) << mark.error().help;
        trials.add(length(*mark) - 80.5, uAlong(*mark));
    }
    EXPECT_LT(std::abs(trials.bias()), 0.02);
    EXPECT_GE(trials.coverage(), 0.88);
}

TEST(Segment, EdgeOfAThinLineIsItsNearSide) {
    const auto shape = [](double x, double) { return std::abs(x - 40) < 2 || x > 100; };
    const cv::Mat clean = render(130, 60, shape, 0.8);
    std::mt19937 random(4);
    const auto image = photographed(clean, 2, random);
    MarkRequest request;
    request.kind = MarkKind::Segment;
    request.fit = Fit::Edge;
    request.points = {{43, 30}, {99, 30}};
    const auto mark = fitMark(image, request);
    ASSERT_TRUE(mark) << mark.error().help;
    EXPECT_NEAR(mark->points[0].x(), 42, 0.05);
    EXPECT_NEAR(mark->points[1].x(), 100, 0.05);
}

TEST(Segment, NoEdgeNearAnEndIsRefusedNamingTheEnd) {
    const cv::Mat clean = render(
        150, 80, [](double x, double) { return x > 40; }, 1);
    std::mt19937 random(8);
    const auto image = photographed(clean, 5, random);
    MarkRequest request;
    request.kind = MarkKind::Segment;
    request.fit = Fit::Edge;
    request.points = {{41, 40}, {110, 40}};
    const auto mark = fitMark(image, request);
    ASSERT_FALSE(mark);
    EXPECT_EQ(mark.error().code, Code::NoFit);
    EXPECT_EQ(mark.error().place, "/points/1");
}

}  // namespace
}  // namespace imaging::mark
