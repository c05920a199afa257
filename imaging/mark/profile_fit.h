#pragma once

#include "imaging/mark/mark.h"

#include <array>
#include <optional>
#include <vector>

/// The one place where pixels become positions: a blurred edge or drawn line fitted to raw pixels.
namespace imaging::mark {

/// One pixel in the frame of a fit: `u` across the edge, `v` along it (px), grey `value`.
struct Sample {
    double u = 0;
    double v = 0;
    double value = 0;
    int x = 0;
    int y = 0;
};

enum class Profile { Edge, DrawnLine };
enum class Slope { Fixed, Free };

/// Sums for the correlation of neighbouring residuals, to be added up over several fits.
struct LagSums {
    static constexpr int kReach = 2;
    static constexpr int kLags = 2 * kReach * (kReach + 1);  ///< half plane of (2·reach+1)²
    std::array<double, kLags> product{};
    std::array<double, kLags> pairs{};
    double square = 0;
    double count = 0;
    void add(const LagSums& other);
};

/// Where an edge or the middle of a drawn line lies: u = offset + slope·v.
struct ProfileFit {
    double offset = 0;
    double slope = 0;
    double variance = 0;  ///< px² of offset at v = 0 for white noise
    double blur = 0;      ///< s, px: optics and pixel together
    double width = 0;     ///< px, of a drawn line
    double contrast = 0;  ///< grey step of the edge, or depth of the line (signed)
    double noise = 0;     ///< σ of a pixel, grey units
    double significance =
        0;  ///< what the edge explains beyond an even slope, in σ² (χ² with few dof)
    long pixels = 0;
    LagSums lags;
};

/// How the search goes on.
struct ProfileSearch {
    Profile profile = Profile::Edge;
    Slope slope = Slope::Fixed;
    double reach = kSearchDefault;  ///< px, greatest |offset|
    double leastNoise = 0.2887;     ///< grey units
};

/// Finds the edge or drawn line nearest to u = 0 among those at least half as strong as the
/// strongest within reach, then fits it by least squares over the pixels. `samples` should reach a
/// few px further than `reach` on both sides. None where nothing stands out: significance below 36
/// (six σ), or an offset beyond reach.
[[nodiscard]] std::optional<ProfileFit> fitProfile(const std::vector<Sample>& samples,
                                                   const ProfileSearch& search);

/// Factor κ ≥ 1 by which correlated noise raises the variance of a position: 1 + Σ ρ(lag)·w(lag)
/// over the lags whose correlation is beyond chance; w the overlap of two edge responses of blur
/// `blur` that lie the lag apart along `normal` (unit vector of u in the sheet).
[[nodiscard]] double correlationFactor(const LagSums& lags, const PixelPoint& normal, double blur);

/// Pixels of a band: |u| ≤ halfLength, |v| ≤ halfBand about `at`, u along `axis` (unit vector).
/// `unreadable` counts what lies outside the sheet or could not be decoded.
struct Band {
    std::vector<Sample> samples;
    long unreadable = 0;
};
[[nodiscard]] Band bandOf(const raster::GreyImage& image, const PixelPoint& at,
                          const PixelPoint& axis, double halfLength, double halfBand);

}  // namespace imaging::mark
