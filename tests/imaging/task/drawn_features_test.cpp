#include "evidence-core/frame/plane_map.h"
#include "imaging/mark/mark.h"
#include "imaging/task/measure.h"
#include "tests/imaging/mark/drawn_sheet.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>

#include <cmath>
#include <numbers>

/// Drawn pictures with known truth through the whole way of `measure`.
namespace imaging::task {
namespace {

using evidence::frame::PlaneMap;
using mark::PixelPoint;
using nlohmann::json;

std::filesystem::path saved(const cv::Mat& clean, double noise, const char* name) {
    cv::Mat grain(clean.size(), CV_32F);
    cv::RNG random(41);
    random.fill(grain, cv::RNG::NORMAL, 0, noise);
    cv::Mat eight;
    cv::Mat(clean + grain).convertTo(eight, CV_8U);
    const auto path = std::filesystem::path(testing::TempDir()) / name;
    cv::imwrite(path.string(), eight);
    return path;
}

json answered(const std::filesystem::path& image, const json& task) {
    const auto text = measure(image, task.dump());
    EXPECT_TRUE(text) << text.error().place << ": " << text.error().help;
    return text ? json::parse(*text) : json();
}

/// An oblique plane: 0.05 in per px at the middle.
PlaneMap oblique() {
    PlaneMap map;
    map.centre = {150, 120};
    map.unit = 120;
    map.parameters << 0.35, -0.12, 6, 0.4, -0.2, 7.5, 10, 8;
    return map;
}

/// The pixel of a place on the plane.
PixelPoint pixelOf(const PlaneMap& map, const PixelPoint& place) {
    const Eigen::Vector3d x = map.matrix().inverse() * place.homogeneous();
    return x.hnormalized();
}

TEST(DrawnFeatures, AWheelSeenAtAnAngleHasItsDiameterAndItsCentre) {
    const PlaneMap map = oblique();
    const PixelPoint centre(10.4, 8.3);
    constexpr double kRadius = 3.1;
    const cv::Mat clean = mark::test::render(
        300, 240,
        [&](double x, double y) {
            const auto place = evidence::frame::carried(map, {x, y});
            return place && (place->at - centre).norm() < kRadius;
        },
        1.0);
    json task = {{"marks", json::array()}, {"frame", {{"model", "plane"}}}};
    std::vector<PixelPoint> known;
    for (const PixelPoint& p : {PixelPoint(15, 12), PixelPoint(285, 20), PixelPoint(280, 225),
                                PixelPoint(20, 230), PixelPoint(150, 8), PixelPoint(140, 232)}) {
        known.push_back(evidence::frame::carried(map, p)->at);
    }
    for (std::size_t i = 0; i < known.size(); ++i) {
        const PixelPoint p = pixelOf(map, known[i]);
        const std::string id = "p" + std::to_string(i);
        task["marks"].push_back({{"id", id},
                                 {"kind", "point"},
                                 {"points", json::array({json::array({p.x(), p.y()})})},
                                 {"u_px", 0.05}});
        task["frame"]["points"].push_back({{"mark", id}, {"at", {known[i].x(), known[i].y()}}});
    }
    json rim = json::array();
    for (int i = 0; i < 7; ++i) {
        const double t = 0.2 + i * 2 * std::numbers::pi / 7;
        const PixelPoint p =
            pixelOf(map, centre + 1.03 * kRadius * PixelPoint(std::cos(t), std::sin(t)));
        rim.push_back({p.x(), p.y()});
    }
    task["marks"].push_back(
        {{"id", "wheel"}, {"kind", "circle"}, {"points", rim}, {"fit", "edge"}});
    task["measure"] = {
        {{"id", "d"}, {"mark", "wheel"}, {"quantity", "diameter"}},
        {{"id", "c"}, {"between", json::array({"wheel", "p0"})}, {"quantity", "length"}}};
    const json answer = answered(saved(clean, 4, "wheel.png"), task);
    const auto near = [&](const json& result, double truth) {
        EXPECT_NEAR(result["value"].get<double>(), truth, 0.01);
        EXPECT_LE(result["low95"].get<double>(), truth);
        EXPECT_GE(result["high95"].get<double>(), truth);
    };
    near(answer["results"][0], 2 * kRadius);
    near(answer["results"][1], (centre - known[0]).norm());
}

TEST(DrawnFeatures, PitchAndArcLengthThroughAPrint) {
    const PixelPoint centre(150, 300);
    constexpr double kRadius = 220.4;
    constexpr double kStep = 15.5;
    const cv::Mat clean = mark::test::render(
        300, 240,
        [&](double x, double y) {
            const double k = std::round((x - 20) / kStep);
            const bool tooth = y > 170 && k >= 0 && k <= 16 && std::abs(x - 20 - k * kStep) < 1.5;
            return tooth ||
                   (y < 160 && std::abs((PixelPoint(x, y) - centre).norm() - kRadius) < 1.5);
        },
        0.9);
    json way = json::array();
    for (const double t : {-2.1, -1.57, -1.05}) {
        way.push_back({centre.x() + kRadius * std::cos(t), centre.y() + kRadius * std::sin(t)});
    }
    const json task = {
        {"marks",
         {{{"id", "row"},
           {"kind", "pattern"},
           {"points", {{20.5, 200}, {35, 200}, {267, 200}}},
           {"fit", "line-centre"}},
          {{"id", "arc"}, {"kind", "curve"}, {"points", way}, {"fit", "line-centre"}}}},
        {"frame",
         {{"model", "printed"}, {"print", {{"dpi", 100}, {"drawn_scale", 1}, {"u_relative", 0}}}}},
        {"measure",
         {{{"id", "p"}, {"mark", "row"}, {"quantity", "pitch"}},
          {{"id", "l"}, {"mark", "arc"}, {"quantity", "length"}}}}};
    const json answer = answered(saved(clean, 5, "row_and_arc.png"), task);
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), kStep / 100, 1e-4);
    EXPECT_LT(answer["results"][0]["u"].get<double>(), 1e-4);
    const double length = kRadius * 1.05 / 100;
    EXPECT_NEAR(answer["results"][1]["value"].get<double>(), length, 0.002);
    EXPECT_GE(answer["results"][1]["high95"].get<double>(), length);
    EXPECT_LE(answer["results"][1]["low95"].get<double>(), length);
    EXPECT_TRUE(answer["marks"][1]["covariance"].is_null());
    EXPECT_EQ(answer["marks"][1]["point_covariances"].size(), answer["marks"][1]["points"].size());
}

}  // namespace
}  // namespace imaging::task
