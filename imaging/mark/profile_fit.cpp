#include "imaging/mark/profile_fit.h"

#include "imaging/mark/profile_seed.h"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>

namespace imaging::mark {
namespace {

constexpr int kMostUnknowns = 7;
using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostUnknowns, 1>;
using Matrix =
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, kMostUnknowns, kMostUnknowns>;

constexpr double kLeastBlur = 0.05;
constexpr double kPixelVariance = 1.0 / 12;
constexpr double kMostBlur = 8;
constexpr double kLeastWidth = 0.3;
constexpr double kSteepest = 2;
constexpr double kFirstWindow = 8.5;  ///< px to either side, before the blur is known
constexpr double kSignificant = 36;   ///< six σ

/// Φ and φ by Taylor series from the nearest place of a table: to 1e-9, many times faster than
/// erfc, and asked for hundreds of thousands of times by one traced curve.
class NormalTable {
  public:
    struct Value {
        double integral;
        double density;
    };
    NormalTable() {
        for (std::size_t i = 0; i < m_values.size(); ++i) {
            const double z = static_cast<double>(i) / kPerUnit - kEnd;
            m_values[i] = {0.5 * std::erfc(-z / std::numbers::sqrt2),
                           std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi)};
        }
    }
    [[nodiscard, gnu::always_inline]] inline Value at(double z) const {
        if (!(z > -kEnd)) {
            return {0, 0};
        }
        if (z >= kEnd) {
            return {1, 0};
        }
        const auto cell = static_cast<std::size_t>((z + kEnd) * kPerUnit + 0.5);
        const double z0 = static_cast<double>(cell) / kPerUnit - kEnd;
        const double t = z - z0;
        const Value& near = m_values[cell];
        const double first = -z0;
        const double second = 0.5 * (z0 * z0 - 1);
        const double third = z0 * (3 - z0 * z0) / 6;
        return {near.integral +
                    near.density * t * (1 + t * (first / 2 + t * (second / 3 + t * third / 4))),
                near.density * (1 + t * (first + t * (second + t * third)))};
    }

