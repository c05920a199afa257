#include "imaging/task/measure.h"
#include "tests/imaging/raster/case_files.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace imaging::task {
namespace {

using nlohmann::json;
using raster::test::imageFile;

/// Marks by hand on a picture of 3595 × 3723 px whose content does not matter here.
class Marks {
  public:
    explicit Marks(double uPx) : m_u(uPx) {}
    std::string add(const char* kind, const std::vector<std::array<double, 2>>& points) {
        const std::string id = "m" + std::to_string(m_list.size());
        m_list.push_back({{"id", id}, {"kind", kind}, {"points", points}, {"u_px", m_u}});
        return id;
    }
    std::string point(double x, double y) { return add("point", {{x, y}}); }
    std::string line(double x1, double y1, double x2, double y2) {
        return add("line", {{x1, y1}, {x2, y2}});
    }
    std::string segment(double x1, double y1, double x2, double y2) {
        return add("segment", {{x1, y1}, {x2, y2}});
    }
    [[nodiscard]] const json& list() const { return m_list; }

  private:
    double m_u;
    json m_list = json::array();
};

json known(const std::string& mark, const std::vector<double>& at) {
    return {{"mark", mark}, {"at", at}};
}

json length(const std::string& mark, double inches, double u = 0) {
    return {{"mark", mark}, {"length", {{"value", inches}, {"unit", "in"}, {"u", u}}}};
}

json between(const std::string& a, const std::string& b) {
    return {{"id", "x"}, {"between", {a, b}}, {"quantity", "length"}};
}

Result<std::string> run(const Marks& marks, const json& frame, const json& entry) {
    const json task = {
        {"marks", marks.list()}, {"frame", frame}, {"measure", json::array({entry})}};
    return measure(imageFile("chessboard.png"), task.dump());
}

json answered(const Marks& marks, const json& frame, const json& entry) {
    const auto text = run(marks, frame, entry);
    EXPECT_TRUE(text) << text.error().place << ": " << text.error().help;
    return text ? json::parse(*text) : json();
}

Refusal refused(const Marks& marks, const json& frame, const json& entry) {
    const auto text = run(marks, frame, entry);
    EXPECT_FALSE(text);
    return text ? Refusal{} : text.error();
}

TEST(PlaneFrame, CarriesTheUnitSquareOfTheWorkedExample) {
    // By hand, exact: (0,0),(1,0),(1,1),(0,1) → (0,0),(4,0),(3,2),(1,2); (½,½) → (2, 4/3).
    Marks marks(0.001);
    const json points = {known(marks.point(0, 0), {0, 0}), known(marks.point(1, 0), {4, 0}),
                         known(marks.point(1, 1), {3, 2}), known(marks.point(0, 1), {1, 2})};
    const std::string middle = marks.point(0.5, 0.5);
    const json answer =
        answered(marks, {{"model", "plane"}, {"points", points}}, between("m0", middle));
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), std::hypot(2, 4.0 / 3), 1e-6);
    EXPECT_EQ(answer["frame"]["redundancy"], 0);
    EXPECT_TRUE(answer["frame"]["points"][0]["w"].is_null());
}

TEST(PlaneFrame, DegenerateLayoutsAreRefused) {
    Marks marks(0.5);
    // Three of four on a line; OpenCV 4.6 answers these with a finite homography.
    const json inLine = {
        known(marks.point(100, 100), {0, 0}), known(marks.point(600, 100), {10, 0}),
        known(marks.point(1100, 100), {20, 0}), known(marks.point(500, 800), {10, 15})};
    const std::string x = marks.point(700, 400);
    EXPECT_EQ(refused(marks, {{"model", "plane"}, {"points", inLine}}, between("m0", x)).code,
              Code::NoSolution);
    // Parallels and a length: the slant along them stays open.
    const json parallel =
        json::array({json::array({marks.line(0, 100, 900, 150), marks.line(0, 500, 900, 480)})});
    const json one = json::array({length(marks.segment(100, 200, 700, 210), 60)});
    EXPECT_EQ(refused(marks, {{"model", "plane"}, {"parallel", parallel}, {"references", one}},
                      between("m0", x))
                  .code,
              Code::NoSolution);
}

