#include "imaging/frame/known.h"

#include <Eigen/Dense>

#include <algorithm>

namespace imaging::frame {

Tracked onInputs(const Tracked& number, const Inputs& inputs, const Adjustment& adjustment) {
    Eigen::VectorXd row = Eigen::VectorXd::Zero(inputs.size());
    for (const auto& [index, slope] : number.by) {
        if (index < inputs.size()) {
            row(index) += slope;
        } else {
            row += slope * adjustment.byInputs.row(index - inputs.size()).transpose();
        }
    }
    Tracked result{number.value, {}};
    for (int i = 0; i < inputs.size(); ++i) {
        if (row(i) != 0) {
            result.by.emplace_back(i, row(i));
        }
    }
    return result;
}

Extent extentOf(const std::vector<Eigen::Vector2d>& points) {
    Extent extent;
    if (points.empty()) {
        return extent;
    }
    for (const auto& p : points) {
        extent.middle += p / static_cast<double>(points.size());
    }
    double farthest = 0;
    for (const auto& p : points) {
        farthest = std::max(farthest, (p - extent.middle).norm());
    }
    extent.size = farthest > 0 ? farthest : 1;
    return extent;
}

std::vector<Eigen::Vector2d> pointsOf(const Inputs& inputs, const Known& known) {
    const Eigen::VectorXd values = Eigen::Map<const Eigen::VectorXd>(
        inputs.values().data(), static_cast<Eigen::Index>(inputs.values().size()));
    const Reader reader(values, known.lens);
    std::vector<Eigen::Vector2d> points;
    const auto add = [&](const Feature& feature) {
        if (feature.isRound()) {
            for (const TrackedPoint& p : reader.rim(feature)) {
                points.push_back(p.at());
            }
        } else {
            points.push_back(reader.firstPoint(feature).at());
            points.push_back(reader.lastPoint(feature).at());
        }
    };
    for (const auto& point : known.points) {
        add(point.feature);
    }
    for (const auto& span : known.spans) {
        add(span.feature);
    }
    for (const auto* groups : {&known.parallel, &known.square, &known.ground}) {
        for (const auto& group : *groups) {
            std::for_each(group.begin(), group.end(), add);
        }
    }
    std::for_each(known.vertical.begin(), known.vertical.end(), add);
    return points;
}

std::optional<Eigen::Vector3d> vanishingPoint(const Reader& reader,
                                              const std::vector<Feature>& lines,
                                              const Extent& extent) {
    if (lines.size() < 2) {
        return std::nullopt;
    }
    Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
    for (const Feature& line : lines) {
        const Eigen::Vector2d p = (reader.firstPoint(line).at() - extent.middle) / extent.size;
        const Eigen::Vector2d q = (reader.lastPoint(line).at() - extent.middle) / extent.size;
        const Eigen::Vector3d through =
            Eigen::Vector3d(p.x(), p.y(), 1).cross(Eigen::Vector3d(q.x(), q.y(), 1));
        // Weight by the line's length: through.head = its normal times its length.
        sum += through * through.transpose();
    }
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(sum);
    Eigen::Vector3d v = eigen.eigenvectors().col(0);
    if (v.z() < 0) {
        v = -v;
    }
    return v;
}

}  // namespace imaging::frame
