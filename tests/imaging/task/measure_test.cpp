#include "imaging/task/measure.h"

#include "tests/imaging/raster/case_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace imaging::task {
namespace {

using nlohmann::json;
using raster::test::caseFile;
using raster::test::imageFile;

json answered(const std::filesystem::path& image, const json& task) {
    const auto text = measure(image, task.dump());
    EXPECT_TRUE(text) << text.error().place << ": " << text.error().help;
    return text ? json::parse(*text) : json();
}

json segment(const char* id, double x1, double y1, double x2, double y2, const char* fit = "none") {
    return {{"id", id}, {"kind", "segment"}, {"points", {{x1, y1}, {x2, y2}}}, {"fit", fit}};
}

json uniform(const char* mark, double inches, double u) {
    json frame = {{"model", "uniform"}, {"references", json::array()}};
    frame["references"].push_back(
        {{"mark", mark}, {"length", {{"value", inches}, {"unit", "in"}, {"u", u}}}});
    return frame;
}

json entry(const char* id, const char* mark, const char* quantity = "length") {
    return {{"id", id}, {"mark", mark}, {"quantity", quantity}};
}

TEST(Measure, FollowsTheWorkedExampleOfOneKnownLength) {
    // By hand, JCGM 100:2008, 5.1.2 (docs/method/scales.md): p1 (100,200), p2 (1300,1100), 60 ±
    // 0.05 in; 750 px are 30 ± 0.0403 in.
    const json task = {
        {"marks", {segment("ref", 100, 200, 1300, 1100), segment("it", 100, 100, 850, 100)}},
        {"frame", uniform("ref", 60, 0.05)},
        {"measure", {entry("x", "it"), entry("same", "ref")}}};
    const json answer = answered(imageFile("chessboard.png"), task);
    EXPECT_NEAR(answer["frame"]["inches_per_pixel"].get<double>(), 0.04, 1e-12);
    EXPECT_NEAR(answer["frame"]["u_relative"].get<double>(), 9.574e-4, 5e-8);
    const json& x = answer["results"][0];
    EXPECT_EQ(x["id"], "x");
    EXPECT_NEAR(x["value"].get<double>(), 30, 1e-9);
    EXPECT_NEAR(x["u"].get<double>(), 0.0403, 5e-5);
    EXPECT_NEAR(x["high95"].get<double>() - 30, 1.959964 * x["u"].get<double>(), 1e-6);
    // The reference's own length hangs on nothing but itself: its mark cancels.
    const json& same = answer["results"][1];
    EXPECT_NEAR(same["value"].get<double>(), 60, 1e-9);
    EXPECT_NEAR(same["u"].get<double>(), 0.05, 1e-9);
}

TEST(Measure, HalfWidthsOfAReferenceGiveARectangularInterval) {
    json task = {{"marks", json::array({segment("ref", 100, 100, 1100, 100)})},
                 {"frame", uniform("ref", 60, 0)},
                 {"measure", json::array({entry("x", "ref")})}};
    task["frame"]["references"][0]["length"] = {
        {"value", "1524 mm"}, {"half_width", 25.4}, {"basis", "stated"}};
    const json x = answered(imageFile("chessboard.png"), task)["results"][0];
    EXPECT_NEAR(x["value"].get<double>(), 60, 1e-9);
    EXPECT_NEAR(x["u"].get<double>(), 1 / std::sqrt(3.0), 1e-9);
    EXPECT_NEAR(x["high95"].get<double>() - 60, 0.95, 1e-9);
}

TEST(Measure, PrintedFrameGivesTheOriginalsInches) {
    // opencv/pattern.png: 150 dpi in pHYs, drawn at full size, squares of 25.0 mm
    // (data/SOURCES.md).
    const json task = {
        {"unit", "mm"},
        {"marks", json::array({segment("run", 171, 650, 171 + 6 * 147.63, 650)})},
        {"frame",
         {{"model", "printed"}, {"print", {{"dpi", 150}, {"drawn_scale", 1}, {"u_relative", 0}}}}},
        {"measure", json::array({entry("x", "run")})}};
    const json x = answered(imageFile("pattern.png"), task)["results"][0];
    EXPECT_NEAR(x["value"].get<double>(), 150, 0.05);
    EXPECT_EQ(x["unit"], "mm");
    // 0.5 px per axis at both ends, and nothing else.
    EXPECT_NEAR(x["u"].get<double>(), std::sqrt(0.5) * 25.4 / 150, 1e-9);
}

TEST(Measure, ShrinkageOfAPrintIsCommonToItsWholeScale) {
    const json task = {
        {"marks", json::array({segment("run", 100, 100, 500, 100)})},
        {"frame", {{"model", "printed"}, {"print", {{"dpi", 400}, {"drawn_scale", 24}}}}},
        {"measure", json::array({entry("x", "run")})}};
    const json answer = answered(imageFile("chessboard.png"), task);
    EXPECT_NEAR(answer["frame"]["u_relative"].get<double>(), 0.005, 1e-15);
    const double u = std::hypot(0.005 * 24, std::sqrt(0.5) * 24 / 400);
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), 24, 1e-9);
    EXPECT_NEAR(answer["results"][0]["u"].get<double>(), u, 1e-9);
}