  private:
    static constexpr double kEnd = 7;
    static constexpr double kPerUnit = 64;
    std::array<Value, static_cast<std::size_t>(2 * kEnd * kPerUnit) + 2> m_values{};
};

const NormalTable kNormal;

/// A blurred step as a pixel sees it: Φ(x/σ) averaged over the pixel's width, x from d − ½ to d +
/// ½, that is σ·[Ψ((d+½)/σ) − Ψ((d−½)/σ)] with Ψ(z) = zΦ(z) + φ(z). Exact for an edge along the
/// axes; for a slanted one the pixel is a trapezium of the same variance, 1/12.
struct Step {
    double value = 0;
    double byDistance = 0;
    double byBlur = 0;
};

[[gnu::always_inline]] inline Step stepAt(double distance, double blur) {
    const double inverse = 1 / blur;
    const double before = (distance - 0.5) * inverse;
    const double after = (distance + 0.5) * inverse;
    const auto [shareBefore, phiBefore] = kNormal.at(before);
    const auto [shareAfter, phiAfter] = kNormal.at(after);
    Step step;
    step.value = blur * (after * shareAfter + phiAfter - before * shareBefore - phiBefore);
    step.byDistance = shareAfter - shareBefore;
    step.byBlur = phiAfter - phiBefore;
    return step;
}

/// Order of the unknowns. The first ground is the level on the side of small u.
/// Edge: offset, slope, blur, ground, ground beyond.
/// Drawn line: offset of its middle, slope, blur, ground, ground beyond, ink, width.
enum Unknown { kOffset, kSlope, kBlur, kGround, kBeyond, kInk, kWidth };

[[gnu::always_inline]] inline double modelAt(Profile profile, const Vector& p, const Sample& sample,
                                             double* by) {
    const double slope = p(kSlope);
    const double stretch = slope == 0 ? 1 : std::sqrt(1 + slope * slope);
    const double along = sample.u - p(kOffset) - slope * sample.v;
    const double d = along / stretch;
    // Derivatives of the distance from the middle, d = along / stretch.
    const double dByOffset = -1 / stretch;
    const double dBySlope = -sample.v / stretch - along * slope / (stretch * stretch * stretch);
    if (profile == Profile::Edge) {
        const double rise = p(kBeyond) - p(kGround);
        const Step step = stepAt(d, p(kBlur));
        if (by != nullptr) {
            const double peak = rise * step.byDistance;
            by[kOffset] = peak * dByOffset;
            by[kSlope] = peak * dBySlope;
            by[kBlur] = rise * step.byBlur;
            by[kGround] = 1 - step.value;
            by[kBeyond] = step.value;
        }
        return p(kGround) + rise * step.value;
    }
    const double half = 0.5 * p(kWidth);
    const Step left = stepAt(d + half, p(kBlur));
    const Step right = stepAt(d - half, p(kBlur));
    const double fall = p(kInk) - p(kGround);
    const double rise = p(kBeyond) - p(kInk);
    if (by != nullptr) {
        const double peakLeft = fall * left.byDistance;
        const double peakRight = rise * right.byDistance;
        by[kOffset] = (peakLeft + peakRight) * dByOffset;
        by[kSlope] = (peakLeft + peakRight) * dBySlope;
        by[kBlur] = fall * left.byBlur + rise * right.byBlur;
        by[kGround] = 1 - left.value;
        by[kBeyond] = right.value;
        by[kInk] = left.value - right.value;
        by[kWidth] = 0.5 * (peakLeft - peakRight);
    }
    return p(kGround) + fall * left.value + rise * right.value;
}

void keepInBounds(Profile profile, Vector& p) {
    p(kBlur) = std::clamp(p(kBlur), kLeastBlur, kMostBlur);
    p(kSlope) = std::clamp(p(kSlope), -kSteepest, kSteepest);
    if (profile == Profile::DrawnLine) {
        p(kWidth) = std::max(p(kWidth), kLeastWidth);
    }
}

struct Normal {
    Matrix matrix;
    Vector gradient;
    double squares = 0;
};

/// The sums, with the number of unknowns known to the compiler: the inner loop of all fits.
template <int N>
Normal sumsOf(const Vector& given, std::span<const Sample> samples) {
    const Vector p = given;  // a copy that no write in the loop can touch
    Eigen::Matrix<double, N, N> matrix = Eigen::Matrix<double, N, N>::Zero();
    Eigen::Matrix<double, N, 1> gradient = Eigen::Matrix<double, N, 1>::Zero();
    Normal normal{Matrix(), Vector(), 0};
    Eigen::Matrix<double, N, 1> row;
    for (const Sample& sample : samples) {
        const double residual = sample.value - modelAt(N == 5 ? Profile::Edge : Profile::DrawnLine,
                                                       p, sample, row.data());
        for (int j = 0; j < N; ++j) {
            for (int i = j; i < N; ++i) {
                matrix(i, j) += row(i) * row(j);
            }
            gradient(j) += residual * row(j);
        }
        normal.squares += residual * residual;
    }
    normal.matrix = matrix.template selfadjointView<Eigen::Lower>();
    normal.gradient = gradient;
    return normal;
}

Normal normalEquations(Profile profile, const Vector& p, std::span<const Sample> samples) {
    return profile == Profile::Edge ? sumsOf<5>(p, samples) : sumsOf<7>(p, samples);
}

void holdSlope(Normal& normal) {
    normal.matrix.row(kSlope).setZero();
    normal.matrix.col(kSlope).setZero();
    normal.matrix(kSlope, kSlope) = 1;
    normal.gradient(kSlope) = 0;
}

/// Levenberg-Marquardt until a step moves less than `enough` px; `p` is moved to the minimum, the
/// last normal equations are returned.
Normal minimise(Profile profile, Slope slope, std::span<const Sample> samples, Vector& p,
                double enough) {
    double damping = 1e-4;
    Normal normal = normalEquations(profile, p, samples);
    if (slope == Slope::Fixed) {
        holdSlope(normal);
    }
    for (int i = 0; i < 60; ++i) {
        Matrix damped = normal.matrix;
        for (Eigen::Index k = 0; k < p.size(); ++k) {
            damped(k, k) += damping * normal.matrix(k, k) + 1e-12;
        }
        Vector next = p + damped.ldlt().solve(normal.gradient);
        keepInBounds(profile, next);
        Normal there{Matrix(), Vector(), -1};
        if (next.allFinite()) {
            there = normalEquations(profile, next, samples);
        }
        if (there.squares >= 0 && there.squares <= normal.squares) {
            const double gain = normal.squares - there.squares;
            const double moved = std::abs(next(kOffset) - p(kOffset));
            p = next;
            normal = std::move(there);
            if (slope == Slope::Fixed) {
                holdSlope(normal);
            }
            damping = std::max(1e-9, 0.2 * damping);
            if (gain <= 1e-6 * normal.squares && moved < enough) {
                break;
            }
        } else {
            // At the minimum rounding alone refuses a step.
            const bool arrived =
                next.allFinite() && std::abs(next(kOffset) - p(kOffset)) < 0.1 * enough;
            damping *= 8;
            if (arrived || damping > 1e8) {
                break;
            }
        }
    }
    return normal;
}

/// Residual squares of the best even slope of grey, value = a + b·u + c·v: what there is without an
/// edge.
double evenSquares(std::span<const Sample> samples) {
    Eigen::Matrix3d a = Eigen::Matrix3d::Zero();
    Eigen::Vector3d b = Eigen::Vector3d::Zero();
    for (const Sample& sample : samples) {
        const Eigen::Vector3d row(1, sample.u, sample.v);
        a += row * row.transpose();
        b += sample.value * row;
    }
    const Eigen::Vector3d x = a.ldlt().solve(b);
    double squares = 0;
    for (const Sample& sample : samples) {
        const double r = sample.value - x(0) - x(1) * sample.u - x(2) * sample.v;
        squares += r * r;
    }
    return squares;
}

LagSums lagsOf(Profile profile, const Vector& p, std::span<const Sample> samples) {
    int left = samples.front().x;
    int top = samples.front().y;
    int right = left;
    int bottom = top;
    for (const Sample& sample : samples) {
        left = std::min(left, sample.x);
        right = std::max(right, sample.x);
        top = std::min(top, sample.y);
        bottom = std::max(bottom, sample.y);
    }
    const Eigen::Index reach = LagSums::kReach;
    const Eigen::Index width = right - left + 1 + 2 * reach;
    const Eigen::Index height = bottom - top + 1 + 2 * reach;
    Eigen::ArrayXXd residual = Eigen::ArrayXXd::Zero(height, width);
    Eigen::ArrayXXd present = Eigen::ArrayXXd::Zero(height, width);
    LagSums sums;
    for (const Sample& sample : samples) {
        const double r = sample.value - modelAt(profile, p, sample, nullptr);
        residual(sample.y - top + reach, sample.x - left + reach) = r;
        present(sample.y - top + reach, sample.x - left + reach) = 1;
        sums.square += r * r;
        sums.count += 1;
    }
    const Eigen::Index rows = height - 2 * reach;
    const Eigen::Index columns = width - 2 * reach;
    std::size_t lag = 0;
    for (Eigen::Index dy = 0; dy <= reach; ++dy) {
        for (Eigen::Index dx = dy == 0 ? 1 : -reach; dx <= reach; ++dx, ++lag) {
            sums.product[lag] = (residual.block(reach, reach, rows, columns) *
                                 residual.block(reach + dy, reach + dx, rows, columns))
                                    .sum();
            sums.pairs[lag] = (present.block(reach, reach, rows, columns) *
                               present.block(reach + dy, reach + dx, rows, columns))
                                  .sum();
        }
    }
    return sums;
}

std::vector<Sample> within(const std::vector<Sample>& samples, const Vector& p, double from,
                           double to) {
    std::vector<Sample> kept;
    for (const Sample& sample : samples) {
        const double u = sample.u - p(kSlope) * sample.v;
        if (u >= from && u <= to) {
            kept.push_back(sample);
        }
    }
    return kept;
}

double meanOf(std::span<const Sample> samples, double from, double to) {
    double sum = 0;
    double count = 0;
    for (const Sample& sample : samples) {
        if (sample.u >= from && sample.u <= to) {
            sum += sample.value;
            count += 1;
        }
    }
    return count > 0 ? sum / count : 0;
}

Vector startOf(const ProfileSeed& seed, std::span<const Sample> samples) {
    Vector p(seed.profile == Profile::Edge ? 5 : 7);
    p(kOffset) = seed.at;
    p(kSlope) = 0;
    p(kBlur) = seed.blur;
    const double left = seed.at - 0.5 * seed.width;
    const double right = seed.at + 0.5 * seed.width;
    p(kGround) = meanOf(samples, seed.from, 0.5 * (seed.from + left));
    p(kBeyond) = meanOf(samples, 0.5 * (right + seed.to), seed.to);
    if (seed.profile == Profile::DrawnLine) {
        p(kInk) = meanOf(samples, seed.at - 0.6, seed.at + 0.6);
        p(kWidth) = seed.width;
    }
    return p;
}

/// Inverse that leaves out what the pixels do not determine (width and ink of a line thinner than
/// its blur cannot be told apart); unknowns are scaled alike first, for their units differ.
Matrix pseudoInverse(const Matrix& normal) {
    const Vector scale = normal.diagonal().cwiseMax(1e-300).cwiseSqrt().cwiseInverse();
    const Matrix scaled = scale.asDiagonal() * normal * scale.asDiagonal();
    const Eigen::SelfAdjointEigenSolver<Matrix> eigen(scaled);
    Matrix inverse = Matrix::Zero(normal.rows(), normal.cols());
    for (Eigen::Index i = 0; i < normal.rows(); ++i) {
        if (eigen.eigenvalues()(i) > 1e-9) {
            inverse += eigen.eigenvectors().col(i) * eigen.eigenvectors().col(i).transpose() /
                       eigen.eigenvalues()(i);
        }
    }
    return scale.asDiagonal() * inverse * scale.asDiagonal();
}

struct Solved {
    Vector p;
    Normal normal;
    std::vector<Sample> used;
};

std::optional<Solved> solveFrom(const std::vector<Sample>& samples, const ProfileSeed& seed,
                                Slope slope, double startSlope) {
    Solved solved;
    solved.p = startOf(seed, samples);
    solved.p(kSlope) = startSlope;
    const double near = kFirstWindow + 0.5 * seed.width;
    double from = std::max(seed.from, seed.at - near);
    double to = std::min(seed.to, seed.at + near);
    // The second round uses what the first found out about blur and slope to set its window.
    for (int round = 0; round < 2; ++round) {
        solved.used = within(samples, solved.p, from, to);
        if (static_cast<Eigen::Index>(solved.used.size()) < solved.p.size() + 6) {
            return std::nullopt;
        }
        // Hundredths of a pixel are enough to set a window by.
        solved.normal =
            minimise(seed.profile, slope, solved.used, solved.p, round == 0 ? 1e-2 : 2e-4);
        const double reach = std::clamp(4.5 * solved.p(kBlur) + 3, 5.0, 16.0);
        const double half = seed.profile == Profile::DrawnLine ? 0.5 * solved.p(kWidth) : 0;
        from = std::max(seed.from, solved.p(kOffset) - half - reach);
        to = std::min(seed.to, solved.p(kOffset) + half + reach);
    }
    return solved;
}

}  // namespace

