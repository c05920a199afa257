#include "imaging/frame/solve_lens.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace imaging::frame {
namespace {

using Eigen::Vector2d;
using Eigen::VectorXd;
using evidence::frame::Lens;
using mark::PixelPoint;

constexpr double kCentreShare = 0.05;
constexpr double kDemanded = 3.29 * 3.29;
constexpr std::size_t kMostPoints = 40;  ///< of a line: more say no more than these
constexpr double kOfPictures = 4;        ///< scatter of k between pictures over what pixels say

/// At most kMostPoints, spread evenly.
StraightLine thinned(const StraightLine& line) {
    const std::size_t n = line.points.size();
    if (n <= kMostPoints) {
        return line;
    }
    StraightLine fewer;
    for (std::size_t i = 0; i < kMostPoints; ++i) {
        const std::size_t k = i * (n - 1) / (kMostPoints - 1);
        fewer.points.push_back(line.points[k]);
        fewer.covariances.push_back(line.covariances[k]);
    }
    return fewer;
}

struct Course {
    double bearing = 0;  ///< of the normal, rad
    double offset = 0;   ///< normal·p, px
};

Course courseOf(const std::vector<PixelPoint>& points) {
    Vector2d mean = Vector2d::Zero();
    for (const PixelPoint& p : points) {
        mean += p / static_cast<double>(points.size());
    }
    Eigen::Matrix2d spread = Eigen::Matrix2d::Zero();
    for (const PixelPoint& p : points) {
        spread += (p - mean) * (p - mean).transpose();
    }
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> eigen(spread);
    const Vector2d normal = eigen.eigenvectors().col(0);
    return {std::atan2(normal.y(), normal.x()), normal.dot(mean)};
}

/// Parameters: cx, cy, k1, (k2), then bearing and offset of each line.
class Plumb {
  public:
    Plumb(std::vector<StraightLine> lines, const PixelPoint& middle, double unit, double width,
          int terms)
        : m_lines(std::move(lines)), m_middle(middle), m_unit(unit), m_terms(terms) {
        for (const StraightLine& line : m_lines) {
            m_first.push_back(m_inputs.size());
            for (std::size_t i = 0; i < line.points.size(); ++i) {
                m_inputs.addBlock(line.points[i], line.covariances[i]);
            }
        }
        m_prior = m_inputs.addNumber(middle.x(), kCentreShare * width);
        m_inputs.addNumber(middle.y(), kCentreShare * width);
    }

    [[nodiscard]] const Inputs& inputs() const { return m_inputs; }

    [[nodiscard]] VectorXd start() const {
        VectorXd x = VectorXd::Zero(2 + m_terms + static_cast<Eigen::Index>(2 * m_lines.size()));
        x.head<2>() = m_middle;
        for (std::size_t j = 0; j < m_lines.size(); ++j) {
            const Course course = courseOf(m_lines[j].points);
            x(slot(j)) = course.bearing;
            x(slot(j) + 1) = course.offset;
        }
        return x;
    }

    [[nodiscard]] Lens lensAt(const VectorXd& x) const {
        Lens lens;
        lens.unit = m_unit;
        lens.parameters << x(0), x(1), x(2), m_terms > 1 ? x(3) : 0;
        return lens;
    }

