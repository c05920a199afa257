#include "imaging/frame/solve_lens.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace imaging::frame {
namespace {

using evidence::frame::Lens;
using mark::PixelPoint;

constexpr double kWidth = 1280;
constexpr double kHeight = 960;

Lens lensOf(double k1, double k2) {
    Lens lens;
    lens.unit = 0.5 * std::hypot(kWidth, kHeight);
    lens.parameters << 652, 471, k1, k2;
    return lens;
}

/// The pixel that the lens puts a straight place at (fixed point of the inverse).
PixelPoint seen(const Lens& lens, const PixelPoint& straight) {
    PixelPoint p = straight;
    for (int i = 0; i < 200; ++i) {
        const auto s = evidence::frame::straightened(lens, p);
        p += s.byPixel.inverse() * (straight - s.at);
    }
    return p;
}

/// Six lines across and six down, 20 points each, with pixel noise.
std::vector<StraightLine> lines(const Lens& lens, double noise, std::mt19937& random) {
    std::normal_distribution<double> error(0, noise);
    std::vector<StraightLine> all;
    for (int k = 0; k < 6; ++k) {
        for (const bool level : {true, false}) {
            StraightLine line;
            for (int i = 0; i < 20; ++i) {
                const double along = 0.06 + 0.88 * i / 19;
                const double across = 0.06 + 0.88 * k / 5;
                const PixelPoint straight((level ? along : across) * kWidth,
                                          (level ? across : along) * kHeight + 8.0 * k);
                line.points.push_back(seen(lens, straight) +
                                      PixelPoint(error(random), error(random)));
                line.covariances.emplace_back(Eigen::Matrix2d::Identity() * noise * noise);
            }
            all.push_back(std::move(line));
        }
    }
    return all;
}

TEST(Lens, OneTermIsFoundAndTheSecondNotInvented) {
    std::mt19937 random(5);
    double squares = 0;
    double centre = 0;
    int second = 0;
    constexpr int kTrials = 40;
    for (int trial = 0; trial < kTrials; ++trial) {
        const auto fit = solveLens(lines(lensOf(0.12, 0), 0.3, random), kWidth, kHeight);
        ASSERT_TRUE(fit) << fit.error().help;
        if (fit->lens.parameters(3) != 0) {
            ++second;
            continue;
        }
        const double error = fit->lens.parameters(2) - 0.12;
        // Its u is four times what the pixels say, as pictures of boards have shown.
        squares += std::pow(error / (std::sqrt(fit->covariance(2, 2)) / 4), 2) / kTrials;
        const double off = fit->lens.parameters(0) - 652;
        centre += off * off / fit->covariance(0, 0) / kTrials;
    }
    EXPECT_LE(second, 1);
    EXPECT_NEAR(std::sqrt(squares), 1, 0.35);
    EXPECT_NEAR(std::sqrt(centre), 1, 0.35);
}

TEST(Lens, TwoTermsWhereTheLinesDemandThem) {
    std::mt19937 random(6);
    const Lens truth = lensOf(0.18, 0.09);
    const auto fit = solveLens(lines(truth, 0.2, random), kWidth, kHeight);
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->lens.parameters(2), 0.18, 0.02);
    EXPECT_NEAR(fit->lens.parameters(3), 0.09, 0.03);
    // What counts: where a corner of the picture is taken to.
    const PixelPoint corner(80, 60);
    EXPECT_LT((evidence::frame::straightened(fit->lens, corner).at -
               evidence::frame::straightened(truth, corner).at)
                  .norm(),
              2);
}

TEST(Lens, LinesThroughTheMiddleOrTooShortSayNothing) {
    StraightLine through;
    for (int i = 0; i < 20; ++i) {
        through.points.emplace_back(100 + 50.0 * i, 479.5);
        through.covariances.emplace_back(Eigen::Matrix2d::Identity() * 0.09);
    }
    EXPECT_EQ(solveLens(std::vector<StraightLine>{through}, kWidth, kHeight).error().code,
              Code::NoSolution);
    StraightLine shortOne;
    for (int i = 0; i < 5; ++i) {
        shortOne.points.emplace_back(200 + 4.0 * i, 200);
        shortOne.covariances.emplace_back(Eigen::Matrix2d::Identity() * 0.09);
    }
    EXPECT_EQ(solveLens(std::vector<StraightLine>{shortOne}, kWidth, kHeight).error().code,
              Code::NoSolution);
    EXPECT_EQ(solveLens({}, kWidth, kHeight).error().code, Code::NoSolution);
}

}  // namespace
}  // namespace imaging::frame