TEST(PlaneFrame, NothingIsMeasuredBeyondTheVanishingLine) {
    Marks marks(0.2);
    // A floor whose sides converge towards y = 1000.
    const json points = {
        known(marks.point(1000, 3000), {0, 0}), known(marks.point(2600, 3000), {40, 0}),
        known(marks.point(2200, 2000), {40, 60}), known(marks.point(1400, 2000), {0, 60})};
    const std::string high = marks.point(1800, 500);
    const Refusal refusal =
        refused(marks, {{"model", "plane"}, {"points", points}}, between("m0", high));
    EXPECT_EQ(refusal.code, Code::BadValue);
    EXPECT_EQ(refusal.place, "/measure/0/between");
}

TEST(PlaneFrame, AMirroredNegativeIsAPlaneLikeAnyOther) {
    Marks marks(0.5);
    const json points = {
        known(marks.point(1100, 100), {0, 0}), known(marks.point(100, 100), {10, 0}),
        known(marks.point(100, 900), {10, 8}), known(marks.point(1100, 900), {0, 8})};
    const std::string p = marks.point(600, 100);
    const std::string q = marks.point(600, 700);
    const json answer = answered(marks, {{"model", "plane"}, {"points", points}}, between(p, q));
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), 6, 1e-6);
}

TEST(LineFrame, FollowsTheWorkedExampleOfTheCrossRatio) {
    // By hand: t = 0, 100, 190, 272 px; X = 0, 10, 20, → 30.0737 in; 0.5 px picks give u = 0.251.
    Marks marks(0.5);
    const json points = {known(marks.point(300, 500), {0}), known(marks.point(400, 500), {10}),
                         known(marks.point(490, 500), {20})};
    const std::string x = marks.point(572, 500);
    const json answer = answered(marks, {{"model", "line"}, {"points", points}}, between("m0", x));
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), 30.0737, 5e-5);
    EXPECT_NEAR(answer["results"][0]["u"].get<double>(), 0.251, 5e-4);
}

TEST(LineFrame, CoincidingStationsAndMarksBesideTheLineAreRefused) {
    Marks marks(0.5);
    const json same = {known(marks.point(300, 500), {0}), known(marks.point(400, 500), {10}),
                       known(marks.point(400, 500), {10})};
    const std::string x = marks.point(572, 500);
    const std::string aside = marks.point(572, 560);
    EXPECT_EQ(refused(marks, {{"model", "line"}, {"points", same}}, between("m0", x)).code,
              Code::NoSolution);
    const json good = {known("m0", {0}), known("m1", {10}), known(marks.point(490, 500), {20})};
    EXPECT_EQ(refused(marks, {{"model", "line"}, {"points", good}}, between("m0", aside)).code,
              Code::BadValue);
}

TEST(StretchFrame, TwoScalesFromTwoLengths) {
    Marks marks(0.1);
    const json references = {length(marks.segment(100, 100, 1100, 100), 40, 0.001),
                             length(marks.segment(100, 100, 100, 1100), 41, 0.001)};
    const std::string slanted = marks.segment(200, 200, 500, 600);
    const json answer = answered(marks, {{"model", "stretch"}, {"references", references}},
                                 {{"id", "x"}, {"mark", slanted}, {"quantity", "length"}});
    EXPECT_NEAR(answer["frame"]["scale_x"].get<double>(), 0.040, 1e-9);
    EXPECT_NEAR(answer["frame"]["scale_y"].get<double>(), 0.041, 1e-9);
    const double dx = 300 * 0.040;
    const double dy = 400 * 0.041;
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), std::hypot(dx, dy), 1e-6);
    // The shear 0 ± 0.002 that two directions leave open: ∂L/∂shear = dx·(0.040·400)/L.
    const double byShear = 0.002 * dx * 16 / std::hypot(dx, dy);
    EXPECT_GT(answer["results"][0]["u"].get<double>(), byShear);
    EXPECT_LT(answer["results"][0]["u"].get<double>(), byShear + 0.01);
}

