#include "tests/support/frame_trial.h"

#include "imaging/raster/grey_image.h"
#include "imaging/task/quantities.h"
#include "imaging/task/task.h"

#include <Eigen/Dense>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <random>

namespace test {
namespace {

using Eigen::Vector2d;
using Eigen::Vector3d;
using nlohmann::json;

constexpr int kWidth = 1600;
constexpr int kHeight = 1200;
constexpr double kPick = 0.5;  // px per axis
constexpr double kDegree = std::numbers::pi / 180;

/// A pinhole camera: looks from `at` towards `target`, z of the world up.
class Pinhole {
  public:
    Pinhole(const Vector3d& at, const Vector3d& target, double focal, const Vector2d& principal)
        : m_at(at), m_focal(focal), m_principal(principal) {
        m_forward = (target - at).normalized();
        m_right = m_forward.cross(Vector3d::UnitZ()).normalized();
        m_down = m_forward.cross(m_right);
    }
    [[nodiscard]] Vector2d see(const Vector3d& x) const {
        const Vector3d away = x - m_at;
        const double depth = m_forward.dot(away);
        return m_principal + m_focal * Vector2d(m_right.dot(away), m_down.dot(away)) / depth;
    }

  private:
    Vector3d m_at;
    Vector3d m_forward;
    Vector3d m_right;
    Vector3d m_down;
    double m_focal;
    Vector2d m_principal;
};

class Scene {
  public:
    explicit Scene(std::uint32_t seed) : m_random(seed) {
        m_task["marks"] = json::array();
        m_task["measure"] = json::array();
    }

    double error(double u) { return u * m_normal(m_random); }

    std::string mark(const char* kind, const std::vector<Vector2d>& pixels) {
        std::string id = fmt::format("m{}", ++m_marks);
        json points = json::array();
        for (const Vector2d& p : pixels) {
            points.push_back({p.x() + error(kPick), p.y() + error(kPick)});
        }
        m_task["marks"].push_back(
            {{"id", id}, {"kind", kind}, {"points", points}, {"u_px", kPick}});
        return id;
    }

    void model(const char* name) { m_task["frame"]["model"] = name; }
    json& frame() { return m_task["frame"]; }

    void reference(const std::string& mark, double truth, double u) {
        m_task["frame"]["references"].push_back(
            {{"mark", mark}, {"length", {{"value", truth + error(u)}, {"unit", "in"}, {"u", u}}}});
    }
    void point(const std::string& mark, const std::vector<double>& truth, double u) {
        json at = json::array();
        for (const double x : truth) {
            at.push_back(x + error(u));
        }
        m_task["frame"]["points"].push_back({{"mark", mark}, {"at", at}, {"u", u}});
    }
    void measure(const std::string& what, json entry, double truth) {
        entry["id"] = what;
        m_task["measure"].push_back(std::move(entry));
        m_truths.push_back(truth);
    }

    [[nodiscard]] FrameTrial run() const {
        static const imaging::raster::GreyImage kSheet(
            cv::Mat(kHeight, kWidth, CV_8U, cv::Scalar(128)));
        FrameTrial trial;
        const auto task = imaging::task::parseTask(m_task.dump(), imaging::task::readDecimalLength);
        if (!task) {
            trial.refused = task.error().place + ": " + task.error().help;
            return trial;
        }
        std::vector<imaging::mark::FittedMark> marks;
        for (const auto& mark : task->marks) {
            auto fitted = imaging::mark::fitMark(kSheet, mark.request);
            if (!fitted) {
                trial.refused = fitted.error().help;
                return trial;
            }
            marks.push_back(*std::move(fitted));
        }
        const auto frame = imaging::task::solveFrame(*task, marks, {kWidth, kHeight});
        if (!frame) {
            trial.refused = frame.error().place + ": " + frame.error().help;
            return trial;
        }
        if (const auto* adjustment = frame->adjustment()) {
            trial.chi2 = adjustment->chi2;
            trial.redundancy = adjustment->redundancy;
        }
        for (std::size_t i = 0; i < task->entries.size(); ++i) {
            const auto answer = imaging::task::answerEntry(*task, i, marks, *frame);
            if (!answer) {
                trial.refused = answer.error().place + ": " + answer.error().help;
                return trial;
            }
            trial.results.push_back(
                {answer->id, m_truths[i], answer->value, answer->u, answer->low95, answer->high95});
        }
        return trial;
    }

