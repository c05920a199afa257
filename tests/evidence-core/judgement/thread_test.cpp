#include "evidence-core/judgement/thread.h"

#include "evidence-core/exchange/explain_json.h"
#include "evidence-core/judgement/explain.h"
#include "tests/support/register_builder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <map>

namespace {

using namespace testsupport;
using judgement::ThreadStage;
using record::Authority;
using record::Basis;
using record::SourceKind;

RegisterBuilder pictured() {
    RegisterBuilder b;
    b.dimension("d1", "Window width");
    b.pictured("s1", "Broadside photograph", SourceKind::Photograph, Authority::Eyewitness);
    b.source("s2", "Plate catalogue", SourceKind::Standard);
    b.segment("m1", "s1", 360);
    b.segment("m2", "s1", 200);
    b.reference(b.uniform("g1", "s1"), "m1", 36, 0.5, "s2", Basis::Stated);
    b.scaled("r1", "d1", "g1", "m2").offPlane =
        record::OffPlane{.offset = 0, .u = 2, .distance = 300, .basis = Basis::Limit};
    b.reading("r2", "d1", Basis::Told, "", b.number(24), 3).setAside = "he meant another car";
    return b;
}

const judgement::ThreadNode* nodeOf(const judgement::Thread& thread, const std::string& id) {
    for (const auto& node : thread.nodes)
        if (node.id == id) return &node;
    return nullptr;
}

TEST(Thread, RunsFromSourcesThroughScaleAndReadingToTheValue) {
    const auto b = pictured();
    const auto thread = judgement::threadOf({"d1"}, b.reg, b.analyse());
    for (const auto& [id, stage] :
         std::map<std::string, ThreadStage>{{"d1", ThreadStage::Value},
                                            {"r1", ThreadStage::Reading},
                                            {"g1", ThreadStage::Scale},
                                            {"g1/0", ThreadStage::Scale},
                                            {"m2", ThreadStage::Mark},
                                            {"s1", ThreadStage::Source},
                                            {"s2", ThreadStage::Source}}) {
        const auto* node = nodeOf(thread, id);
        ASSERT_TRUE(node) << id;
        EXPECT_EQ(node->stage, stage) << id;
        EXPECT_FALSE(node->title.empty()) << id;
    }
}

TEST(Thread, CarriesTheWholeDoubtIntoTheValue) {
    const auto b = pictured();
    const auto thread = judgement::threadOf({"d1"}, b.reg, b.analyse());
    double sum = 0;
    for (const auto& link : thread.links)
        if (thread.nodes[link.to].id == "d1") sum += link.share;
    EXPECT_NEAR(sum, 1, 1e-6);
}

TEST(Thread, ShowsWhatWasSetAside) {
    const auto b = pictured();
    const auto thread = judgement::threadOf({"d1"}, b.reg, b.analyse());
    const auto* node = nodeOf(thread, "r2");
    ASSERT_TRUE(node);
    EXPECT_TRUE(node->setAside);
    EXPECT_NE(node->detail.find("another car"), std::string::npos);
}

TEST(Thread, OfAParticularRunsFromItsSources) {
    RegisterBuilder b;
    b.particular("q1", "Panel timber");
    b.source("s1", "Ledger", SourceKind::Text);
    b.reading("r1", "q1", Basis::Stated, "s1", std::string("oak")).excerpt = "oak, best";
    const auto thread = judgement::threadOf({"q1"}, b.reg, b.analyse());
    EXPECT_TRUE(nodeOf(thread, "s1"));
    EXPECT_TRUE(nodeOf(thread, "r1"));
    ASSERT_TRUE(nodeOf(thread, "q1"));
    EXPECT_NE(nodeOf(thread, "q1")->detail.find("oak"), std::string::npos);
}

TEST(Thread, IsEmptyForAnUnknownId) {
    EXPECT_TRUE(judgement::threadOf({"nothing"}, {}, {}).nodes.empty());
}

TEST(Explanation, SaysTheGradeTheEvidenceAndWhatWasSetAside) {
    auto b = pictured();
    b.ruling("k1", "d1", std::string("20"));
    const auto text = judgement::explainText({"d1"}, b.reg, b.analyse());
    for (const char* words : {"Window width (D1)", "Grade B", "Broadside photograph (S1)",
                              "Plate catalogue (S2)", "set aside", "the evidence bears it"})
        EXPECT_NE(text.find(words), std::string::npos) << words << "\n" << text;
}

TEST(Explanation, AsJsonHoldsTheThread) {
    const auto b = pictured();
    const auto json =
        nlohmann::json::parse(evidence::exchange::explainJson({"d1"}, b.reg, b.analyse()));
    EXPECT_EQ(json.at("dimension").at("id"), "d1");
    EXPECT_GE(json.at("thread").at("nodes").size(), 6U);
    EXPECT_EQ(evidence::exchange::explainJson({"nothing"}, b.reg, b.analyse()), "null\n");
}

}  // namespace
