#include "sample-archive/broadside_scene.h"

#include "sample-archive/lettering.h"
#include "sample-archive/surface.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sample {

namespace {

constexpr double kPlateResolution = 24.0;
constexpr double kSideResolution = 12.0;
constexpr double kCream = 0.74;
constexpr double kTeal = 0.13;
constexpr double kTeak = 0.25;
constexpr double kSill = 0.30;
constexpr double kRoofStep = 0.6;

cv::Vec3d at(const cv::Vec3d& eye, const cv::Vec3d& direction, double z) {
    return eye + direction * ((z - eye[2]) / direction[2]);
}

bool within(double value, double low, double high) {
    return value >= low && value < high;
}

}  // namespace

BroadsideScene::BroadsideScene(const Railcar& car)
    : m_car(car),
      m_plateFace(plateFace(car.plateLength, car.plateHeight, kPlateResolution)),
      m_sideLetters(sideLetters(car.bodyLength, car.waistBottom - car.sillTop, kSideResolution)) {
    // Height of the roof over the eaves as a share of the crown's, from the side to past the crown.
    const double half = bodyZ();
    for (double z = half; z > -6; z -= kRoofStep) {
        const double share = std::pow(std::abs(z) / half, 2.3);
        m_roofShare.push_back(std::pow(std::max(0.0, 1 - share), 0.62));
    }
}

double BroadsideScene::light(const cv::Vec3d& eye, const cv::Vec3d& direction) const {
    double tone = 0;
    const auto meets = [&](double z, auto shade) {
        const cv::Vec3d point = at(eye, direction, z);
        return (this->*shade)(point[0], point[1], tone);
    };
    // The foot of a ray on the ballast decides whether anything behind that point can be seen.
    const double groundY = -3.4;
    double groundZ = -1e9;
    if (direction[1] < 0) {
        groundZ = eye[2] + direction[2] * ((groundY - eye[1]) / direction[1]);
    }
    const auto clear = [&](double z) { return groundZ < z; };

    if (clear(plateZ()) && meets(plateZ(), &BroadsideScene::plate)) return tone;
    if (clear(bodyZ() + 6) && meets(bodyZ() + 6, &BroadsideScene::step)) return tone;
    if (clear(bodyZ()) && meets(bodyZ(), &BroadsideScene::bodySide)) return tone;
    if (roof(eye, direction, tone)) return tone;
    if (clear(27.0) && meets(27.0, &BroadsideScene::headstock)) return tone;
    if (clear(wheelZ()) && meets(wheelZ(), &BroadsideScene::wheel)) return tone;
    if (clear(20.5) && meets(20.5, &BroadsideScene::rail)) return tone;
    if (clear(16.75) && meets(16.75, &BroadsideScene::flange)) return tone;
    const double channelZ = m_car.channelSpacing / 2;
    if (clear(channelZ) && meets(channelZ, &BroadsideScene::channel)) return tone;
    if (clear(-20.5) && meets(-20.5, &BroadsideScene::rail)) return tone * 0.6;
    if (groundZ > -1400) {
        const cv::Vec3d point = at(eye, direction, groundZ);
        return ground(point[0], groundZ);
    }
    return hillside(direction[0] / -direction[2], direction[1] / -direction[2]);
}

bool BroadsideScene::plate(double x, double y, double& tone) const {
    const double along = x - m_car.plateFrom;
    const double up = y - m_car.plateBottom;
    if (within(along, 0, m_car.plateLength) && within(up, 0, m_car.plateHeight)) {
        tone = sampled(m_plateFace, along * kPlateResolution,
                       (m_car.plateHeight - up) * kPlateResolution);
        return true;
    }
    // Two flat hangers carry it from under the body.
    for (const double hanger : {3.0, 14.0}) {
        if (within(along, hanger, hanger + 1.0) &&
            within(y, m_car.plateBottom + m_car.plateHeight, m_car.sidingBottom + 0.5)) {
            tone = 0.10;
            return true;
        }
    }
    return false;
}

bool BroadsideScene::step(double x, double y, double& tone) const {
    const double from = m_car.doorFrom + m_car.doorWidth / 2 - m_car.stepLength / 2;
    if (!within(x, from, from + m_car.stepLength)) return false;
    if (within(y, m_car.stepTop - m_car.stepThickness, m_car.stepTop)) {
        tone = 0.60 + 0.03 * boardGrain(x, y * 6, 3);
        return true;
    }
    for (const double iron : {from + 2.0, from + m_car.stepLength - 3.25}) {
        if (within(x, iron, iron + 1.25) && within(y, m_car.stepTop, m_car.sidingBottom + 0.2)) {
            tone = 0.09;
            return true;
        }
    }
    return false;
}

