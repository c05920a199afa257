#include "sample-archive/document.h"

#include "sample-archive/pictures.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <map>
#include <set>
#include <string>

namespace {

using Json = nlohmann::ordered_json;

std::set<std::string> idsOf(const Json& document, const char* table) {
    std::set<std::string> ids;
    for (const Json& record : document.at(table)) ids.insert(record.at("id"));
    return ids;
}

void expectContent(const Json& document) {
    const std::map<std::string, std::size_t> least = {
        {"dimensions", 120}, {"particulars", 30}, {"readings", 250}, {"relations", 25},
        {"rulings", 12},     {"departures", 8},   {"queries", 5}};
    for (const auto& [table, count] : least) {
        EXPECT_GE(document.at(table).size(), count) << table;
    }
}

void expectDistinctIds(const Json& document) {
    std::set<std::string> ids;
    for (const auto& [table, records] : document.items()) {
        if (!records.is_array()) continue;
        for (const Json& record : records) {
            EXPECT_TRUE(ids.insert(record.at("id")).second) << table << ' ' << record.at("id");
        }
    }
}

void expectReadingsPointAtWhatIsThere(const Json& document) {
    std::set<std::string> subjects = idsOf(document, "dimensions");
    subjects.merge(idsOf(document, "particulars"));
    const std::set<std::string> sources = idsOf(document, "sources");
    const std::set<std::string> marks = idsOf(document, "marks");
    const std::set<std::string> frames = idsOf(document, "frames");
    for (const Json& reading : document.at("readings")) {
        const std::string id = reading.at("id");
        EXPECT_TRUE(subjects.contains(reading.at("of"))) << id;
        EXPECT_TRUE(!reading.contains("source") || sources.contains(reading["source"])) << id;
        EXPECT_TRUE(!reading.contains("mark") || marks.contains(reading["mark"])) << id;
        EXPECT_TRUE(!reading.contains("frame") || frames.contains(reading["frame"])) << id;
    }
}

void expectMarksOnTheirPictures(const Json& document, const sample::Pictures& pictures) {
    const std::map<std::string, cv::Size> sheets = {
        {"f-arrangement", pictures.arrangement.picture.size()},
        {"f-tracing", pictures.tracing.picture.size()},
        {"f-hoops", pictures.hoops.picture.size()},
        {"f-alteration", pictures.alteration.picture.size()},
        {"f-broadside", pictures.broadside.picture.size()},
        {"f-postcard", pictures.otherPrint.size()}};
    for (const Json& mark : document.at("marks")) {
        const cv::Size size = sheets.at(mark.at("file"));
        for (const Json& point : mark.at("points")) {
            EXPECT_GT(point.at(0).get<double>(), 0) << mark.at("id");
            EXPECT_LT(point.at(0).get<double>(), size.width) << mark.at("id");
            EXPECT_GT(point.at(1).get<double>(), 0) << mark.at("id");
            EXPECT_LT(point.at(1).get<double>(), size.height) << mark.at("id");
        }
    }
}

// One test, for the pictures take their time and every test runs in a process of its own.
TEST(SampleDocument, HasTheScenariosContentAndPointsAtWhatIsThere) {
    const sample::Pictures pictures = sample::drawPictures(1911);
    const Json document = sample::exchangeDocument(pictures);
    expectContent(document);
    expectDistinctIds(document);
    expectReadingsPointAtWhatIsThere(document);
    expectMarksOnTheirPictures(document, pictures);
}

}  // namespace