  private:
    std::mt19937 m_random;
    std::normal_distribution<double> m_normal;
    json m_task;
    std::vector<double> m_truths;
    int m_marks = 0;
};

/// A shrunk sheet: inches to pixels by two scales and a shear.
Vector2d shrunk(const Vector2d& inches) {
    constexpr double kSx = 0.0402;
    constexpr double kSy = 0.0396;
    constexpr double kShear = 0.0015;
    const double y = inches.y() / kSy;
    return {200 + inches.x() / kSx - kShear * y, 150 + y};
}

void measureOnSheet(Scene& scene) {
    const auto segment = [&](const char* what, const Vector2d& a, const Vector2d& b) {
        scene.measure(
            what, {{"mark", scene.mark("segment", {shrunk(a), shrunk(b)})}, {"quantity", "length"}},
            (b - a).norm());
    };
    segment("along", {5, 20}, {40, 20});
    segment("across", {30, 5}, {30, 36});
    segment("slanted", {10, 8}, {42, 30});
    scene.measure("angle",
                  {{"between",
                    {scene.mark("segment", {shrunk({5, 5}), shrunk({40, 5})}),
                     scene.mark("segment", {shrunk({5, 5}), shrunk({25, 39.6410161513775})})}},
                   {"quantity", "angle"}},
                  60);
}

void stretchReference(Scene& scene, const Vector2d& a, const Vector2d& b) {
    scene.reference(scene.mark("segment", {shrunk(a), shrunk(b)}), (b - a).norm(), 0.03);
}

FrameTrial stretchByThree(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("stretch");
    stretchReference(scene, {2, 2}, {45, 2});
    stretchReference(scene, {2, 2}, {2, 38});
    stretchReference(scene, {2, 2}, {42, 36});
    stretchReference(scene, {44, 3}, {4, 37});
    measureOnSheet(scene);
    return scene.run();
}

FrameTrial stretchByTwo(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("stretch");
    // Here the shear is what its prior says it is: drawn anew for each trial.
    const double shear = scene.error(0.002);
    const auto sheet = [shear](const Vector2d& inches) {
        const double y = inches.y() / 0.0396;
        return Vector2d(200 + inches.x() / 0.0402 - shear * y, 150 + y);
    };
    const auto segment = [&](const Vector2d& a, const Vector2d& b) {
        return scene.mark("segment", {sheet(a), sheet(b)});
    };
    scene.reference(segment({2, 2}, {45, 2}), 43, 0.03);
    scene.reference(segment({2, 2}, {2, 38}), 36, 0.03);
    scene.measure("slanted", {{"mark", segment({10, 8}, {42, 30})}, {"quantity", "length"}},
                  std::hypot(32, 22));
    scene.measure("across", {{"mark", segment({30, 5}, {30, 36})}, {"quantity", "length"}}, 31);
    return scene.run();
}

FrameTrial stretchByPoints(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("stretch");
    for (const Vector2d& p : {Vector2d(2, 2), Vector2d(45, 3), Vector2d(4, 37), Vector2d(43, 36)}) {
        scene.point(scene.mark("point", {shrunk(p)}), {p.x(), p.y()}, 0.02);
    }
    measureOnSheet(scene);
    return scene.run();
}

/// A side 200 × 80 in in the plane y = 0 (x right, z up), seen at an angle.
Pinhole atTheSide(Scene& scene) {
    static_cast<void>(scene);
    return {{-40, -260, 70}, {95, 0, 38}, 1500, {800, 600}};
}

Vector3d onSide(double x, double z) {
    return {x, 0, z};
}

void measureOnSide(Scene& scene, const Pinhole& camera) {
    const auto segment = [&](const char* what, const Vector3d& a, const Vector3d& b) {
        scene.measure(what,
                      {{"mark", scene.mark("segment", {camera.see(a), camera.see(b)})},
                       {"quantity", "length"}},
                      (b - a).norm());
    };
    segment("level", onSide(30, 30), onSide(130, 30));
    segment("upright", onSide(150, 10), onSide(150, 70));
    segment("slanted", onSide(40, 65), onSide(170, 20));
    const auto line = [&](double x1, double z1, double x2, double z2) {
        return scene.mark("line", {camera.see(onSide(x1, z1)), camera.see(onSide(x2, z2))});
    };
    scene.measure(
        "between lines",
        {{"between", {line(20, 25, 180, 25), line(30, 60, 170, 60)}}, {"quantity", "length"}}, 35);
    scene.measure("angle",
                  {{"between", {line(60, 20, 140, 20), line(60, 20, 110, 20 + 50 * std::sqrt(3))}},
                   {"quantity", "angle"}},
                  60);
    std::vector<Vector2d> rim;
    rim.reserve(8);
    for (int i = 0; i < 8; ++i) {
        rim.push_back(camera.see(onSide(100 + 18 * std::cos(i * 45 * kDegree + 0.2),
                                        40 + 18 * std::sin(i * 45 * kDegree + 0.2))));
    }
    const std::string wheel = scene.mark("circle", rim);
    scene.measure("diameter", {{"mark", wheel}, {"quantity", "diameter"}}, 36);
    scene.measure("centre to point",
                  {{"between", {wheel, scene.mark("point", {camera.see(onSide(160, 40))})}},
                   {"quantity", "length"}},
                  60);
}

FrameTrial planeByPoints(std::uint32_t seed, const std::vector<Vector2d>& places) {
    Scene scene(seed);
    scene.model("plane");
    const Pinhole camera = atTheSide(scene);
    for (const Vector2d& p : places) {
        scene.point(scene.mark("point", {camera.see(onSide(p.x(), p.y()))}), {p.x(), p.y()}, 0.05);
    }
    measureOnSide(scene, camera);
    return scene.run();
}

/// Parallels, right angles and lengths of a frame round the side.
void squareFrame(Scene& scene, const Pinhole& camera) {
    const auto line = [&](double x1, double z1, double x2, double z2) {
        return scene.mark("line", {camera.see(onSide(x1, z1)), camera.see(onSide(x2, z2))});
    };
    const json level = {line(2, 2, 198, 2), line(3, 40, 190, 40), line(2, 79, 199, 79)};
    const json upright = {line(2, 2, 2, 78), line(100, 5, 100, 77), line(198, 3, 198, 79)};
    scene.frame()["parallel"] = {level, upright};
    scene.frame()["square"] = json::array({json::array({level[0], upright[0]})});
}

FrameTrial planeByLengths(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("plane");
    const Pinhole camera = atTheSide(scene);
    squareFrame(scene, camera);
    const auto segment = [&](const Vector3d& a, const Vector3d& b) {
        scene.reference(scene.mark("segment", {camera.see(a), camera.see(b)}), (b - a).norm(), 0.1);
    };
    segment(onSide(10, 20), onSide(170, 20));
    segment(onSide(20, 8), onSide(20, 72));
    segment(onSide(180, 8), onSide(180, 72));
    measureOnSide(scene, camera);
    return scene.run();
}

FrameTrial planeByBoth(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("plane");
    const Pinhole camera = atTheSide(scene);
    squareFrame(scene, camera);
    for (const Vector2d& p : {Vector2d(5, 6), Vector2d(195, 8), Vector2d(185, 75)}) {
        scene.point(scene.mark("point", {camera.see(onSide(p.x(), p.y()))}), {p.x(), p.y()}, 0.05);
    }
    scene.reference(scene.mark("segment", {camera.see(onSide(20, 8)), camera.see(onSide(20, 72))}),
                    64, 0.05);
    measureOnSide(scene, camera);
    return scene.run();
}

FrameTrial lineByStations(std::uint32_t seed, const std::vector<double>& stations) {
    Scene scene(seed);
    scene.model("line");
    const Pinhole camera = atTheSide(scene);
    for (const double x : stations) {
        scene.point(scene.mark("point", {camera.see(onSide(x, 30))}), {x}, 0.05);
    }
    scene.measure(
        "inside",
        {{"mark", scene.mark("segment", {camera.see(onSide(35, 30)), camera.see(onSide(120, 30))})},
         {"quantity", "length"}},
        85);
    scene.measure("beyond",
                  {{"between",
                    {scene.mark("point", {camera.see(onSide(150, 30))}),
                     scene.mark("point", {camera.see(onSide(195, 30))})}},
                   {"quantity", "length"}},
                  45);
    return scene.run();
}

FrameTrial uprightByGround(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("upright");
    const Pinhole camera({-60, -330, 66}, {60, 0, 40}, 1400, {800, 600});
    const auto line = [&](const Vector3d& a, const Vector3d& b) {
        return scene.mark("line", {camera.see(a), camera.see(b)});
    };
    scene.frame()["ground"] = {
        {line({-60, -40, 0}, {180, -40, 0}), line({-60, 0, 0}, {180, 0, 0}),
         line({-40, 150, 0}, {180, 150, 0})},
        {line({-50, -60, 0}, {-50, 120, 0}), line({60, -60, 0}, {60, 120, 0}),
         line({160, -60, 0}, {160, 120, 0})}};
    scene.frame()["vertical"] = {line({-50, 0, 0}, {-50, 0, 100}), line({160, 0, 0}, {160, 0, 100}),
                                 line({60, 40, 0}, {60, 40, 110})};
    scene.reference(line({20, -20, 0}, {20, -20, 72}), 72, 0.2);
    const auto height = [&](const char* what, const Vector3d& foot, double truth) {
        scene.measure(what,
                      {{"mark", scene.mark("segment", {camera.see(foot),
                                                       camera.see(foot + Vector3d(0, 0, truth))})},
                       {"quantity", "height"}},
                      truth);
    };
    height("near", {70, -60, 0}, 60);
    height("far", {100, 80, 0}, 100);
    height("low", {0, 20, 0}, 30);
    return scene.run();
}

/// The principal point of an uncropped print: near the middle, as its prior says.
Vector2d principalOf(Scene& scene) {
    return {0.5 * (kWidth - 1) + scene.error(0.02 * kWidth),
            0.5 * (kHeight - 1) + scene.error(0.02 * kWidth)};
}

void measureSegment(Scene& scene, const Pinhole& camera, const char* what, const Vector3d& a,
                    const Vector3d& b, const json& plane) {
    scene.measure(what,
                  {{"mark", scene.mark("segment", {camera.see(a), camera.see(b)})},
                   {"quantity", "length"},
                   {"plane", plane}},
                  (b - a).norm());
}

void measureInSpace(Scene& scene, const Pinhole& camera) {
    const json side = {{0, 0, 0}, {1, 0, 0}, {0, 0, 1}};
    const json floor = {{0, 0, 12}, {1, 0, 12}, {0, 1, 12}};
    measureSegment(scene, camera, "on the side", {30, 0, 20}, {140, 0, 55}, side);
    measureSegment(scene, camera, "upright on the side", {160, 0, 15}, {160, 0, 70}, side);
    measureSegment(scene, camera, "on the floor", {40, 20, 12}, {120, 60, 12}, floor);
}

FrameTrial cameraByPoints(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("camera");
    const Pinhole camera({-60, -300, 110}, {90, 10, 35}, 1500, principalOf(scene));
    for (const double x : {0.0, 95.0, 190.0}) {
        for (const double y : {0.0, 70.0}) {
            for (const double z : {5.0, 75.0}) {
                scene.point(scene.mark("point", {camera.see({x, y, z})}), {x, y, z}, 0.05);
            }
        }
    }
    measureInSpace(scene, camera);
    return scene.run();
}

FrameTrial cameraByDirections(std::uint32_t seed) {
    Scene scene(seed);
    scene.model("camera");
    const Pinhole camera({-150, -260, 130}, {80, 20, 35}, 1500, principalOf(scene));
    const auto line = [&](const Vector3d& a, const Vector3d& b) {
        return scene.mark("line", {camera.see(a), camera.see(b)});
    };
    const json along = {line({0, 0, 0}, {190, 0, 0}), line({0, 0, 75}, {190, 0, 75}),
                        line({0, 70, 75}, {190, 70, 75}), line({5, 0, 40}, {185, 0, 40})};
    const json across = {line({0, 0, 0}, {0, 70, 0}), line({0, 0, 75}, {0, 70, 75}),
                         line({190, 0, 75}, {190, 70, 75}), line({0, 0, 40}, {0, 70, 40})};
    scene.frame()["parallel"] = {along, across};
    // The origin is the first end of this length: (0, 0, 12) of the scene.
    scene.reference(line({0, 0, 12}, {180, 0, 12}), 180, 0.2);
    const json side = {{0, 0, 0}, {1, 0, 0}, {0, 0, 1}};
    const json floor = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}};
    measureSegment(scene, camera, "on the side", {30, 0, 20}, {140, 0, 55}, side);
    measureSegment(scene, camera, "upright on the side", {120, 0, 15}, {120, 0, 70}, side);
    measureSegment(scene, camera, "on the floor", {20, 10, 12}, {100, 60, 12}, floor);
    return scene.run();
}