TEST(Measure, EdgesOfTheDigitalChessboardStandWhereItsGreysSay) {
    // Stated at x = 448.5, 898.5, 1347.5, 1797.5, 2695.5 to 0.5 px (data/SOURCES.md); the one grey
    // pixel of each edge says the rest: its share of the ground on the left, past its left border.
    struct Edge {
        double greyPixel;
        double shareOfLeft;
    };
    const Edge edges[] = {{449, 152.0 / 255},
                          {899, 23.0 / 255},
                          {1348, 144.0 / 255},
                          {1797, 143.0 / 255},
                          {2696, 119.0 / 255}};
    json marks = json::array();
    for (const Edge& edge : edges) {
        const double x = edge.greyPixel;
        marks.push_back({{"id", std::to_string(x)},
                         {"kind", "line"},
                         {"points", {{x + 2, 700}, {x - 1, 850}}},
                         {"fit", "edge"}});
    }
    const json answer = answered(imageFile("chessboard.png"), {{"marks", marks}});
    for (std::size_t i = 0; i < std::size(edges); ++i) {
        const double truth = edges[i].greyPixel - 0.5 + edges[i].shareOfLeft;
        EXPECT_NEAR(answer["marks"][i]["points"][0][0].get<double>(), truth, 0.01);
        EXPECT_NEAR(answer["marks"][i]["points"][1][0].get<double>(), truth, 0.01);
    }
    EXPECT_TRUE(answer["frame"].is_null());
}

TEST(Measure, CrossesOfTheCommonSheetAreThreeFourFive) {
    // Own sheet: A (200,300), B (800,300), C (200,700); A-B = 3 in makes A-C 2.000 in.
    const auto cross = [](const char* id, double x, double y) {
        return json{{"id", id},
                    {"kind", "point"},
                    {"points", json::array({json::array({x, y})})},
                    {"fit", "line-centre"}};
    };
    const json task = {{"marks",
                        {cross("A", 202, 298), cross("B", 798, 301), cross("C", 199, 703),
                         segment("AB", 200, 300, 800, 300)}},
                       {"frame", uniform("AB", 3, 0.001)},
                       {"measure",
                        {{{"id", "ab"}, {"between", {"A", "B"}}, {"quantity", "length"}},
                         {{"id", "ac"}, {"between", {"A", "C"}}, {"quantity", "length"}}}}};
    for (const char* name : {"05_tiff_res_unit_none.tif", "01_exif_orient6.jpg",
                             "02_tiff_orient8.tif", "03_png_exif_orient5.png"}) {
        const json answer = answered(caseFile(name), task);
        EXPECT_NEAR(answer["results"][0]["value"].get<double>(), 3, 0.001) << name;
        EXPECT_NEAR(answer["results"][1]["value"].get<double>(), 2, 0.001) << name;
        EXPECT_NEAR(answer["marks"][0]["points"][0][0].get<double>(), 200, 0.1) << name;
        EXPECT_NEAR(answer["marks"][0]["points"][0][1].get<double>(), 300, 0.1) << name;
    }
}