void LagSums::add(const LagSums& other) {
    for (std::size_t i = 0; i < product.size(); ++i) {
        product[i] += other.product[i];
        pairs[i] += other.pairs[i];
    }
    square += other.square;
    count += other.count;
}

double correlationFactor(const LagSums& lags, const PixelPoint& normal, double blur) {
    if (lags.count < 30 || !(lags.square > 0)) {
        return 1;
    }
    const double variance = lags.square / lags.count;
    double factor = 1;
    std::size_t lag = 0;
    for (int dy = 0; dy <= LagSums::kReach; ++dy) {
        for (int dx = dy == 0 ? 1 : -LagSums::kReach; dx <= LagSums::kReach; ++dx, ++lag) {
            const double pairs = lags.pairs[lag];
            if (pairs < 20) {
                continue;
            }
            const double rho = lags.product[lag] / pairs / variance;
            if (rho < 2.5 / std::sqrt(pairs)) {
                continue;
            }
            const double apart = dx * normal.x() + dy * normal.y();
            factor += 2 * rho * std::exp(-0.25 * apart * apart / (blur * blur));
        }
    }
    return factor;
}

std::optional<ProfileFit> fitProfile(const std::vector<Sample>& samples,
                                     const ProfileSearch& search) {
    const auto seed = seedProfile(samples, search);
    if (!seed) {
        return std::nullopt;
    }
    std::optional<Solved> best;
    const auto attempt = [&](double startSlope) {
        auto solved = solveFrom(samples, *seed, search.slope, startSlope);
        if (solved &&
            (!best || solved->normal.squares / static_cast<double>(solved->used.size()) <
                          best->normal.squares / static_cast<double>(best->used.size()))) {
            best = std::move(solved);
        }
    };
    attempt(0);
    if (search.slope == Slope::Free) {
        attempt(0.5);
        attempt(-0.5);
    }
    if (!best) {
        return std::nullopt;
    }
    const Vector& p = best->p;
    const double count = static_cast<double>(best->used.size());
    const double unknowns = static_cast<double>(p.size()) - (search.slope == Slope::Fixed ? 1 : 0);
    ProfileFit fit;
    fit.noise = std::max(search.leastNoise, std::sqrt(best->normal.squares / (count - unknowns)));
    fit.significance = (evenSquares(best->used) - best->normal.squares) / (fit.noise * fit.noise);
    fit.lags = lagsOf(seed->profile, p, best->used);
    // The correlation of the residuals makes chance edges likelier; axis unknown here, so all of
    // it.
    const double kappa = correlationFactor(fit.lags, PixelPoint(0, 0), 1);
    if (!(fit.significance >= kSignificant * kappa)) {
        return std::nullopt;
    }
    const Matrix inverse = pseudoInverse(best->normal.matrix);
    Vector wanted = Vector::Zero(p.size());
    wanted(kOffset) = 1;
    fit.offset = p(kOffset);
    if (seed->profile == Profile::DrawnLine && seed->side != 0) {
        const double stretch = std::sqrt(1 + p(kSlope) * p(kSlope));
        fit.offset += 0.5 * seed->side * p(kWidth) * stretch;
        wanted(kWidth) = 0.5 * seed->side * stretch;
    }
    fit.slope = p(kSlope);
    fit.variance = fit.noise * fit.noise * wanted.dot(inverse * wanted);
    fit.blur = std::sqrt(p(kBlur) * p(kBlur) + kPixelVariance);
    fit.pixels = static_cast<long>(best->used.size());
    if (seed->profile == Profile::DrawnLine) {
        fit.width = p(kWidth);
        fit.contrast = p(kInk) - 0.5 * (p(kGround) + p(kBeyond));
    } else {
        fit.contrast = p(kBeyond) - p(kGround);
    }
    const bool sane = std::isfinite(fit.offset) && fit.variance > 0 &&
                      std::abs(fit.offset) <= search.reach + 1 && fit.blur < kMostBlur;
    return sane ? std::optional(fit) : std::nullopt;
}

Band bandOf(const raster::GreyImage& image, const PixelPoint& at, const PixelPoint& axis,
            double halfLength, double halfBand) {
    const PixelPoint along(-axis.y(), axis.x());
    const double reachX = std::abs(axis.x()) * halfLength + std::abs(along.x()) * halfBand;
    const double reachY = std::abs(axis.y()) * halfLength + std::abs(along.y()) * halfBand;
    Band band;
    for (int y = static_cast<int>(std::ceil(at.y() - reachY)); y <= at.y() + reachY; ++y) {
        for (int x = static_cast<int>(std::ceil(at.x() - reachX)); x <= at.x() + reachX; ++x) {
            const PixelPoint away(x - at.x(), y - at.y());
            const double u = away.dot(axis);
            const double v = away.dot(along);
            if (std::abs(u) > halfLength || std::abs(v) > halfBand) {
                continue;
            }
            if (!image.readable(x, y)) {
                ++band.unreadable;
                continue;
            }
            band.samples.push_back({u, v, image.at(x, y), x, y});
        }
    }
    return band;
}

}  // namespace imaging::mark