const std::vector<Vector2d> kFour = {{3, 4}, {196, 6}, {194, 76}, {5, 78}};
const std::vector<Vector2d> kNine = {{3, 4},    {100, 3},  {196, 6},  {4, 40}, {99, 41},
                                     {195, 39}, {194, 76}, {101, 77}, {5, 78}};

const std::map<std::string, std::function<FrameTrial(std::uint32_t)>>& scenes() {
    static const std::map<std::string, std::function<FrameTrial(std::uint32_t)>> kScenes = {
        {"stretch, lengths in four directions", stretchByThree},
        {"stretch, lengths in two directions", stretchByTwo},
        {"stretch, four points", stretchByPoints},
        {"plane, four points", [](std::uint32_t s) { return planeByPoints(s, kFour); }},
        {"plane, nine points", [](std::uint32_t s) { return planeByPoints(s, kNine); }},
        {"plane, lengths, parallels, right angle", planeByLengths},
        {"plane, points and lengths together", planeByBoth},
        {"line, three stations",
         [](std::uint32_t s) {
             return lineByStations(s, {10, 90, 180});
         }},
        {"line, five stations",
         [](std::uint32_t s) {
             return lineByStations(s, {10, 50, 90, 130, 180});
         }},
        {"upright, ground and verticals", uprightByGround},
        {"camera, twelve points", cameraByPoints},
        {"camera, two directions and a length", cameraByDirections},
    };
    return kScenes;
}

}  // namespace

const std::vector<std::string>& frameScenes() {
    static const std::vector<std::string> kNames = [] {
        std::vector<std::string> names;
        for (const auto& [name, scene] : scenes()) {
            names.push_back(name);
        }
        return names;
    }();
    return kNames;
}

FrameTrial frameTrial(const std::string& scene, std::uint32_t seed) {
    return scenes().at(scene)(seed);
}

}  // namespace test
