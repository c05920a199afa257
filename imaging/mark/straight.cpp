#include "imaging/mark/straight.h"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace imaging::mark {
namespace {

constexpr double kPieceLength = 16;  ///< px
constexpr int kMostPieces = 300;
constexpr double kMargin = 10;  ///< px beyond reach, for the grounds

/// What one piece of the line says.
struct Piece {
    double t = 0;
    double offset = 0;
    double variance = 0;
    double width = 0;
    long pixels = 0;
};

struct Pieces {
    std::vector<Piece> found;
    int tried = 0;
    long unreadable = 0;
    long looked = 0;
};

/// The line's current estimate, about which pieces are sought.
struct Course {
    double alpha = 0;
    double beta = 0;
};

struct Piecework {
    const raster::GreyImage& image;
    PixelPoint origin;
    PixelPoint along;
    PixelPoint normal;
    Profile profile;

    [[nodiscard]] Pieces measure(const std::vector<Stretch>& stretches, const Course& course,
                                 double reach) const {
        Pieces pieces;
        LagSums lags;
        const PixelPoint tilted = (along + course.beta * normal).normalized();
        const PixelPoint across(-tilted.y(), tilted.x());
        double blur = 0;
        for (const Stretch& stretch : stretches) {
            const double length = stretch.to - stretch.from;
            const int count =
                std::clamp(static_cast<int>(std::lround(length / kPieceLength)), 1, kMostPieces);
            const double half = 0.5 * length / count;
            for (int i = 0; i < count; ++i) {
                const double t = stretch.from + (2 * i + 1) * half;
                const PixelPoint centre =
                    origin + along * t + normal * (course.alpha + course.beta * t);
                const Band band =
                    bandOf(image, centre, across, reach + kMargin, std::min(half, kPieceLength));
                ++pieces.tried;
                pieces.unreadable += band.unreadable;
                pieces.looked += static_cast<long>(band.samples.size()) + band.unreadable;
                ProfileSearch search;
                search.profile = profile;
                search.reach = reach;
                search.leastNoise = image.roundingNoise();
                const auto fit = fitProfile(band.samples, search);
                if (!fit) {
                    continue;
                }
                // The pixels' mean place along the line is where the piece speaks for.
                double v = 0;
                for (const Sample& sample : band.samples) {
                    v += sample.v;
                }
                v /= static_cast<double>(band.samples.size());
                const PixelPoint place = centre + across * fit->offset - tilted * v;
                const PixelPoint away = place - origin;
                pieces.found.push_back(
                    {away.dot(along), away.dot(normal), fit->variance, fit->width, fit->pixels});
                lags.add(fit->lags);
                blur += fit->blur;
            }
        }
        if (!pieces.found.empty()) {
            const double kappa =
                correlationFactor(lags, across, blur / static_cast<double>(pieces.found.size()));
            for (Piece& piece : pieces.found) {
                piece.variance *= kappa;
            }
        }
        return pieces;
    }
};

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Theil-Sen: median of the slopes of all pairs, then of the offsets. Holds with 29 % wrong pieces.
Course robustStart(const std::vector<Piece>& pieces) {
    std::vector<double> slopes;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        for (std::size_t j = i + 1; j < pieces.size(); ++j) {
            const double run = pieces[j].t - pieces[i].t;
            if (std::abs(run) > 1) {
                slopes.push_back((pieces[j].offset - pieces[i].offset) / run);
            }
        }
    }
    Course course;
    course.beta = slopes.empty() ? 0 : median(slopes);
    std::vector<double> offsets;
    for (const Piece& piece : pieces) {
        offsets.push_back(piece.offset - course.beta * piece.t);
    }
    course.alpha = median(offsets);
    return course;
}

struct Straight {
    Course course;
    Eigen::Matrix2d covariance = Eigen::Matrix2d::Zero();
    double chi2 = 0;
    std::vector<Piece> kept;
};

std::optional<Straight> throughPieces(const std::vector<Piece>& pieces) {
    Straight line;
    line.course = robustStart(pieces);
    for (int round = 0; round < 8; ++round) {
        std::vector<double> sizes;
        for (const Piece& piece : pieces) {
            const double r = piece.offset - line.course.alpha - line.course.beta * piece.t;
            sizes.push_back(std::abs(r) / std::sqrt(piece.variance));
        }
        const double limit = 4 * std::max(1.0, 1.4826 * median(sizes));
        std::vector<Piece> kept;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            if (sizes[i] <= limit) {
                kept.push_back(pieces[i]);
            }
        }
        const bool same = round > 0 && kept.size() == line.kept.size();
        line.kept = kept;
        double middle = 0;
        for (const Piece& piece : kept) {
            middle += piece.t / static_cast<double>(kept.size());
        }
        Eigen::Matrix2d a = Eigen::Matrix2d::Zero();
        Eigen::Vector2d b = Eigen::Vector2d::Zero();
        for (const Piece& piece : kept) {
            const Eigen::Vector2d row(1, piece.t - middle);
            a += row * row.transpose() / piece.variance;
            b += row * piece.offset / piece.variance;
        }
        if (!(a(1, 1) > 0)) {
            return std::nullopt;
        }
        Eigen::Matrix2d shift;
        shift << 1, -middle, 0, 1;  // back to t = 0
        const Eigen::Vector2d x = shift * a.inverse() * b;
        line.covariance = shift * a.inverse() * shift.transpose();
        line.course = {x(0), x(1)};
        line.chi2 = 0;
        for (const Piece& piece : kept) {
            const double r = piece.offset - x(0) - x(1) * piece.t;
            line.chi2 += r * r / piece.variance;
        }
        if (same) {
            break;
        }
    }
    return line;
}