TEST(Measure, OffPlaneShrinksWhatIsNearer) {
    // By hand, central projection (docs/method/scales.md): D = 200 in, q = 5 in → factor 0.975; u
    // from u(q) = 1.
    json task = {{"marks", json::array({segment("ref", 100, 100, 1100, 100)})},
                 {"frame", uniform("ref", 100, 0)},
                 {"measure", json::array({entry("x", "ref")})}};
    task["measure"][0]["off_plane"] = {{"offset", 5}, {"u", 1}, {"distance", 200}};
    const json x = answered(imageFile("chessboard.png"), task)["results"][0];
    EXPECT_NEAR(x["value"].get<double>(), 97.5, 1e-9);
    EXPECT_NEAR(x["u"].get<double>(), 100.0 / 200, 1e-9);
}

TEST(Measure, DiameterIsTwiceTheRadiusAndAnglesAreDegrees) {
    const json circle = {
        {"id", "c"}, {"kind", "circle"}, {"points", {{600, 500}, {500, 600}, {400, 500}}}};
    const json task = {
        {"marks",
         {circle, segment("ref", 100, 100, 1100, 100), segment("up", 100, 100, 600, 966.0254)}},
        {"frame", uniform("ref", 10, 0.01)},
        {"measure",
         {entry("d", "c", "diameter"),
          entry("r", "c", "radius"),
          {{"id", "a"}, {"between", {"ref", "up"}}, {"quantity", "angle"}}}}};
    const json answer = answered(imageFile("chessboard.png"), task);
    EXPECT_NEAR(answer["results"][0]["value"].get<double>(), 2, 1e-9);
    EXPECT_NEAR(answer["results"][1]["value"].get<double>(), 1, 1e-9);
    EXPECT_NEAR(answer["results"][2]["value"].get<double>(), 60, 1e-6);
    EXPECT_EQ(answer["results"][2]["unit"], "deg");
}

struct Bad {
    const char* name;
    const char* pointer;  ///< into the good task; what is put there
    const char* value;    ///< JSON; empty: taken away
    Code code;
    const char* place;
};

class BadTask : public testing::TestWithParam<Bad> {};

