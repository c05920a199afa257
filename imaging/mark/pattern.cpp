#include "imaging/mark/pattern.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace imaging::mark {
namespace {

constexpr double kMargin = 10;
constexpr double kShareOfStep = 0.35;
constexpr double kLeastStep = 3;  ///< px: finer rows cannot be told apart
constexpr int kMostTeeth = 5000;

struct Row {
    PixelPoint origin = PixelPoint::Zero();
    PixelPoint along = PixelPoint::Zero();
    double step = 0;  ///< between the first two, px
    double end = 0;   ///< of the last, px along
};

Result<Row> rowOf(const MarkRequest& request) {
    Row row;
    row.origin = request.points[0];
    const PixelPoint last = request.points.back();
    row.end = (last - row.origin).norm();
    row.along = (last - row.origin) / std::max(1e-300, row.end);
    row.step = (request.points[1] - row.origin).dot(row.along);
    const PixelPoint across(-row.along.y(), row.along.x());
    const double beside = std::abs((request.points[1] - row.origin).dot(across));
    if (!(row.step >= kLeastStep) || !(row.end >= 1.5 * row.step) || beside > 0.5 * row.step) {
        return refuse(Code::BadValue, "/points",
                      fmt::format("a pattern takes two neighbouring teeth and the last one, in a "
                                  "row, at least {} px apart",
                                  kLeastStep));
    }
    if (row.end / row.step > kMostTeeth) {
        return refuse(Code::BadValue, "/points",
                      fmt::format("the row would have more than {} teeth", kMostTeeth));
    }
    return row;
}

struct Tooth {
    int number = 0;
    double t = 0;  ///< px along the row
    double variance = 0;
    double width = 0;
    long pixels = 0;
};

/// t(k) = (a·k + b)/(c·k + 1), or without c where there are too few teeth for it.
struct Comb {
    double a = 0;
    double b = 0;
    double c = 0;
    [[nodiscard]] double at(double k) const { return (a * k + b) / (c * k + 1); }
};

std::optional<Comb> combOf(const std::vector<Tooth>& teeth) {
    const bool straight = teeth.size() < 5;
    const auto n = static_cast<Eigen::Index>(teeth.size());
    Comb comb;
    for (int round = 0; round < 3; ++round) {
        Eigen::MatrixXd rows(n, straight ? 2 : 3);
        Eigen::VectorXd right(n);
        for (Eigen::Index i = 0; i < n; ++i) {
            const Tooth& tooth = teeth[static_cast<std::size_t>(i)];
            const double k = tooth.number;
            // Linearised: t·(c·k + 1) = a·k + b, divided by what the last round made of c·k + 1.
            const double weight = 1 / (std::sqrt(tooth.variance) * (comb.c * k + 1));
            rows(i, 0) = k * weight;
            rows(i, 1) = weight;
            if (!straight) {
                rows(i, 2) = -k * tooth.t * weight;
            }
            right(i) = tooth.t * weight;
        }
        const Eigen::VectorXd x = rows.colPivHouseholderQr().solve(right);
        if (!x.allFinite()) {
            return std::nullopt;
        }
        comb = {x(0), x(1), straight ? 0 : x(2)};
    }
    return comb;
}

double scatterOf(const std::vector<Tooth>& teeth, const Comb& comb) {
    double chi2 = 0;
    for (const Tooth& tooth : teeth) {
        const double r = tooth.t - comb.at(tooth.number);
        chi2 += r * r / tooth.variance;
    }
    return chi2;
}

FittedMark markOf(const MarkRequest& request, const Row& row, const std::vector<Tooth>& teeth,
                  double inflation) {
    FittedMark mark;
    mark.kind = request.kind;
    mark.made = request.fit;
    const auto n = static_cast<Eigen::Index>(teeth.size());
    mark.covariance = Eigen::MatrixXd::Zero(2 * n, 2 * n);
    const PixelPoint across(-row.along.y(), row.along.x());
    const double acrossU = request.uPx.value_or(kPlacedU);
    for (Eigen::Index i = 0; i < n; ++i) {
        const Tooth& tooth = teeth[static_cast<std::size_t>(i)];
        mark.points.emplace_back(row.origin + tooth.t * row.along);
        mark.teeth.push_back(tooth.number);
        mark.covariance.block<2, 2>(2 * i, 2 * i) =
            inflation * tooth.variance * row.along * row.along.transpose() +
            acrossU * acrossU * across * across.transpose();
        mark.used += tooth.pixels;
    }
    return mark;
}

}  // namespace