    std::optional<std::vector<Tracked>> operator()(const VectorXd& z, const VectorXd& x) const {
        const Lens lens = lensAt(x);
        const int n = m_inputs.size();
        std::vector<Tracked> rows;
        for (std::size_t j = 0; j < m_lines.size(); ++j) {
            const auto at = slot(j);
            const Vector2d normal(std::cos(x(at)), std::sin(x(at)));
            const Vector2d turned(-normal.y(), normal.x());
            for (std::size_t i = 0; i < m_lines[j].points.size(); ++i) {
                const int input = m_first[j] + static_cast<int>(2 * i);
                const PixelPoint p(z(input), z(input + 1));
                if (!evidence::frame::unfolds(lens, p)) {
                    return std::nullopt;
                }
                const auto s = evidence::frame::straightened(lens, p);
                Tracked row{normal.dot(s.at) - x(at + 1), {}};
                const Eigen::RowVector2d byPixel = normal.transpose() * s.byPixel;
                row.by.emplace_back(input, byPixel(0));
                row.by.emplace_back(input + 1, byPixel(1));
                const Eigen::RowVector4d byLens = normal.transpose() * s.byLens;
                for (int k = 0; k < 2 + m_terms; ++k) {
                    row.by.emplace_back(n + k, byLens(k));
                }
                row.by.emplace_back(n + static_cast<int>(at), turned.dot(s.at));
                row.by.emplace_back(n + static_cast<int>(at) + 1, -1);
                rows.push_back(std::move(row));
            }
        }
        for (int k = 0; k < 2; ++k) {
            rows.push_back(variable(x(k), n + k) - variable(z(m_prior + k), m_prior + k));
        }
        return rows;
    }

  private:
    [[nodiscard]] Eigen::Index slot(std::size_t line) const {
        return 2 + m_terms + static_cast<Eigen::Index>(2 * line);
    }

    std::vector<StraightLine> m_lines;
    PixelPoint m_middle;
    double m_unit;
    int m_terms;
    Inputs m_inputs;
    std::vector<int> m_first;
    int m_prior = 0;
};

}  // namespace

Result<LensSolution> solveLens(std::span<const StraightLine> lines, double pictureWidth,
                               double pictureHeight) {
    std::vector<StraightLine> used;
    std::size_t points = 0;
    for (const StraightLine& line : lines) {
        if (line.points.size() >= 3) {
            used.push_back(thinned(line));
            points += used.back().points.size();
        }
    }
    const auto nothing = [] {
        return refuse(Code::NoSolution, "",
                      "the straight lines say nothing of the lens: give such as run long and far "
                      "from the middle of the picture, traced or with three points or more");
    };
    if (points < 2 * used.size() + 1 || used.empty()) {
        return nothing();
    }
    const PixelPoint middle(0.5 * (pictureWidth - 1), 0.5 * (pictureHeight - 1));
    const double unit = 0.5 * std::hypot(pictureWidth, pictureHeight);
    std::optional<LensSolution> chosen;
    for (const int terms : {1, 2}) {
        const Plumb plumb(used, middle, unit, pictureWidth, terms);
        const auto tried = adjust(plumb.inputs(), plumb.start(), plumb);
        if (!tried ||
            (chosen &&
             tried->chi2 >
                 chosen->chi2 - kDemanded * std::max(1.0, chosen->chi2 / chosen->redundancy))) {
            continue;
        }
        LensSolution solution;
        solution.lens = plumb.lensAt(tried->parameters);
        solution.covariance.topLeftCorner(2 + terms, 2 + terms) =
            tried->covariance.topLeftCorner(2 + terms, 2 + terms);
        solution.chi2 = tried->chi2;
        solution.redundancy = tried->redundancy;
        double squares = 0;
        for (Eigen::Index i = 0; i < tried->residuals.size() - 2; ++i) {
            squares += tried->residuals(i) * tried->residuals(i);
        }
        solution.rmsPx = std::sqrt(squares / static_cast<double>(points));
        chosen = solution;
    }
    // The doubt of k1 as a shift of the picture's corner: a twentieth of its half-diagonal is no
    // knowledge.
    if (!chosen || !(std::sqrt(chosen->covariance(2, 2)) < 0.05)) {
        return nothing();
    }
    const double scatter = chosen->redundancy > 0 ? chosen->chi2 / chosen->redundancy : 1;
    chosen->covariance *= std::max(1.0, scatter);
    Eigen::Vector4d raise(1, 1, kOfPictures, kOfPictures);
    chosen->covariance = raise.asDiagonal() * chosen->covariance * raise.asDiagonal();
    for (const StraightLine& line : used) {
        for (const PixelPoint& p : line.points) {
            chosen->reach =
                std::max(chosen->reach, (p - PixelPoint(chosen->lens.parameters.head<2>())).norm());
        }
    }
    return *chosen;
}

}  // namespace imaging::frame