TEST_P(BadTask, IsRefusedAtItsPlace) {
    json task = {
        {"marks", {segment("ref", 100, 100, 1100, 100), segment("it", 100, 200, 400, 200)}},
        {"frame", uniform("ref", 10, 0.01)},
        {"measure", json::array({entry("x", "it")})}};
    const Bad bad = GetParam();
    const json::json_pointer pointer(bad.pointer);
    if (*bad.value == '\0') {
        task.at(pointer.parent_pointer()).erase(pointer.back());
    } else {
        task[pointer] = json::parse(bad.value);
    }
    const auto answer = measure(imageFile("chessboard.png"), task.dump());
    ASSERT_FALSE(answer);
    EXPECT_EQ(codeName(answer.error().code), codeName(bad.code));
    EXPECT_EQ(answer.error().place, bad.place);
    EXPECT_FALSE(answer.error().help.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Tasks, BadTask,
    testing::Values(
        Bad{"UnknownKey", "/colour", "1", Code::UnknownKey, "/colour"},
        Bad{"UnknownKeyOfAMark", "/marks/1/colour", "1", Code::UnknownKey, "/marks/1/colour"},
        Bad{"NoMarks", "/marks", "", Code::MissingKey, "/marks"},
        Bad{"MarksOfAnotherType", "/marks", "{}", Code::WrongType, "/marks"},
        Bad{"KindUnknown", "/marks/0/kind", "\"blob\"", Code::BadValue, "/marks/0/kind"},
        Bad{"PatternOfTwoPoints", "/marks/0/kind", "\"pattern\"", Code::BadValue,
            "/marks/0/points"},
        Bad{"PointOfThreeNumbers", "/marks/1/points/0", "[1, 2, 3]", Code::WrongType,
            "/marks/1/points/0"},
        Bad{"TooFewPoints", "/marks/1/points", "[[1, 2]]", Code::BadValue, "/marks/1/points"},
        Bad{"OutsideTheSheet", "/marks/1/points/1", "[99999, 2]", Code::OutsideSheet,
            "/marks/1/points/1"},
        Bad{"NoEdgeThere", "/marks/1/fit", "\"edge\"", Code::NoFit, "/marks/1/points/0"},
        Bad{"IdTwice", "/marks/1/id", "\"ref\"", Code::DuplicateId, "/marks/1/id"},
        Bad{"PlaneOfOneLength", "/frame/model", "\"plane\"", Code::NoSolution, "/frame"},
        Bad{"PointsInAUniformFrame", "/frame/points", "[{\"mark\": \"ref\", \"at\": [0, 0]}]",
            Code::BadValue, "/frame/points"},
        Bad{"LineOfNoPoints", "/frame/model", "\"line\"", Code::NoSolution, "/frame/points"},
        Bad{"CameraWithoutItsPlane", "/frame/model", "\"camera\"", Code::MissingKey,
            "/measure/0/plane"},
        Bad{"ModelUnknown", "/frame/model", "\"cubic\"", Code::BadValue, "/frame/model"},
        Bad{"ReferenceToNoMark", "/frame/references/0/mark", "\"zz\"", Code::MissingTarget,
            "/frame/references/0/mark"},
        Bad{"LengthIsText", "/frame/references/0/length/value", "\"long\"", Code::BadValue,
            "/frame/references/0/length/value"},
        Bad{"LengthNegative", "/frame/references/0/length/value", "-3", Code::BadValue,
            "/frame/references/0/length/value"},
        Bad{"UnitOfMass", "/frame/references/0/length/unit", "\"lb\"", Code::BadUnit,
            "/frame/references/0/length/unit"},
        Bad{"NoReferences", "/frame/references", "[]", Code::NoSolution, "/frame/references"},
        Bad{"NoFrame", "/frame", "", Code::MissingKey, "/frame"},
        Bad{"MeasuresNoMark", "/measure/0/mark", "\"zz\"", Code::MissingTarget, "/measure/0/mark"},
        Bad{"DiameterOfASegment", "/measure/0/quantity", "\"diameter\"", Code::BadValue,
            "/measure/0/quantity"},
        Bad{"HeightWithoutAGround", "/measure/0/quantity", "\"height\"", Code::BadValue,
            "/measure/0/quantity"},
        Bad{"Unit", "/unit", "\"kg\"", Code::BadUnit, "/unit"},
        Bad{"OffPlaneWithoutDistance", "/measure/0/off_plane", "{\"offset\": 1}", Code::MissingKey,
            "/measure/0/off_plane/distance"}),
    [](const auto& row) { return row.param.name; });

TEST(Measure, WhatIsNoJsonIsRefused) {
    for (const char* text : {"", "{", "[]", "{\"marks\": [1e999]}", "nul"}) {
        const auto answer = measure(imageFile("chessboard.png"), text);
        ASSERT_FALSE(answer) << text;
    }
}

TEST(Measure, PageAndPictureMustBeThere) {
    const json task = {{"page", 7}, {"marks", json::array()}};
    EXPECT_EQ(measure(imageFile("chessboard.png"), task.dump()).error().code, Code::NoSuchPage);
    EXPECT_EQ(measure(imageFile("none.png"), R"({"marks": []})").error().code, Code::MissingFile);
    EXPECT_EQ(measure(caseFile("23_html_error_page.jpg"), R"({"marks": []})").error().code,
              Code::NotAPicture);
}

}  // namespace
}  // namespace imaging::task
