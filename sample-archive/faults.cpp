#include "sample-archive/faults.h"

#include "sample-archive/surface.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace sample {

namespace {

/// Slow noise: a coarse lattice blown up, in [−1, 1].
cv::Mat1f cloud(cv::Size size, int cell, std::uint64_t seed) {
    cv::RNG rng(seed);
    cv::Mat1f coarse(size.height / cell + 3, size.width / cell + 3);
    rng.fill(coarse, cv::RNG::UNIFORM, -1.0, 1.0);
    cv::Mat1f fine;
    cv::resize(coarse, fine, size, 0, 0, cv::INTER_CUBIC);
    return fine;
}

double distanceToLine(const Fold& fold, double x, double y) {
    const cv::Point2d along = fold.b - fold.a;
    const double length = std::hypot(along.x, along.y);
    return ((x - fold.a.x) * along.y - (y - fold.a.y) * along.x) / length;
}

double foldShade(const Fold& fold, double x, double y, std::uint32_t salt) {
    const double wander = 3.0 * (softNoise(x / 90, y / 90, salt) - 0.5);
    const double d = distanceToLine(fold, x, y) + wander;
    if (std::abs(d) > 70) return 0;
    // A dark crease with a worn light line beside it, in a band of handling dirt.
    const double crease = -0.13 * std::exp(-d * d / 9.0);
    const double worn = 0.05 * std::exp(-(d - 6) * (d - 6) / 14.0);
    const double dirt = -0.035 * std::exp(-d * d / 900.0);
    return crease + worn + dirt;
}

double stainShade(const Stain& stain, double x, double y, std::uint32_t salt) {
    const double dx = x - stain.centre.x;
    const double dy = y - stain.centre.y;
    if (std::hypot(dx, dy) > 1.5 * stain.radius) return 0;
    const double wobble =
        1 + 0.22 * (softNoise(x / stain.radius * 2.2, y / stain.radius * 2.2, salt) - 0.5) +
        0.05 * (softNoise(x / 40, y / 40, salt + 1) - 0.5);
    const double r = std::hypot(dx, dy) / (stain.radius * wobble);
    const double rim = std::exp(-(r - 1) * (r - 1) / 0.0012);
    const double inside = r < 1 ? 0.35 + 0.35 * r * r : 0.0;
    return stain.strength * (rim + inside);
}

}  // namespace

void blur(cv::Mat1f& light, double sigma) {
    cv::GaussianBlur(light, light, {}, sigma, sigma, cv::BORDER_REPLICATE);
}

void vignette(cv::Mat1f& light, double share) {
    const double cx = (light.cols - 1) / 2.0;
    const double cy = (light.rows - 1) / 2.0;
    const double corner2 = cx * cx + cy * cy;
    for (int y = 0; y < light.rows; ++y) {
        float* row = light.ptr<float>(y);
        for (int x = 0; x < light.cols; ++x) {
            const double r2 = ((x - cx) * (x - cx) + (y - cy) * (y - cy)) / corner2;
            row[x] *= static_cast<float>(1 - share * r2 * (0.4 + 0.6 * r2));
        }
    }
}

void grain(cv::Mat1f& light, double deviation, double size, std::uint64_t seed) {
    cv::RNG rng(seed);
    cv::Mat1f noise(light.size());
    rng.fill(noise, cv::RNG::NORMAL, 0.0, 1.0);
    if (size > 0.3) {
        cv::GaussianBlur(noise, noise, {}, size, size, cv::BORDER_REFLECT);
        // Smoothing takes the deviation down by 2 σ √π; give it back.
        noise *= std::max(1.0, 2 * size * std::sqrt(CV_PI));
    }
    for (int y = 0; y < light.rows; ++y) {
        float* row = light.ptr<float>(y);
        const float* speck = noise.ptr<float>(y);
        for (int x = 0; x < light.cols; ++x) {
            const float value = std::clamp(row[x], 0.0F, 1.0F);
            const float strength = 0.45F + 2.2F * value * (1 - value);
            row[x] += static_cast<float>(deviation) * strength * speck[x];
        }
    }
}

cv::Mat3f supportGround(cv::Size size, const Support& support, std::uint64_t seed) {
    cv::Mat1f shade(size, 0.0F);
    if (support.blotches > 0) {
        shade +=
            support.blotches * (0.6 * cloud(size, 700, seed + 1) +
                                0.3 * cloud(size, 160, seed + 2) + 0.1 * cloud(size, 30, seed + 3));
    }
    cv::Mat3f ground(size);
    cv::Mat1f fine(size);
    cv::RNG rng(seed + 4);
    rng.fill(fine, cv::RNG::NORMAL, 0.0, 1.0);
    const auto salt = static_cast<std::uint32_t>(seed & 0xffffU);
    cv::parallel_for_({0, size.height}, [&](const cv::Range& rows) {
        std::vector<double> warp(static_cast<std::size_t>(size.width));
        for (int y = rows.start; y < rows.end; ++y) {
            const double wander = 0.4 * std::sin(y * 0.01);
            if (support.weave > 0) {
                for (int x = 0; x < size.width; ++x) {
                    warp[static_cast<std::size_t>(x)] = std::cos(x * 1.26 + wander);
                }
            }
            const double weft = std::cos(y * 1.17);
            for (int x = 0; x < size.width; ++x) {
                double lightness = static_cast<double>(shade(y, x)) +
                                   support.fibre * static_cast<double>(fine(y, x));
                if (support.weave > 0) {
                    // Threads wander a little; neighbours within a row share their wander.
                    const double threads = warp[static_cast<std::size_t>(x)] + weft;
                    lightness += support.weave * threads;
                }
                for (const Fold& fold : support.folds) lightness += foldShade(fold, x, y, salt);
                double brown = 0;
                for (const Stain& stain : support.stains) brown += stainShade(stain, x, y, salt);
                constexpr std::array<double, 3> kBrown = {1.5, 0.85, 0.5};
                for (int channel = 0; channel < 3; ++channel) {
                    ground(y, x)[channel] =
                        static_cast<float>(support.tint[channel] + lightness -
                                           kBrown[static_cast<std::size_t>(channel)] * brown);
                }
            }
        }
    });
    return ground;
}

}  // namespace sample