/// Lines too short for three pieces: one fit with the tilt free.
std::optional<Straight> onePiece(const Piecework& work, const Stretch& stretch, double reach,
                                 Pieces& pieces) {
    const double t = 0.5 * (stretch.from + stretch.to);
    const Band band = bandOf(work.image, work.origin + work.along * t, work.normal, reach + kMargin,
                             0.5 * (stretch.to - stretch.from));
    pieces.tried = 1;
    pieces.unreadable = band.unreadable;
    pieces.looked = static_cast<long>(band.samples.size()) + band.unreadable;
    ProfileSearch search;
    search.profile = work.profile;
    search.slope = Slope::Free;
    search.reach = reach;
    search.leastNoise = work.image.roundingNoise();
    const auto fit = fitProfile(band.samples, search);
    if (!fit) {
        return std::nullopt;
    }
    // v of a band runs along −`along`, for `normal` is its axis.
    Straight line;
    line.course.beta = -fit->slope;
    line.course.alpha = fit->offset - line.course.beta * t;
    const double kappa = correlationFactor(fit->lags, work.normal, fit->blur);
    const double length = stretch.to - stretch.from;
    const double middle = fit->variance * kappa;
    const double tilt = 12 * middle / (length * length);
    line.covariance << middle + t * t * tilt, -t * tilt, -t * tilt, tilt;
    line.kept.push_back({t, fit->offset, middle, fit->width, fit->pixels});
    return line;
}

}  // namespace

Result<StraightFit> fitStraight(const raster::GreyImage& image, const PixelPoint& p,
                                const PixelPoint& q, Profile profile, double reach,
                                const std::vector<Stretch>& stretches) {
    const PixelPoint along = (q - p).normalized();
    const Piecework work{image, p, along, PixelPoint(-along.y(), along.x()), profile};
    const char* what = profile == Profile::Edge ? "edge" : "drawn line";
    double length = 0;
    for (const Stretch& stretch : stretches) {
        length += stretch.to - stretch.from;
    }
    Pieces pieces;
    std::optional<Straight> line;
    if (stretches.size() == 1 && length < 2.5 * kPieceLength) {
        line = onePiece(work, stretches.front(), reach, pieces);
    } else {
        pieces = work.measure(stretches, {}, reach);
        if (static_cast<int>(pieces.found.size()) * 2 >= pieces.tried && pieces.found.size() >= 2) {
            line = throughPieces(pieces.found);
        }
        // Again about the line found, so that no piece is cut or smeared by the placed line's tilt:
        // unless it was placed as well as that already.
        const auto wellPlaced = [&](const Course& course) {
            const double far = std::max(std::abs(course.alpha),
                                        std::abs(course.alpha + course.beta * (q - p).norm()));
            return far < 0.3 * reach && std::abs(course.beta) * 0.5 * kPieceLength < 0.1;
        };
        for (int round = 0; round < 3 && line && (round > 0 || !wellPlaced(line->course));
             ++round) {
            const Course before = line->course;
            const double near = std::min(reach, std::max(2.0, 0.5 * reach));
            Pieces again = work.measure(stretches, before, near);
            if (static_cast<int>(again.found.size()) * 2 < again.tried || again.found.size() < 2) {
                line.reset();
                break;
            }
            line = throughPieces(again.found);
            pieces = std::move(again);
            if (line && std::abs(line->course.alpha - before.alpha) < 0.02 &&
                std::abs(line->course.beta - before.beta) * length < 0.02) {
                break;
            }
        }
    }
    if (pieces.unreadable * 5 > pieces.looked) {
        return refuse(Code::OutsideSheet, "",
                      "the mark lies outside the sheet or in a part that could not be decoded");
    }
    if (!line || static_cast<int>(line->kept.size()) * 2 < pieces.tried) {
        return refuse(Code::NoFit, "",
                      fmt::format("no {} stands out of the noise along the mark within {:.3g} px "
                                  "({} of {} pieces show one); place it nearer, or use fit none",
                                  what, reach, pieces.found.size(), pieces.tried));
    }
    StraightFit fit;
    fit.origin = p;
    fit.along = along;
    fit.normal = work.normal;
    fit.alpha = line->course.alpha;
    fit.beta = line->course.beta;
    fit.covariance = line->covariance;
    const auto count = static_cast<double>(line->kept.size());
    if (count > 2) {
        // Pieces that scatter more than their pixels' noise allows raise the uncertainty.
        const double freedom = count - 2;
        const double ratio = line->chi2 / freedom;
        if (ratio > 1 + std::sqrt(2 / freedom)) {
            fit.covariance *= ratio;
        }
    }
    double squares = 0;
    for (const Piece& piece : line->kept) {
        const double r = piece.offset - fit.alpha - fit.beta * piece.t;
        squares += r * r / count;
        fit.widthPx += piece.width / count;
        fit.pixels += piece.pixels;
    }
    fit.rmsPx = std::sqrt(squares);
    return fit;
}

}  // namespace imaging::mark
