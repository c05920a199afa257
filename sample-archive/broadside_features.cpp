#include "sample-archive/broadside_features.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace sample {

namespace {

class Taker {
  public:
    explicit Taker(const Broadside& view) : m_view(view) {}

    void along(const std::string& dimension, double from, double to, double y) {
        add(dimension, {m_view.onSide(from, y), m_view.onSide(to, y)}, to - from);
    }
    void up(const std::string& dimension, double from, double to, double x) {
        add(dimension, {m_view.onSide(x, from), m_view.onSide(x, to)}, to - from);
    }
    void add(const std::string& dimension, std::vector<cv::Point2d> points, double truth) {
        m_features.push_back({dimension, BroadsideFeature::Kind::Segment, std::move(points), truth,
                              -PlateKnowledge{}.standOff});
    }
    std::vector<BroadsideFeature> m_features;

  private:
    const Broadside& m_view;
};

}  // namespace

std::vector<cv::Point2d> plateEnds(const Broadside& view) {
    const double y = view.car.plateBottom + view.car.plateHeight / 2;
    return {view.onPlate(view.car.plateFrom, y),
            view.onPlate(view.car.plateFrom + view.car.plateLength, y)};
}

std::vector<BroadsideFeature> broadsideFeatures(const Broadside& view) {
    const Railcar& car = view.car;
    Taker take(view);
    take.along("d-body-length", 0, car.bodyLength, 46);
    take.along("d-front-to-window", 0, car.windows[0].from, 66);
    take.along("d-front-to-door", 0, car.doorFrom, 44);
    for (std::size_t i = 0; i < car.windows.size(); ++i) {
        take.along(fmt::format("d-window-{}-width", i + 1), car.windows[i].from,
                   car.windows[i].from + car.windows[i].width, 66);
    }
    for (const std::size_t i : {0U, 1U, 2U, 4U}) {
        take.along(fmt::format("d-pillar-{}-{}", i + 1, i + 2),
                   car.windows[i].from + car.windows[i].width, car.windows[i + 1].from, 64);
    }
    const double hoopEnds = (car.cantrailBottom + car.cantrailTop) / 2;
    for (std::size_t i = 1; i + 2 < car.hoops.size(); ++i) {
        // From front edge to front edge of the hoop ends: like edges, so that halation cancels.
        const double half = car.hoops[i].sided / 2;
        take.along(fmt::format("d-bay-{}", i + 1), car.hoops[i].station - half,
                   car.hoops[i + 1].station - half, hoopEnds);
    }
    take.along("d-door-width", car.doorFrom, car.doorFrom + car.doorWidth, 44);
    take.up("d-door-height", car.doorBottom, car.doorTop, car.doorFrom + car.doorWidth - 1.6);
    take.along("d-louvre-width", car.louvreFrom, car.louvreFrom + car.louvreWidth, 66);
    take.up("d-window-height", car.windowBottom, car.windowTop, car.windows[1].from + 8);
    take.up("d-sill-depth", car.sidingBottom, car.sillTop, 10.5);
    take.up("d-lower-panel", car.sillTop, car.waistBottom, 10.5);
    take.up("d-waist-depth", car.waistBottom, car.waistTop, 10.5);
    take.up("d-waist-to-window", car.waistTop, car.windowBottom, car.windows[1].from + 8);
    take.up("d-window-to-cantrail", car.windowTop, car.cantrailBottom, car.windows[1].from + 8);
    take.up("d-cantrail-depth", car.cantrailBottom, car.cantrailTop, 157.5);
    take.up("d-side-height", car.sidingBottom, car.cantrailTop, 157.5);

    // Wheels: the rim below the body, clear of the railhead.
    for (const double axle : {car.frontOverhang, car.frontOverhang + car.wheelbase}) {
        BroadsideFeature wheel;
        wheel.dimension = "d-wheel-diameter";
        wheel.kind = BroadsideFeature::Kind::Circle;
        wheel.truth = car.wheelDiameter;
        const double radius = car.wheelDiameter / 2;
        for (const double degrees : {170.0, 190.0, 210.0, 230.0, 310.0, 330.0, 350.0, 10.0}) {
            const double turn = degrees * std::numbers::pi / 180;
            wheel.points.push_back(view.camera.project(
                {axle + radius * std::cos(turn), radius + radius * std::sin(turn), view.wheelZ}));
        }
        // Wheel faces stand 10 1/4 in inside the body side.
        wheel.offset = -(PlateKnowledge{}.standOff + 31.0 - 20.75);
        take.m_features.push_back(std::move(wheel));
    }
    return take.m_features;
}

}  // namespace sample