TEST(StretchFrame, APrintsResolutionWithUnequalShrinkage) {
    Marks marks(0.001);
    const std::string along = marks.segment(100, 100, 1100, 100);
    const json answer =
        answered(marks,
                 {{"model", "stretch"},
                  {"print", {{"dpi", 100}, {"drawn_scale", 12}, {"u_relative", 0.01}}}},
                 {{"id", "x"}, {"mark", along}, {"quantity", "length"}});
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), 120, 1e-6);
    EXPECT_NEAR(answer["results"][0]["u"].get<double>(), 1.2, 1e-3);
}

TEST(StretchFrame, LengthsInOneDirectionAreRefused) {
    Marks marks(0.5);
    const json references = {length(marks.segment(100, 100, 1100, 100), 40, 0.01),
                             length(marks.segment(100, 300, 900, 301), 32, 0.01)};
    EXPECT_EQ(refused(marks, {{"model", "stretch"}, {"references", references}},
                      {{"id", "x"}, {"mark", "m0"}, {"quantity", "length"}})
                  .code,
              Code::NoSolution);
}

TEST(UprightFrame, OneGroundDirectionOrNoHeightIsRefused) {
    Marks marks(0.5);
    const json group = {marks.line(0, 2000, 3000, 1500), marks.line(0, 3000, 3000, 2000)};
    const json vertical = {marks.line(500, 1000, 520, 2500), marks.line(2500, 1000, 2480, 2500)};
    const std::string post = marks.segment(1500, 2500, 1500, 1700);
    const json entry = {{"id", "x"}, {"mark", post}, {"quantity", "height"}};
    const json references = json::array({length(post, 72)});
    EXPECT_EQ(refused(marks,
                      {{"model", "upright"},
                       {"ground", json::array({group})},
                       {"vertical", vertical},
                       {"references", references}},
                      entry)
                  .place,
              "/frame/ground");
    EXPECT_EQ(
        refused(
            marks,
            {{"model", "upright"}, {"ground", json::array({group, group})}, {"vertical", vertical}},
            entry)
            .place,
        "/frame/references");
    EXPECT_EQ(refused(marks,
                      {{"model", "upright"},
                       {"ground", json::array({group, group})},
                       {"vertical", vertical},
                       {"references", references}},
                      entry)
                  .code,
              Code::NoSolution);
}

TEST(CameraFrame, TooFewPointsOnALineAndParallelsThatStayParallelAreRefused) {
    Marks marks(0.5);
    json points = json::array();
    for (int i = 0; i < 6; ++i) {
        points.push_back(
            known(marks.point(300 + 200.0 * i, 500 + 100.0 * i), {10.0 * i, 0, 5.0 * i}));
    }
    const json entry = {{"id", "x"},
                        {"mark", marks.segment(100, 100, 300, 300)},
                        {"quantity", "length"},
                        {"plane", {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}}};
    EXPECT_EQ(refused(marks, {{"model", "camera"}, {"points", points}}, entry).code,
              Code::NoSolution);
    points.erase(5);
    EXPECT_EQ(refused(marks, {{"model", "camera"}, {"points", points}}, entry).place,
              "/frame/points");
    const json level = {marks.line(100, 100, 900, 100), marks.line(100, 600, 900, 600)};
    const json upright = {marks.line(100, 100, 100, 900), marks.line(800, 100, 800, 900)};
    EXPECT_EQ(refused(marks,
                      {{"model", "camera"},
                       {"parallel", json::array({level, upright})},
                       {"references", json::array({length(level[0], 30)})}},
                      entry)
                  .code,
              Code::NoSolution);
}

}  // namespace
}  // namespace imaging::task
