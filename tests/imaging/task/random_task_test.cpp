#include "imaging/task/quantities.h"
#include "imaging/task/task.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <random>

/// Tasks put together at random, most of them nonsense: every one is answered with finite numbers
/// or refused with a place and a sentence; none crashes.
namespace imaging::task {
namespace {

using nlohmann::json;

class RandomTask {
  public:
    explicit RandomTask(unsigned seed) : m_random(seed) {}

    json make() {
        json task = {{"marks", json::array()}, {"measure", json::array()}};
        const int marks = whole(4, 14);
        for (int i = 0; i < marks; ++i) {
            task["marks"].push_back(mark(i));
        }
        m_marks = marks;
        json frame = {
            {"model", pick({"uniform", "stretch", "plane", "line", "upright", "camera"})}};
        for (int i = whole(0, 3); i > 0; --i) {
            frame["references"].push_back(
                {{"mark", id()},
                 {"length", {{"value", std::exp(real(-8, 8))}, {"u", real(0, 1)}}}});
        }
        const std::string model = frame["model"];
        if (model == "plane" || model == "stretch" || model == "line" || model == "camera") {
            const int coordinates = model == "line" ? 1 : model == "camera" ? 3 : 2;
            for (int i = whole(0, 8); i > 0; --i) {
                json at = json::array();
                for (int k = 0; k < coordinates; ++k) {
                    at.push_back(whole(0, 3) == 0 ? 0 : real(-100, 100));
                }
                frame["points"].push_back({{"mark", id("point")}, {"at", at}, {"u", real(0, 0.1)}});
            }
        }
        for (const char* key : {"parallel", "square", "ground"}) {
            const bool fits = (model == "plane" && std::string(key) != "ground") ||
                              (model == "stretch" && std::string(key) == "square") ||
                              (model == "upright" && std::string(key) == "ground") ||
                              model == "camera";
            if (fits && whole(0, 1) == 0) {
                for (int i = whole(1, 3); i > 0; --i) {
                    frame[key].push_back(json::array({id("segment"), id("segment")}));
                }
            }
        }
        if (model == "upright" || model == "camera") {
            frame["vertical"] = json::array({id("segment"), id("segment")});
        }
        task["frame"] = frame;
        for (int i = 0; i < 4; ++i) {
            json entry = {
                {"id", std::to_string(i)},
                {"quantity", pick({"length", "diameter", "radius", "pitch", "angle", "height"})}};
            if (whole(0, 1) == 0) {
                entry["mark"] = id();
            } else {
                entry["between"] = json::array({id(), id()});
            }
            if (model == "camera") {
                entry["plane"] = {{0, 0, 0}, {1, 0, 0}, {0, real(-1, 1), 1}};
            }
            task["measure"].push_back(entry);
        }
        return task;
    }

  private:
    int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(m_random); }
    double real(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(m_random);
    }
    std::string pick(const std::vector<std::string>& names) {
        return names[static_cast<std::size_t>(whole(0, static_cast<int>(names.size()) - 1))];
    }
    std::string id() { return "m" + std::to_string(whole(0, m_marks - 1)); }
    /// Mostly a mark of that kind, so that frames come about.
    std::string id(const std::string& kind) {
        for (int tries = 0; tries < 40; ++tries) {
            const int i = whole(0, m_marks - 1);
            if (m_kinds[static_cast<std::size_t>(i)] == kind) {
                return "m" + std::to_string(i);
            }
        }
        return id();
    }

    json mark(int i) {
        const std::string kind = whole(0, 5) > 0
                                     ? pick({"point", "segment"})
                                     : pick({"line", "circle", "ellipse", "curve", "pattern"});
        m_kinds.push_back(kind);
        const int count = kind == "point" ? 1 : kind == "segment" ? 2 : kind == "ellipse" ? 6 : 3;
        json points = json::array();
        for (int k = 0; k < count; ++k) {
            // Some on a coarse grid, so that points coincide and lines are parallel often.
            if (whole(0, 2) == 0) {
                points.push_back({100.0 * whole(0, 15), 100.0 * whole(0, 11)});
            } else {
                points.push_back({real(0, 1599), real(0, 1199)});
            }
        }
        return {{"id", "m" + std::to_string(i)},
                {"kind", kind},
                {"points", points},
                {"u_px", whole(0, 4) == 0 ? 100.0 : 0.5}};
    }

    std::mt19937 m_random;
    int m_marks = 1;
    std::vector<std::string> m_kinds;
};

TEST(RandomTasks, AreAnsweredWithFiniteNumbersOrRefused) {
    const raster::GreyImage sheet(cv::Mat(1200, 1600, CV_8U, cv::Scalar(128)));
    int solved = 0;
    for (unsigned seed = 0; seed < 3000; ++seed) {
        const json made = RandomTask(seed).make();
        const auto task = parseTask(made.dump(), readDecimalLength);
        if (!task) {
            EXPECT_FALSE(task.error().help.empty());
            continue;
        }
        std::vector<mark::FittedMark> marks;
        for (const TaskMark& mark : task->marks) {
            auto fitted = mark::fitMark(sheet, mark.request);
            if (fitted) {
                marks.push_back(*std::move(fitted));
            }
        }
        if (marks.size() < task->marks.size()) {
            continue;
        }
        const auto frame = solveFrame(*task, marks, {1600, 1200});
        if (!frame) {
            EXPECT_FALSE(frame.error().help.empty());
            EXPECT_FALSE(frame.error().place.empty());
            continue;
        }
        ++solved;
        for (std::size_t i = 0; i < task->entries.size(); ++i) {
            const auto answer = answerEntry(*task, i, marks, *frame);
            if (answer) {
                EXPECT_TRUE(std::isfinite(answer->value) && std::isfinite(answer->u) &&
                            std::isfinite(answer->low95) && std::isfinite(answer->high95))
                    << made.dump();
            } else {
                EXPECT_FALSE(answer.error().help.empty());
            }
        }
    }
    EXPECT_GT(solved, 100);
}

}  // namespace
}  // namespace imaging::task