bool BroadsideScene::nearJoinery(double x, double y) const {
    constexpr double kKeep = 0.9;
    if (y > m_car.waistTop) {
        for (const Opening& window : m_car.windows) {
            if (within(x, window.from - kKeep, window.from + window.width + kKeep)) return true;
        }
    }
    return within(x, m_car.doorFrom - kKeep, m_car.doorFrom + m_car.doorWidth + kKeep) ||
           (y > m_car.waistTop &&
            within(x, m_car.louvreFrom - kKeep, m_car.louvreFrom + m_car.louvreWidth + kKeep)) ||
           x < kKeep || x > m_car.bodyLength - kKeep;
}

double BroadsideScene::panel(double x, double y) const {
    // Matchboards three inches wide, vee-jointed; each board takes the paint a little differently.
    constexpr double kBoard = 3.0;
    const double place = x / kBoard;
    const double offset = std::abs(place - std::round(place)) * kBoard;
    const auto board = static_cast<std::int64_t>(std::floor(place));
    double tone = kCream + 0.035 * (boardTone(board) - 0.5) + 0.015 * boardGrain(x, y, 5);
    if (offset < 0.13 && !nearJoinery(x, y)) tone -= 0.20;
    // The foot of the side is splashed.
    const double splash = std::exp(-(y - m_car.sillTop) / 4.0);
    return tone - 0.05 * splash * boardGrain(x / 3, y / 3, 9);
}

double BroadsideScene::window(double x, double y, double from, double width, double bottom) const {
    constexpr double kSash = 1.75;
    const double fromEdge = std::min({x - from, from + width - x, y - bottom, m_car.windowTop - y});
    if (fromEdge < kSash) return kTeak - 0.03 + 0.02 * boardGrain(x, y, 11);
    const double sky = (x - from) / width * 0.6 + (y - bottom) / 22.0 * 0.4;
    double glass = 0.05 + 0.05 * sky;
    if (within((x - from) - 0.5 * (y - bottom), 0.0, 3.5)) glass += 0.05;
    return glass;
}

double BroadsideScene::door(double x, double y) const {
    const double in = x - m_car.doorFrom;
    const double up = y - m_car.doorBottom;
    const double width = m_car.doorWidth;
    // Dropping light above, a sunk panel below, a brass handle at the waist.
    if (within(in, 3.25, width - 3.25) && within(y, m_car.windowBottom, m_car.windowTop - 2.5)) {
        return window(x, y, m_car.doorFrom + 3.25, width - 6.5, m_car.windowBottom);
    }
    if (within(in, 3.25, width - 3.25) && within(up, 4.0, 22.0)) {
        const double edge = std::min({in - 3.25, width - 3.25 - in, up - 4.0, 22.0 - up});
        if (edge < 0.5) return kTeak - 0.10;
        return kTeak + 0.03 + 0.03 * boardGrain(x, y, 13);
    }
    if (within(in, 1.0, 2.25) && within(y, 47.0, 51.5)) return 0.78;
    return kTeak + 0.02 * boardGrain(x, y, 15);
}

