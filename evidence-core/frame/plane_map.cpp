#include "evidence-core/frame/plane_map.h"

namespace evidence::frame {

Eigen::Matrix3d PlaneMap::matrix() const {
    const Eigen::RowVector2d l = parameters.head<2>().transpose();
    Eigen::Matrix2d a;
    a << parameters(A), parameters(B), parameters(C), parameters(D);
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
    a << map.parameters(PlaneMap::A), map.parameters(PlaneMap::B), map.parameters(PlaneMap::C),
        map.parameters(PlaneMap::D);
    Position<PlaneMap::kParameters> position;
    const Eigen::Vector2d aq = a * q;
    position.at = aq + map.parameters.tail<2>();
    position.byPixel = a * (Eigen::Matrix2d::Identity() - q * l.transpose()) / (w * map.unit);
    position.byModel.col(PlaneMap::L1) = -aq * n.x() / w;
    position.byModel.col(PlaneMap::L2) = -aq * n.y() / w;
    position.byModel.col(PlaneMap::A) << q.x(), 0;
    position.byModel.col(PlaneMap::B) << q.y(), 0;
    position.byModel.col(PlaneMap::C) << 0, q.x();
    position.byModel.col(PlaneMap::D) << 0, q.y();
    position.byModel.col(PlaneMap::Tx) << 1, 0;
    position.byModel.col(PlaneMap::Ty) << 0, 1;
    return position;
}

}  // namespace evidence::frame