Result<FittedMark> fitPattern(const raster::GreyImage& image, const MarkRequest& request) {
    const auto row = rowOf(request);
    if (!row) {
        return tl::unexpected(row.error());
    }
    const auto look = [&](int number, double t, double step) -> std::optional<Tooth> {
        ProfileSearch search;
        search.profile = request.fit == Fit::LineCentre ? Profile::DrawnLine : Profile::Edge;
        search.slope = Slope::Free;
        search.reach = std::min(std::max(request.searchPx, 2.0), kShareOfStep * step);
        // A run may be half a step wide: both its edges must be in reach of the fit.
        if (search.profile == Profile::DrawnLine) {
            search.reach = std::max(search.reach, kShareOfStep * step);
        }
        search.leastNoise = image.roundingNoise();
        const Band band =
            bandOf(image, row->origin + t * row->along, row->along,
                   search.reach + std::min(kMargin, 0.4 * step), std::clamp(0.25 * step, 1.5, 5.0));
        if (band.unreadable * 4 > static_cast<long>(band.samples.size())) {
            return std::nullopt;
        }
        const auto fit = fitProfile(band.samples, search);
        if (!fit || std::abs(fit->offset) > kShareOfStep * step) {
            return std::nullopt;
        }
        return Tooth{number, t + fit->offset,
                     fit->variance * correlationFactor(fit->lags, row->along, fit->blur),
                     fit->width, fit->pixels};
    };
    std::vector<Tooth> teeth;
    int tried = 0;
    const auto none = [&](const char* where) {
        return refuse(
            Code::NoFit, "/points",
            fmt::format("no tooth stands out at the {}; place it nearer, or use fit none", where));
    };
    for (int k = 0; k < 2; ++k) {
        auto tooth = look(k, k * row->step, row->step);
        if (!tooth) {
            return none(k == 0 ? "first point" : "second point");
        }
        teeth.push_back(*tooth);
        ++tried;
    }
    Comb comb{teeth[1].t - teeth[0].t, teeth[0].t, 0};
    for (int k = 2; k < kMostTeeth; ++k) {
        const double expected = comb.at(k);
        const double step = expected - comb.at(k - 1);
        if (!(step > 0.2 * row->step) || !std::isfinite(expected) ||
            expected > row->end + 0.5 * step) {
            break;
        }
        ++tried;
        if (auto tooth = look(k, expected, step)) {
            teeth.push_back(*tooth);
            if (auto better = combOf(teeth)) {
                comb = *better;
            }
        }
    }
    if (teeth.size() < 3 || static_cast<int>(teeth.size()) * 2 < tried) {
        return refuse(Code::NoFit, "/points",
                      fmt::format("only {} of {} teeth stand out along the row: check the first "
                                  "two points and the last",
                                  teeth.size(), tried));
    }
    if (std::abs(teeth.back().t - row->end) >
        0.5 * (comb.at(teeth.back().number) - comb.at(teeth.back().number - 1))) {
        return none("last point");
    }
    // Teeth that stand far off the comb are not of it: left out one by one, the farthest first.
    const std::size_t unknowns = teeth.size() < 5 ? 2 : 3;
    double ratio = 1;
    while (teeth.size() > unknowns + 1) {
        comb = combOf(teeth).value_or(comb);
        const double freedom = static_cast<double>(teeth.size() - unknowns);
        std::vector<double> sizes;
        sizes.reserve(teeth.size());
        for (const Tooth& tooth : teeth) {
            sizes.push_back(std::abs(tooth.t - comb.at(tooth.number)) / std::sqrt(tooth.variance));
        }
        std::vector<double> sorted = sizes;
        std::nth_element(sorted.begin(), sorted.begin() + static_cast<long>(sorted.size() / 2),
                         sorted.end());
        const double limit = 5 * std::max(1.0, 1.4826 * sorted[sorted.size() / 2]);
        const auto worst = std::max_element(sizes.begin(), sizes.end());
        ratio = scatterOf(teeth, comb) / freedom;
        if (*worst <= limit || static_cast<int>(teeth.size()) * 2 <= tried) {
            break;
        }
        teeth.erase(teeth.begin() + (worst - sizes.begin()));
    }
    const double freedom = static_cast<double>(teeth.size()) - static_cast<double>(unknowns);
    const bool scattered = freedom > 0 && ratio > 1 + std::sqrt(2 / freedom);
    FittedMark mark = markOf(request, *row, teeth, scattered ? ratio : 1);
    // edge_bias_px stays out: like edges move alike, and it cancels from step to step.
    double squares = 0;
    double width = 0;
    for (const Tooth& tooth : teeth) {
        squares += std::pow(tooth.t - comb.at(tooth.number), 2) / static_cast<double>(teeth.size());
        width += tooth.width / static_cast<double>(teeth.size());
    }
    mark.rmsPx = std::sqrt(squares);
    if (request.fit == Fit::LineCentre) {
        mark.widthPx = width;
    }
    return mark;
}

Result<FittedMark> placedPattern(const MarkRequest& request) {
    const auto row = rowOf(request);
    if (!row) {
        return tl::unexpected(row.error());
    }
    FittedMark mark;
    mark.kind = request.kind;
    mark.made = Fit::None;
    mark.points = request.points;
    const auto n = static_cast<Eigen::Index>(2 * mark.points.size());
    const double u = request.uPx.value_or(kPlacedU);
    mark.covariance = Eigen::MatrixXd::Identity(n, n) * u * u;
    double step = row->step;
    for (std::size_t i = 0; i < mark.points.size(); ++i) {
        const double t = (mark.points[i] - row->origin).dot(row->along);
        const int number = static_cast<int>(std::lround(t / step));
        if (i > 0 && number <= mark.teeth.back()) {
            return refuse(Code::BadValue, fmt::format("/points/{}", i),
                          "the teeth are given from the first on in the order of the row");
        }
        mark.teeth.push_back(number);
        step = number > 0 ? t / number : step;
    }
    return mark;
}

}  // namespace imaging::mark
