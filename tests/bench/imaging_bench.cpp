// imaging_bench: how long the imaging's own steps take, beside the nearest function of OpenCV in
// the same run, and how far each is from the truth (counters error_px, opencv_error_px, or the
// like). Claims on the machine it was written on: a 200-px edge < 1 ms, an ellipse on 2,000 points
// < 5 ms, a camera frame < 20 ms, a 5,000-px curve < 200 ms.

#include "evidence-core/frame/ellipse.h"
#include "imaging/frame/solve_camera.h"
#include "imaging/mark/mark.h"
#include "tests/imaging/mark/drawn_sheet.h"

#include <benchmark/benchmark.h>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <numbers>
#include <random>

namespace {

using evidence::frame::Ellipse;
using imaging::mark::Fit;
using imaging::mark::MarkKind;
using imaging::mark::MarkRequest;
using imaging::mark::PixelPoint;

/// A slanted edge 200 px long: x = 60.3 + 0.07 y.
cv::Mat edgeSheet() {
    static const cv::Mat kSheet = [] {
        const cv::Mat clean = imaging::mark::test::render(
            140, 240, [](double x, double y) { return x < 60.3 + 0.07 * y; }, 1.0);
        cv::Mat eight;
        cv::Mat noise(clean.size(), CV_32F);
        cv::RNG random(7);
        random.fill(noise, cv::RNG::NORMAL, 0, 5);
        cv::Mat(clean + noise).convertTo(eight, CV_8U);
        return eight;
    }();
    return kSheet;
}

void edgeOf200Pixels(benchmark::State& state) {
    const imaging::raster::GreyImage image(edgeSheet());
    MarkRequest request;
    request.kind = MarkKind::Line;
    request.fit = Fit::Edge;
    request.points = {{61, 20}, {74, 220}};
    double error = 0;
    for (auto _ : state) {
        const auto mark = imaging::mark::fitMark(image, request);
        const PixelPoint p = mark->points[0];
        error = p.x() - (60.3 + 0.07 * p.y());
        benchmark::ClobberMemory();
    }
    state.counters["error_px"] = std::abs(error);
}
BENCHMARK(edgeOf200Pixels)->Unit(benchmark::kMillisecond);

/// OpenCV's nearest: Canny to whole pixels, then a line through those near the mark.
void edgeOf200PixelsByOpenCv(benchmark::State& state) {
    const cv::Mat sheet = edgeSheet();
    double error = 0;
    for (auto _ : state) {
        cv::Mat edges;
        cv::Canny(sheet, edges, 50, 120);
        std::vector<cv::Point> all;
        cv::findNonZero(edges, all);
        std::vector<cv::Point> near;
        for (const cv::Point& p : all) {
            if (p.y >= 20 && p.y <= 220 && std::abs(p.x - (59.7 + 0.065 * p.y)) < 6) {
                near.push_back(p);
            }
        }
        cv::Vec4f line;
        cv::fitLine(near, line, cv::DIST_HUBER, 0, 0.01, 0.01);
        const double x = line[2] + (20 - line[3]) * line[0] / line[1];
        error = x - (60.3 + 0.07 * 20);
        benchmark::ClobberMemory();
    }
    state.counters["error_px"] = std::abs(error);
}
BENCHMARK(edgeOf200PixelsByOpenCv)->Unit(benchmark::kMillisecond);

const Ellipse kEllipse{{800, 600}, 320, 190, 0.4};

std::vector<PixelPoint> rimOf(int count, double degrees) {
    std::mt19937 random(3);
    std::normal_distribution<double> noise(0, 0.3);
    std::vector<PixelPoint> rim;
    for (int i = 0; i < count; ++i) {
        const double t = degrees * std::numbers::pi / 180 * i / count;
        rim.push_back(kEllipse.at(t) + PixelPoint(noise(random), noise(random)));
    }
    return rim;
}

void ellipseThroughPoints(benchmark::State& state) {
    const auto rim = rimOf(static_cast<int>(state.range(0)), 150);
    double a = 0;
    for (auto _ : state) {
        a = evidence::frame::ellipseThrough(rim)->ellipse.a;
        benchmark::ClobberMemory();
    }
    state.counters["error_px"] = std::abs(a - kEllipse.a);
}
BENCHMARK(ellipseThroughPoints)->Arg(200)->Arg(2000)->Unit(benchmark::kMillisecond);

void ellipseThroughPointsByOpenCv(benchmark::State& state) {
    std::vector<cv::Point2f> rim;
    for (const PixelPoint& p : rimOf(static_cast<int>(state.range(0)), 150)) {
        rim.emplace_back(static_cast<float>(p.x()), static_cast<float>(p.y()));
    }
    double a = 0;
    for (auto _ : state) {
        const cv::RotatedRect box = cv::fitEllipseDirect(rim);
        a = 0.5 * static_cast<double>(std::max(box.size.width, box.size.height));
        benchmark::ClobberMemory();
    }
    state.counters["error_px"] = std::abs(a - kEllipse.a);
}
BENCHMARK(ellipseThroughPointsByOpenCv)->Arg(200)->Arg(2000)->Unit(benchmark::kMillisecond);

/// Known points in space and their pixels, f = 1500, principal point 800, 600.
struct Scene {
    std::vector<Eigen::Vector3d> world;
    std::vector<PixelPoint> pixels;
};

Scene sceneOf(int count) {
    std::mt19937 random(9);
    std::normal_distribution<double> noise(0, 0.5);
    std::uniform_real_distribution<double> share(0, 1);
    Scene scene;
    for (int i = 0; i < count; ++i) {
        const Eigen::Vector3d x(190 * share(random), 75 * share(random), 70 * share(random));
        // Camera at (90, 40, −330), looking along z.
        const Eigen::Vector3d y = x - Eigen::Vector3d(90, 40, -330);
        scene.world.push_back(x);
        scene.pixels.emplace_back(800 + 1500 * y.x() / y.z() + noise(random),
                                  600 + 1500 * y.y() / y.z() + noise(random));
    }
    return scene;
}

void cameraFrame(benchmark::State& state) {
    const Scene scene = sceneOf(static_cast<int>(state.range(0)));
    double depth = 0;
    for (auto _ : state) {
        imaging::frame::Inputs inputs;
        imaging::frame::Known known;
        for (std::size_t i = 0; i < scene.world.size(); ++i) {
            imaging::frame::KnownPoint point;
            point.feature.first =
                inputs.addBlock(scene.pixels[i], 0.25 * Eigen::Matrix2d::Identity());
            point.feature.points = 1;
            for (Eigen::Index k = 0; k < 3; ++k) {
                point.at.push_back({scene.world[i](k), -1});
            }
            known.points.push_back(std::move(point));
        }
        const int principal = inputs.addNumber(799.5, 32);
        inputs.addNumber(599.5, 32);
        const auto solved = imaging::frame::solveCamera(inputs, known, principal, 1600);
        depth = solved->map.centre().z();
        benchmark::ClobberMemory();
    }
    state.counters["error_in"] = std::abs(depth + 330);
}
BENCHMARK(cameraFrame)->Arg(6)->Arg(12)->Arg(50)->Unit(benchmark::kMillisecond);

/// OpenCV's nearest: one view's calibration with the principal point held at the picture's middle.
void cameraFrameByOpenCv(benchmark::State& state) {
    const Scene scene = sceneOf(static_cast<int>(state.range(0)));
    std::vector<std::vector<cv::Point3f>> world(1);
    std::vector<std::vector<cv::Point2f>> pixels(1);
    for (std::size_t i = 0; i < scene.world.size(); ++i) {
        const auto& x = scene.world[i];
        world[0].emplace_back(static_cast<float>(x.x()), static_cast<float>(x.y()),
                              static_cast<float>(x.z()));
        pixels[0].emplace_back(static_cast<float>(scene.pixels[i].x()),
                               static_cast<float>(scene.pixels[i].y()));
    }
    double depth = 0;
    for (auto _ : state) {
        cv::Mat k = (cv::Mat_<double>(3, 3) << 1600, 0, 799.5, 0, 1600, 599.5, 0, 0, 1);
        cv::Mat distortion = cv::Mat::zeros(1, 5, CV_64F);
        std::vector<cv::Mat> turns;
        std::vector<cv::Mat> shifts;
        cv::calibrateCamera(world, pixels, {1600, 1200}, k, distortion, turns, shifts,
                            cv::CALIB_USE_INTRINSIC_GUESS | cv::CALIB_FIX_PRINCIPAL_POINT |
                                cv::CALIB_FIX_ASPECT_RATIO | cv::CALIB_ZERO_TANGENT_DIST |
                                cv::CALIB_FIX_K1 | cv::CALIB_FIX_K2 | cv::CALIB_FIX_K3);
        cv::Mat r;
        cv::Rodrigues(turns[0], r);
        const cv::Mat centre = -r.t() * shifts[0];
        depth = centre.at<double>(2);
        benchmark::ClobberMemory();
    }
    state.counters["error_in"] = std::abs(depth + 330);
}
BENCHMARK(cameraFrameByOpenCv)->Arg(12)->Arg(50)->Unit(benchmark::kMillisecond);

/// A drawn circle of 796 px radius: 5,000 px of line.
const PixelPoint kMiddle(810.3, 809.8);
constexpr double kRadius = 795.8;

cv::Mat curveSheet() {
    static const cv::Mat kSheet = [] {
        cv::Mat grey(1620, 1620, CV_8U);
        cv::RNG random(11);
        for (int y = 0; y < grey.rows; ++y) {
            for (int x = 0; x < grey.cols; ++x) {
                // A line 3 px wide under a blur of 1 px, in closed form: its bend is negligible.
                const double d = (PixelPoint(x, y) - kMiddle).norm() - kRadius;
                const double ink = 0.5 * (std::erf((d + 1.5) / std::numbers::sqrt2) -
                                          std::erf((d - 1.5) / std::numbers::sqrt2));
                grey.at<unsigned char>(y, x) =
                    cv::saturate_cast<unsigned char>(200 - 120 * ink + random.gaussian(5));
            }
        }
        return grey;
    }();
    return kSheet;
}

void curveOf5000Pixels(benchmark::State& state) {
    const imaging::raster::GreyImage image(curveSheet());
    MarkRequest request;
    request.kind = MarkKind::Curve;
    request.fit = Fit::LineCentre;
    for (int i = 0; i <= 12; ++i) {
        const double t = 0.1 + 6.26 * i / 12;
        request.points.push_back(kMiddle + (kRadius + 1) * PixelPoint(std::cos(t), std::sin(t)));
    }
    double error = 0;
    for (auto _ : state) {
        const auto mark = imaging::mark::fitMark(image, request);
        error = 0;
        for (const PixelPoint& p : mark->points) {
            error += std::pow((p - kMiddle).norm() - kRadius, 2) /
                     static_cast<double>(mark->points.size());
        }
        benchmark::ClobberMemory();
    }
    state.counters["error_px"] = std::sqrt(error);
}
BENCHMARK(curveOf5000Pixels)->Unit(benchmark::kMillisecond);

/// OpenCV's nearest: threshold, contours, the outer one (it runs along the line's outer edge, so
/// its scatter about its own mean is compared).
void curveOf5000PixelsByOpenCv(benchmark::State& state) {
    const cv::Mat sheet = curveSheet();
    double error = 0;
    for (auto _ : state) {
        cv::Mat dark;
        cv::threshold(sheet, dark, 140, 255, cv::THRESH_BINARY_INV);
        std::vector<std::vector<cv::Point>> contours;
        cv::findContours(dark, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
        double mean = 0;
        double squares = 0;
        double count = 0;
        for (const auto& contour : contours) {
            if (contour.size() < 1000) {
                continue;
            }
            for (const cv::Point& p : contour) {
                const double d = (PixelPoint(p.x, p.y) - kMiddle).norm() - kRadius;
                mean += d;
                squares += d * d;
                count += 1;
            }
        }
        mean /= count;
        error = std::sqrt(squares / count - mean * mean);
        benchmark::ClobberMemory();
    }
    state.counters["error_px"] = error;
}
BENCHMARK(curveOf5000PixelsByOpenCv)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
