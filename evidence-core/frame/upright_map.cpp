#include "evidence-core/frame/upright_map.h"

#include "evidence-core/frame/dual.h"

#include <cmath>

namespace evidence::frame {
namespace {

/// Sine of the angle between pq and the direction from their middle to the homogeneous point v.
template <class T>
T sineToward(const Triple<T>& p, const Triple<T>& q, const Triple<T>& v) {
    const T mx = (p.x + q.x) * 0.5;
    const T my = (p.y + q.y) * 0.5;
    const T dx = v.x - v.z * mx;
    const T dy = v.y - v.z * my;
    const T ex = q.x - p.x;
    const T ey = q.y - p.y;
    return T((ex * dy - ey * dx) / sqrt((ex * ex + ey * ey) * (dx * dx + dy * dy)));
}

template <int N>
struct Scene {
    using T = Dual<N>;
    T psi, delta, u, v, scale;

    explicit Scene(const UprightMap& map)
        : psi(dualVariable<N>(map.parameters(0), 0)),
          delta(dualVariable<N>(map.parameters(1), 1)),
          u(dualVariable<N>(map.parameters(2), 2)),
          v(dualVariable<N>(map.parameters(3), 3)),
          scale(dualVariable<N>(map.parameters(4), 4)),
          m_map(map) {}

    [[nodiscard]] Triple<T> point(const Point& p, int first) const {
        return {T((dualVariable<N>(p.x(), first) - m_map.centre.x()) / m_map.unit),
                T((dualVariable<N>(p.y(), first + 1) - m_map.centre.y()) / m_map.unit), T(1.0)};
    }
    [[nodiscard]] Triple<T> vertical() const {
        const Point e = m_map.upward;
        return {T(e.x() - u * e.y()), T(e.y() + u * e.x()), v};
    }

  private:
    const UprightMap& m_map;
};

}  // namespace

std::optional<Derived<9>> heightOf(const UprightMap& map, const Point& base, const Point& top) {
    using T = Dual<9>;
    const Scene<9> scene(map);
    const Triple<T> b = scene.point(base, 5);
    const Triple<T> given = scene.point(top, 7);
    const Triple<T> v = scene.vertical();
    const T c = cos(scene.psi);
    const T s = sin(scene.psi);
    const T toHorizon = c * b.x + s * b.y - scene.delta;
    if (std::abs(toHorizon.value()) < 1e-3) {
        return std::nullopt;
    }
    // Foot of the top on the vertical through the base.
    const T dx = v.x - v.z * b.x;
    const T dy = v.y - v.z * b.y;
    const T along = ((given.x - b.x) * dx + (given.y - b.y) * dy) / (dx * dx + dy * dy);
    const Triple<T> t{T(b.x + along * dx), T(b.y + along * dy), T(1.0)};
    const Triple<T> bt = crossed(b, t);
    const Triple<T> vt = crossed(v, t);
    const T square = dotted(bt, bt) / (dotted(vt, vt) * toHorizon * toHorizon);
    if (!(square.value() > 0)) {
        return std::nullopt;
    }
    return derivedOf<9>(T(scene.scale * sqrt(square)));
}

Derived<9> offVertical(const UprightMap& map, const Point& p, const Point& q) {
    const Scene<9> scene(map);
    return derivedOf<9>(sineToward(scene.point(p, 5), scene.point(q, 7), scene.vertical()));
}

Derived<10> offGround(const UprightMap& map, double bearing, const Point& p, const Point& q) {
    using T = Dual<10>;
    const Scene<10> scene(map);
    const T beta = dualVariable<10>(bearing, 5);
    const T c = cos(scene.psi);
    const T s = sin(scene.psi);
    const Triple<T> v{T(cos(beta) * scene.delta * c - sin(beta) * s),
                      T(cos(beta) * scene.delta * s + sin(beta) * c), T(cos(beta))};
    return derivedOf<10>(sineToward(scene.point(p, 6), scene.point(q, 8), v));
}

}  // namespace evidence::frame