bool BroadsideScene::bodySide(double x, double y, double& tone) const {
    const double top = m_car.cantrailTop + m_car.roofBatten;
    if (!within(x, 0, m_car.bodyLength) || !within(y, m_car.sidingBottom, top)) {
        // The roof canvas passes the body ends by its overhang, at the batten only.
        if (within(y, m_car.cantrailTop, top) &&
            within(x, -m_car.roofOverhang, m_car.bodyLength + m_car.roofOverhang)) {
            tone = 0.50;
            return true;
        }
        return false;
    }
    if (y >= m_car.cantrailTop) {
        tone = 0.50;
        return true;
    }
    if (within(x, m_car.doorFrom, m_car.doorFrom + m_car.doorWidth) &&
        within(y, m_car.doorBottom, m_car.doorTop)) {
        tone = door(x, y);
        return true;
    }
    if (y >= m_car.cantrailBottom) {
        tone = kTeal + 0.012 * boardGrain(x, y, 1);
        // The hoops come through the cantrail; their ends are left in bare oak.
        for (const Hoop& hoop : m_car.hoops) {
            if (std::abs(x - hoop.station) < hoop.sided / 2 &&
                within(y, m_car.cantrailBottom + 1.0, m_car.cantrailTop - 1.0)) {
                tone = 0.60 + 0.03 * boardGrain(x * 3, y * 3, 2);
            }
        }
        return true;
    }
    if (y < m_car.sillTop) {
        tone = kSill + 0.012 * boardGrain(x, y, 1);
        return true;
    }
    if (within(y, m_car.waistBottom, m_car.waistTop)) {
        tone = kTeal + 0.012 * boardGrain(x, y, 1);
        return true;
    }
    for (const Opening& window : m_car.windows) {
        if (within(x, window.from, window.from + window.width) &&
            within(y, m_car.windowBottom, m_car.windowTop)) {
            tone = this->window(x, y, window.from, window.width, m_car.windowBottom);
            return true;
        }
    }
    if (within(x, m_car.louvreFrom, m_car.louvreFrom + m_car.louvreWidth) &&
        within(y, m_car.windowBottom, m_car.windowTop)) {
        const double slat = std::fmod(y - m_car.windowBottom, 1.5) / 1.5;
        tone = 0.10 + 0.20 * slat;
        return true;
    }
    tone = panel(x, y);
    if (y < m_car.waistBottom) {
        const double gilt =
            sampled(m_sideLetters, x * kSideResolution, (m_car.waistBottom - y) * kSideResolution);
        tone = tone * (1 - gilt) + 0.20 * gilt;
    }
    return true;
}

double BroadsideScene::crown(double x) const {
    const auto& hoops = m_car.hoops;
    std::size_t bay = 1;
    while (bay + 1 < hoops.size() && x > hoops[bay].station) ++bay;
    const Hoop& before = hoops[bay - 1];
    const Hoop& after = hoops[bay];
    const double along =
        std::clamp((x - before.station) / (after.station - before.station), 0.0, 1.0);
    // Canvas on boards hollows a little between the hoops.
    const double hollow = 0.12 * 4 * along * (1 - along);
    return m_car.cantrailTop + before.rise + (after.rise - before.rise) * along - hollow;
}

bool BroadsideScene::roof(const cv::Vec3d& eye, const cv::Vec3d& direction, double& tone) const {
    const double eaves = m_car.cantrailTop + m_car.roofBatten;
    const double halfWidth = bodyZ();
    if (at(eye, direction, halfWidth)[1] < eaves - 0.5) return false;
    const double x0 = at(eye, direction, 0)[0];
    if (x0 < -m_car.roofOverhang || x0 > m_car.bodyLength + m_car.roofOverhang) return false;
    const double rise = crown(x0) - eaves;
    if (at(eye, direction, 0)[1] > eaves + rise + 4) return false;
    for (std::size_t i = 1; i < m_roofShare.size(); ++i) {
        const double z = halfWidth - kRoofStep * static_cast<double>(i);
        if (at(eye, direction, z)[1] < eaves + rise * m_roofShare[i]) {
            const double slope = rise * (m_roofShare[i] - m_roofShare[i - 1]) / kRoofStep;
            const double cosine = (0.82 + 0.45 * slope) / std::sqrt(1 + slope * slope);
            const double middle = z + kRoofStep / 2;
            const double x = at(eye, direction, middle)[0];
            tone = std::clamp(0.30 + 0.42 * cosine, 0.1, 0.85) + 0.02 * boardGrain(x, middle, 21);
            return true;
        }
    }
    return false;
}

bool BroadsideScene::headstock(double x, double y, double& tone) const {
    const double from = -m_car.headstockProjection;
    const double to = m_car.bodyLength + m_car.headstockProjection;
    if ((within(x, from, 0.5) || within(x, m_car.bodyLength - 0.5, to)) && within(y, 13.5, 21.5)) {
        tone = 0.24;
        return true;
    }
    for (const double side : {-1.0, 1.0}) {
        const double face = side < 0 ? from : to;
        const double out = (x - face) * side;
        if (!within(out, 0, m_car.bufferProjection)) continue;
        const double off = y - m_car.bufferHeight;
        const bool head = out > m_car.bufferProjection - 1.25;
        const double radius = head ? 5.0 : (out < 3.5 ? 2.75 : 1.5);
        if (std::abs(off) < radius) {
            const double round = off / radius;
            tone = static_cast<double>(0.12 +
                                       0.28 * std::sqrt(1 - round * round) * (0.6 + 0.4 * round));
            return true;
        }
    }
    return false;
}

