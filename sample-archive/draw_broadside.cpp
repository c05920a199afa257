#include "sample-archive/draw_broadside.h"

#include "sample-archive/broadside_scene.h"
#include "sample-archive/chance.h"
#include "sample-archive/faults.h"
#include "sample-archive/lettering.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace sample {

namespace {

constexpr int kWidth = 3000;
constexpr int kHeight = 1900;
constexpr int kStrata = 3;

/// Light of one pixel: the mean over one random place in each ninth of it, so that edges stay where
/// they are on average and no regular sampling favours whole thirds of a pixel. Where the diagonal
/// ninths agree there is no edge to place, and they do for all.
class Exposure {
  public:
    Exposure(const BroadsideScene& scene, const Camera& camera)
        : m_scene(scene), m_camera(camera), m_turned(camera.rotation()) {}

    [[nodiscard]] double pixel(int x, int y) const {
        constexpr double kAlike = 0.03;
        const double a = ninth(x, y, 0);
        const double b = ninth(x, y, 4);
        const double c = ninth(x, y, 8);
        const double diagonal = a + b + c;
        if (std::max({a, b, c}) - std::min({a, b, c}) < kAlike) return diagonal / kStrata;
        double sum = diagonal;
        for (const int stratum : {1, 2, 3, 5, 6, 7}) sum += ninth(x, y, stratum);
        return sum / (kStrata * kStrata);
    }

  private:
    [[nodiscard]] double ninth(int x, int y, int stratum) const {
        const auto salt = static_cast<std::uint32_t>(2 * stratum + 1);
        const double px = x - 0.5 + (stratum % kStrata + latticeNoise(x, y, salt)) / kStrata;
        const double py = y - 0.5 + (stratum / kStrata + latticeNoise(x, y, salt + 1)) / kStrata;
        return m_scene.light(m_camera.position, m_camera.rayThrough({px, py}, m_turned));
    }

    const BroadsideScene& m_scene;
    const Camera& m_camera;
    cv::Matx33d m_turned;
};

cv::Mat1f exposed(const BroadsideScene& scene, const Camera& camera) {
    cv::Mat1f light(kHeight, kWidth);
    const Exposure exposure(scene, camera);
    cv::parallel_for_({0, kHeight}, [&](const cv::Range& rows) {
        for (int y = rows.start; y < rows.end; ++y) {
            for (int x = 0; x < kWidth; ++x) {
                light(y, x) = static_cast<float>(exposure.pixel(x, y));
            }
        }
    });
    return light;
}

void caption(cv::Mat1f& light) {
    const cv::Mat1f words = lettered("C.V.L.R.  MOTOR INSPECTION CAR  TEAL   1911   No. 218", 26,
                                     cv::FONT_HERSHEY_SIMPLEX, 3.0);
    cv::Mat1f target = light(cv::Rect(70, kHeight - 40 - words.rows, words.cols, words.rows));
    target = target.mul(1 - words) + 0.88 * words;
}

/// Toned silver print: warm shadows and cream lights.
cv::Mat3b toned(const cv::Mat1f& light, double contrast) {
    cv::Mat3b picture(light.size());
    for (int y = 0; y < light.rows; ++y) {
        for (int x = 0; x < light.cols; ++x) {
            const double value = std::clamp(static_cast<double>(light(y, x)), 0.0, 1.0);
            const double print =
                std::clamp(0.035 + 0.95 * std::pow(value, 0.86 * contrast), 0.0, 1.0);
            const double red = std::min(1.0, print * 1.015 + 0.018 * (1 - print));
            const double blue = print * 0.90 + 0.01;
            const double green = print * 0.965 + 0.008;
            picture(y, x) = {cv::saturate_cast<uchar>(blue * 255),
                             cv::saturate_cast<uchar>(green * 255),
                             cv::saturate_cast<uchar>(red * 255)};
        }
    }
    return picture;
}

}  // namespace

Broadside drawBroadside(std::uint64_t seed) {
    Broadside view;
    view.car = built(seed);
    const BroadsideScene scene(view.car);
    view.bodyZ = scene.bodyZ();
    view.plateZ = scene.plateZ();
    view.wheelZ = scene.wheelZ();
    view.camera = worksCamera(seed, view.plateZ);
    cv::Mat1f light = exposed(scene, view.camera);
    caption(light);
    blur(light, 1.2);
    vignette(light, 0.30);
    grain(light, 0.022, 0.9, Chance(seed, 3).next());
    view.picture = toned(light, 1.0);
    return view;
}

cv::Point2d onPrint(const cv::Point2d& negative) {
    const cv::Point2d kept = negative - cv::Point2d(kPrintLeft, kPrintTop);
    // Pixel areas, not centres, are scaled.
    return {(kept.x + 0.5) * kPrintReduction * kPrintStretch - 0.5,
            (kept.y + 0.5) * kPrintReduction - 0.5};
}

cv::Mat3b drawOtherPrint(const Broadside& negative, std::uint64_t seed) {
    const cv::Mat3b kept =
        negative.picture(cv::Rect(kPrintLeft, kPrintTop, kPrintWidth, kPrintHeight));
    cv::Mat3b small;
    cv::resize(kept, small,
               {static_cast<int>(std::lround(kPrintWidth * kPrintReduction * kPrintStretch)),
                static_cast<int>(std::lround(kPrintHeight * kPrintReduction))},
               0, 0, cv::INTER_AREA);
    cv::Mat1b grey;
    cv::cvtColor(small, grey, cv::COLOR_BGR2GRAY);
    cv::Mat1f light;
    grey.convertTo(light, CV_32F, 1.0 / 255);
    blur(light, 0.9);
    grain(light, 0.015, 1.1, Chance(seed, 4).next());
    return toned(light, 1.45);
}

}  // namespace sample
