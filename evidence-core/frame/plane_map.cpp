#include "evidence-core/frame/plane_map.h"

namespace evidence::frame {

Eigen::Matrix3d PlaneMap::matrix() const {
    const Eigen::RowVector2d l = parameters.head<2>().transpose();
    Eigen::Matrix2d a;
    a << parameters(kA), parameters(kB), parameters(kC), parameters(kD);
    const Eigen::Vector2d t = parameters.tail<2>();
    Eigen::Matrix3d h;
    h.topLeftCorner<2, 2>() = a + t * l;
    h.topRightCorner<2, 1>() = t;
    h.bottomLeftCorner<1, 2>() = l;
    h(2, 2) = 1;
    Eigen::Matrix3d normal;
    normal << 1 / unit, 0, -centre.x() / unit, 0, 1 / unit, -centre.y() / unit, 0, 0, 1;
    return h * normal;
}

std::optional<Position<PlaneMap::kParameters>> carried(const PlaneMap& map, const Point& pixel) {
    const Eigen::Vector2d n = (pixel - map.centre) / map.unit;
    const Eigen::Vector2d l = map.parameters.head<2>();
    const double w = 1 + l.dot(n);
    if (!(w > kLeastNearness)) {
        return std::nullopt;
    }
    const Eigen::Vector2d q = n / w;
    Eigen::Matrix2d a;
    a << map.parameters(PlaneMap::kA), map.parameters(PlaneMap::kB), map.parameters(PlaneMap::kC),
        map.parameters(PlaneMap::kD);
    Position<PlaneMap::kParameters> position;
    const Eigen::Vector2d aq = a * q;
    position.at = aq + map.parameters.tail<2>();
    position.byPixel = a * (Eigen::Matrix2d::Identity() - q * l.transpose()) / (w * map.unit);
    position.byModel.col(PlaneMap::kL1) = -aq * n.x() / w;
    position.byModel.col(PlaneMap::kL2) = -aq * n.y() / w;
    position.byModel.col(PlaneMap::kA) << q.x(), 0;
    position.byModel.col(PlaneMap::kB) << q.y(), 0;
    position.byModel.col(PlaneMap::kC) << 0, q.x();
    position.byModel.col(PlaneMap::kD) << 0, q.y();
    position.byModel.col(PlaneMap::kTx) << 1, 0;
    position.byModel.col(PlaneMap::kTy) << 0, 1;
    return position;
}

}  // namespace evidence::frame
