#include "imaging/mark/mark.h"
#include "tests/imaging/mark/drawn_sheet.h"
#include "tests/imaging/mark/trials.h"

#include <gtest/gtest.h>

#include <cmath>

namespace imaging::mark {
namespace {

using test::photographed;
using test::render;
using test::Trials;

constexpr double kStep = 15.5;
constexpr double kFirst = 12.3125;

MarkRequest patternRequest(Fit fit, double first = kFirst) {
    MarkRequest request;
    request.kind = MarkKind::Pattern;
    request.fit = fit;
    request.points = {
        {first + 0.7, 20.4}, {first + kStep - 0.9, 19.6}, {first + 15 * kStep + 1, 20}};
    return request;
}

/// Least-squares step and its claimed uncertainty from the teeth found.
std::pair<double, double> stepOf(const FittedMark& mark) {
    const auto n = static_cast<double>(mark.teeth.size());
    double mean = 0;
    for (const int k : mark.teeth) {
        mean += k / n;
    }
    double squares = 0;
    double moment = 0;
    double variance = 0;
    for (std::size_t i = 0; i < mark.teeth.size(); ++i) {
        const double off = mark.teeth[i] - mean;
        squares += off * off;
        moment += off * mark.points[i].x();
        const auto at = static_cast<Eigen::Index>(2 * i);
        variance += off * off * mark.covariance(at, at);
    }
    return {moment / squares, std::sqrt(variance) / squares};
}

/// Ruled lines 3 px wide, the fifth and the ninth missing.
bool ruled(double x, double) {
    const double k = std::round((x - kFirst) / kStep);
    return k >= 0 && k <= 15 && k != 4 && k != 8 && std::abs(x - kFirst - k * kStep) < 1.5;
}

TEST(Pattern, StepIsUnbiasedAndHonestThoughTeethAreMissing) {
    const cv::Mat clean = render(280, 40, ruled, 0.9);
    std::mt19937 random(31);
    Trials steps;
    for (int i = 0; i < 60; ++i) {
        const auto mark = fitMark(photographed(clean, 6, random), patternRequest(Fit::LineCentre));
        ASSERT_TRUE(mark) << mark.error().help;
        ASSERT_EQ(mark->teeth.size(), 14U);
        EXPECT_EQ(mark->teeth.back(), 15);
        const auto [step, u] = stepOf(*mark);
        steps.add(step - kStep, u);
    }
    EXPECT_LT(std::abs(steps.bias()), 0.002);
    EXPECT_GE(steps.coverage(), 0.85);
    EXPECT_LT(steps.rms(), 0.01);
}

TEST(Pattern, LightRunsAndEdgesAreTeethToo) {
    // Boards: dark for the first half of each step; light runs are centred a quarter step on.
    const cv::Mat clean = render(
        280, 40,
        [](double x, double) {
            const double phase = std::fmod(x - 4.0625 + 20 * kStep, kStep);
            return phase < 0.5 * kStep;
        },
        0.9);
    std::mt19937 random(2);
    const auto image = photographed(clean, 4, random);
    const auto light = fitMark(image, patternRequest(Fit::LineCentre, 4.0625 + 0.75 * kStep));
    ASSERT_TRUE(light) << light.error().help;
    EXPECT_EQ(light->teeth.size(), 16U);
    EXPECT_NEAR(stepOf(*light).first, kStep, 0.01);
    EXPECT_NEAR(light->points[0].x(), 4.0625 + 0.75 * kStep, 0.1);
    const auto edges = fitMark(image, patternRequest(Fit::Edge, 4.0625 + kStep));
    ASSERT_TRUE(edges) << edges.error().help;
    EXPECT_NEAR(stepOf(*edges).first, kStep, 0.01);
}

TEST(Pattern, EmptyPaperAndRowsWithoutStepsAreRefused) {
    const raster::GreyImage paper(cv::Mat(40, 280, CV_8U, cv::Scalar(200)));
    EXPECT_EQ(fitMark(paper, patternRequest(Fit::LineCentre)).error().code, Code::NoFit);
    auto request = patternRequest(Fit::LineCentre);
    request.points[1] = request.points[0];
    EXPECT_EQ(fitMark(paper, request).error().code, Code::BadValue);
}

}  // namespace
}  // namespace imaging::mark