bool BroadsideScene::wheel(double x, double y, double& tone) const {
    const double tyre = m_car.wheelDiameter / 2;
    for (const double axle : {m_car.frontOverhang, m_car.frontOverhang + m_car.wheelbase}) {
        const double dx = x - axle;
        const double dy = y - tyre;
        const double r = std::hypot(dx, dy);
        if (r >= tyre) continue;
        if (r > tyre - 2.0) {
            tone = 0.50 + 0.02 * boardGrain(dx * 3, dy * 3, 31);
        } else if (r > tyre - 3.0) {
            tone = 0.16;
        } else if (r < 3.5) {
            tone = r < 1.5 ? 0.40 : 0.22;
        } else {
            const double turn = std::atan2(dy, dx) * 8 / (2 * std::numbers::pi) + 0.25;
            const double across = std::abs(turn - std::round(turn)) * 2 * std::numbers::pi / 8 * r;
            if (across > 0.75) continue;
            tone = 0.20;
        }
        return true;
    }
    return false;
}

bool BroadsideScene::flange(double x, double y, double& tone) const {
    const double tyre = m_car.wheelDiameter / 2;
    for (const double axle : {m_car.frontOverhang, m_car.frontOverhang + m_car.wheelbase}) {
        const double r = std::hypot(x - axle, y - tyre);
        if (r < tyre + m_car.flangeDepth && r > tyre - 3.0) {
            tone = 0.11;
            return true;
        }
    }
    return false;
}

bool BroadsideScene::rail(double x, double y, double& tone) const {
    if (within(y, -1.3, 0.0)) {
        tone = (y > -0.3 ? 0.55 : 0.26) + 0.03 * boardGrain(x / 4, y * 4, 41);
        return true;
    }
    if (within(y, -3.6, -1.3)) {
        tone = 0.12;
        return true;
    }
    if (within(y, -4.4, -3.6)) {
        tone = 0.20;
        return true;
    }
    return false;
}

bool BroadsideScene::channel(double x, double y, double& tone) const {
    if (!within(x, 0.5, m_car.bodyLength - 0.5)) return false;
    if (within(y, m_car.channelTop - m_car.channelDepth, m_car.channelTop)) {
        const bool lip =
            y > m_car.channelTop - 0.5 || y < m_car.channelTop - m_car.channelDepth + 0.5;
        tone = lip ? 0.075 : 0.06;
        return true;
    }
    if (y >= m_car.channelTop && y < m_car.cantrailTop) {
        tone = 0.055;
        return true;
    }
    return false;
}

double BroadsideScene::ground(double x, double z) const {
    double tone = 0.36 + 0.34 * (stones(x, z, 51) - 0.5);
    // Sleepers, six feet long, at 27 in centres.
    const double place = x / 27.0 + 0.3;
    if (std::abs(z) < 36 && std::abs(place - std::round(place)) * 27.0 < 4.5) {
        tone = 0.30 + 0.08 * (boardGrain(x * 2, z / 6, 53) - 0.5);
    }
    if (z > 60) tone += 0.10 * (stones(x / 6, z / 6, 55) - 0.3);
    // The sun stands high behind the photographer's shoulder: shade under the car, soft at its rim.
    const double inside = std::min({x + 2.0, m_car.bodyLength + 6.0 - x, 26.0 - z, z + 70.0});
    const double shade = std::clamp(inside / 5.0, 0.0, 1.0);
    return tone * static_cast<double>(1 - 0.72 * shade);
}

double BroadsideScene::hillside(double along, double up) const {
    const double skyline = 0.108 + 0.007 * std::sin(along * 9 + 1) + 0.003 * std::sin(along * 31) +
                           0.0025 * (softNoise(along * 220, 0.0, 61) - 0.5);
    const double haze = std::clamp((up + 0.01) / 0.12, 0.0, 1.0);
    const double trees = 0.16 + 0.10 * softNoise(along * 90, up * 120, 63) +
                         0.06 * softNoise(along * 300, up * 330, 65) + 0.05 * haze;
    const double sky = 0.86 + 0.04 * softNoise(along * 14, up * 40, 67);
    const auto share = static_cast<double>(std::clamp((up - skyline) / 0.0012 + 0.5, 0.0, 1.0));
    return trees * (1 - share) + sky * share;
}

}  // namespace sample
