#include "imaging/mark/profile_seed.h"

#include <algorithm>
#include <cmath>

namespace imaging::mark {
namespace {

constexpr double kWindow = 12;       ///< px, the most a fit looks to either side
constexpr double kThinLine = 8;      ///< px: an opposite edge nearer than this is fitted along
constexpr double kNoticeable = 0.3;  ///< of the wanted edge's slope
constexpr double kAboveNoise = 3;    ///< standard deviations of a slope

/// An extremum of the slope of the summed-up profile.
struct Step {
    double at = 0;
    double slope = 0;  ///< grey per px, signed
};

struct Summed {
    double from = 0;  ///< u of the first bin
    std::vector<double> level;
    double slopeNoise =
        0;  ///< standard deviation of a slope taken from `level`, by the pixels' noise
};

/// Mean grey by bins of 1 px of u, gaps filled from their left neighbour, smoothed by 1-2-1.
Summed sumUp(std::span<const Sample> samples) {
    double low = samples.front().u;
    double high = low;
    for (const Sample& sample : samples) {
        low = std::min(low, sample.u);
        high = std::max(high, sample.u);
    }
    Summed summed;
    summed.from = std::floor(low);
    const auto bins = static_cast<std::size_t>(std::floor(high - summed.from)) + 1;
    std::vector<double> sum(bins);
    std::vector<double> squares(bins);
    std::vector<double> count(bins);
    for (const Sample& sample : samples) {
        const auto bin = std::min(bins - 1, static_cast<std::size_t>(sample.u - summed.from));
        sum[bin] += sample.value;
        squares[bin] += sample.value * sample.value;
        count[bin] += 1;
    }
    std::vector<double> mean(bins);
    std::vector<double> variances;
    for (std::size_t i = 0; i < bins; ++i) {
        mean[i] = count[i] > 0 ? sum[i] / count[i] : (i > 0 ? mean[i - 1] : sum[i]);
        if (count[i] >= 4) {
            variances.push_back((squares[i] - sum[i] * mean[i]) / (count[i] - 1) / count[i]);
        }
    }
    if (!variances.empty()) {
        // The median bin lies on an even ground; 0.395 is what smoothing and differencing leave.
        const auto middle = variances.begin() + static_cast<std::ptrdiff_t>(variances.size() / 2);
        std::nth_element(variances.begin(), middle, variances.end());
        summed.slopeNoise = 0.395 * std::sqrt(std::max(0.0, *middle));
    }
    summed.level = mean;
    for (std::size_t i = 1; i + 1 < bins; ++i) {
        summed.level[i] = 0.25 * mean[i - 1] + 0.5 * mean[i] + 0.25 * mean[i + 1];
    }
    summed.from += 0.5;
    return summed;
}

std::vector<Step> stepsOf(const Summed& summed) {
    const auto& level = summed.level;
    if (level.size() < 5) {
        return {};
    }
    std::vector<double> slope(level.size());
    for (std::size_t i = 1; i + 1 < level.size(); ++i) {
        slope[i] = 0.5 * (level[i + 1] - level[i - 1]);
    }
    std::vector<Step> steps;
    std::size_t last = 0;  // where the last step was found
    for (std::size_t i = 1; i + 1 < level.size(); ++i) {
        const double sign = slope[i] > 0 ? 1 : -1;
        const double here = sign * slope[i];
        const double left = sign * slope[i - 1];
        const double right = sign * slope[i + 1];
        if (here <= 0 || here < left || here <= right) {
            continue;
        }
        const double bend = left - 2 * here + right;
        const double shift = bend < 0 ? std::clamp(0.5 * (left - right) / bend, -0.5, 0.5) : 0;
        if (here < kAboveNoise * summed.slopeNoise) {
            continue;
        }
        const Step step{summed.from + static_cast<double>(i) + shift, slope[i]};
        // Two extrema of one sense without a dip between them are one edge with noise on it.
        if (!steps.empty() && steps.back().slope * step.slope > 0 &&
            step.at - steps.back().at < kWindow) {
            const double weaker = std::min(std::abs(steps.back().slope), std::abs(step.slope));
            double dip = weaker;
            for (std::size_t k = last; k <= i; ++k) {
                dip = std::min(dip, sign * slope[k]);
            }
            if (dip > 0.4 * weaker) {
                if (std::abs(step.slope) > std::abs(steps.back().slope)) {
                    steps.back() = step;
                    last = i;
                }
                continue;
            }
        }
        steps.push_back(step);
        last = i;
    }
    return steps;
}

double strongest(const std::vector<Step>& steps, double reach) {
    double most = 0;
    for (const Step& step : steps) {
        if (std::abs(step.at) <= reach) {
            most = std::max(most, std::abs(step.slope));
        }
    }
    return most;
}

/// How far the fit may look to one side of `at` before the next noticeable edge.
double freeUntil(const std::vector<Step>& steps, double at, double direction, double least,
                 double limit) {
    double reach = limit;
    for (const Step& step : steps) {
        const double distance = (step.at - at) * direction;
        if (distance > 0.75 && std::abs(step.slope) >= least) {
            reach = std::min(reach, distance);
        }
    }
    return reach;
}

/// Half of the way to a neighbouring edge at that distance; all of the window without one.
double share(double distance) {
    return distance >= kWindow ? kWindow : std::max(1.5, 0.5 * distance);
}

std::optional<ProfileSeed> lineSeed(const std::vector<Step>& steps, const Step& left,
                                    const Step& right) {
    ProfileSeed seed;
    seed.profile = Profile::DrawnLine;
    seed.at = 0.5 * (left.at + right.at);
    seed.width = right.at - left.at;
    const double least = kNoticeable * std::max(std::abs(left.slope), std::abs(right.slope));
    seed.from = left.at - share(freeUntil(steps, left.at, -1, least, kWindow));
    seed.to = right.at + share(freeUntil(steps, right.at, 1, least, kWindow));
    return seed;
}

struct Pair {
    Step left;
    Step right;
    bool dark = false;
    double strength = 0;
};

std::optional<ProfileSeed> drawnLine(const std::vector<Step>& steps, const ProfileSearch& search) {
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
        // A run between two edges of opposite sense, small ripples between them left out.
        for (std::size_t j = i + 1; j < steps.size(); ++j) {
            const Step& left = steps[i];
            const Step& right = steps[j];
            if (left.slope * right.slope >= 0) {
                continue;
            }
            const double weaker = std::min(std::abs(left.slope), std::abs(right.slope));
            const bool clear =
                std::none_of(steps.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                             steps.begin() + static_cast<std::ptrdiff_t>(j),
                             [weaker](const Step& s) { return std::abs(s.slope) > 0.5 * weaker; });
            const double middle = 0.5 * (left.at + right.at);
            if (clear && std::abs(middle) <= search.reach &&
                right.at - left.at <= 2 * search.reach + 4) {
                pairs.push_back({left, right, left.slope < 0, weaker});
            }
        }
    }
    double best = 0;
    double bestDark = 0;
    for (const Pair& pair : pairs) {
        best = std::max(best, pair.strength);
        bestDark = pair.dark ? std::max(bestDark, pair.strength) : bestDark;
    }
    // Ink is dark: the paper between two lines is taken only where no dark line is to be had.
    const bool darkOnly = bestDark >= 0.5 * best;
    const Pair* chosen = nullptr;
    for (const Pair& pair : pairs) {
        if ((darkOnly && !pair.dark) || pair.strength < 0.5 * (darkOnly ? bestDark : best)) {
            continue;
        }
        const auto off = [](const Pair& p) { return std::abs(p.left.at + p.right.at); };
        if (chosen == nullptr || off(pair) < off(*chosen)) {
            chosen = &pair;
        }
    }
    if (chosen == nullptr) {
        return std::nullopt;
    }
    return lineSeed(steps, chosen->left, chosen->right);
}

std::optional<ProfileSeed> edge(const std::vector<Step>& steps, const ProfileSearch& search) {
    const double most = strongest(steps, search.reach);
    const Step* chosen = nullptr;
    for (const Step& step : steps) {
        if (std::abs(step.at) <= search.reach && std::abs(step.slope) >= 0.5 * most &&
            (chosen == nullptr || std::abs(step.at) < std::abs(chosen->at))) {
            chosen = &step;
        }
    }
    if (chosen == nullptr) {
        return std::nullopt;
    }
    // An opposite edge close by (a drawn line's other side) is part of what the pixels show here.
    const Step* other = nullptr;
    for (const Step& step : steps) {
        if (step.slope * chosen->slope < 0 &&
            std::abs(step.slope) >= kNoticeable * std::abs(chosen->slope) &&
            std::abs(step.at - chosen->at) < kThinLine &&
            (other == nullptr ||
             std::abs(step.at - chosen->at) < std::abs(other->at - chosen->at))) {
            other = &step;
        }
    }
    if (other != nullptr) {
        const bool leftOne = chosen->at < other->at;
        auto seed = leftOne ? lineSeed(steps, *chosen, *other) : lineSeed(steps, *other, *chosen);
        seed->side = leftOne ? -1 : 1;
        return seed;
    }
    ProfileSeed seed;
    seed.at = chosen->at;
    const double least = kNoticeable * std::abs(chosen->slope);
    seed.from = seed.at - share(freeUntil(steps, seed.at, -1, least, kWindow));
    seed.to = seed.at + share(freeUntil(steps, seed.at, 1, least, kWindow));
    return seed;
}

}  // namespace

std::optional<ProfileSeed> seedProfile(std::span<const Sample> samples,
                                       const ProfileSearch& search) {
    if (samples.size() < 12) {
        return std::nullopt;
    }
    const std::vector<Step> steps = stepsOf(sumUp(samples));
    return search.profile == Profile::Edge ? edge(steps, search) : drawnLine(steps, search);
}

}  // namespace imaging::mark
