#include "evidence-core/exchange/plan_import.h"
#include "evidence-core/exchange/read_document.h"
#include "evidence-core/exchange/write_document.h"
#include "evidence-core/record/change.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

namespace {

using namespace evidence;
using exchange::ImportMode;
using exchange::readRegister;
using exchange::writeDocument;
using record::Register;

std::string exampleText() {
    std::ifstream in(std::string(LOSTLINES_SOURCE) + "/docs/examples/document.json");
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

Register example() {
    auto reg = readRegister(exampleText());
    EXPECT_TRUE(reg) << reg.error().place << ": " << reg.error().help;
    return reg ? *reg : Register{};
}

exchange::Document documentOf(const std::string& body) {
    auto document = exchange::readDocument(R"({"format": "lostlines-exchange", "version": 1)" +
                                           (body.empty() ? "" : ", " + body) + "}");
    EXPECT_TRUE(document) << document.error().place << ": " << document.error().help;
    return document ? *document : exchange::Document{};
}

const std::string kTwoLengths =
    R"("dimensions": [{"id": "a", "name": "x", "quantity": "length"},
                      {"id": "b", "name": "y", "quantity": "length", "code": "D1"}])";

TEST(Document, ExportOfAnImportIsTheSameBytesTheSecondTime) {
    const std::string first = writeDocument(example());
    const auto again = readRegister(first);
    ASSERT_TRUE(again) << again.error().help;
    EXPECT_EQ(writeDocument(*again), first);
}

TEST(Document, NumbersOfValuesKeepTheirLastDecimal) {
    EXPECT_NE(writeDocument(example()).find("\"value\": 6.50"), std::string::npos);
}

TEST(Document, PathInAnExportIsByHash) {
    EXPECT_NE(writeDocument(example()).find(
                  "\"path\": \"originals/9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6"
                  "c15b0f00a08.tif\""),
              std::string::npos);
}

TEST(OriginalsPath, TakesOnlyAPlainExtension) {
    const auto pathOf = [](const std::string& path) {
        record::File file;
        file.path = path;
        file.sha256 = "h";
        return exchange::originalsPath(file);
    };
    EXPECT_EQ(pathOf("a/B.TIFF"), "originals/h.tiff");
    EXPECT_EQ(pathOf("a.b/c"), "originals/h");
    EXPECT_EQ(pathOf("c"), "originals/h");
    EXPECT_EQ(pathOf(".hidden"), "originals/h");
    EXPECT_EQ(pathOf("x.t/../if"), "originals/h");
    EXPECT_EQ(pathOf("x.extension-too-long"), "originals/h");
}

TEST(PlanImport, MissingCodesAreGivenInOrderAndPassOverTakenOnes) {
    const auto plan = planImport({}, documentOf(kTwoLengths), ImportMode::Add);
    ASSERT_TRUE(plan);
    const auto reg = record::applied({}, *plan);
    EXPECT_EQ(reg.dimensions[0].code, "D2");
    EXPECT_EQ(reg.dimensions[1].code, "D1");
}

TEST(PlanImport, CodesOfTheArchiveArePassedOverToo) {
    const auto reg = record::applied({}, *planImport({}, documentOf(kTwoLengths), ImportMode::Add));
    const auto plan = planImport(
        reg, documentOf(R"("dimensions": [{"id": "c", "name": "z", "quantity": "length"}])"),
        ImportMode::Add);
    ASSERT_TRUE(plan);
    EXPECT_EQ(record::applied(reg, *plan).dimensions[2].code, "D3");
}

TEST(PlanImport, TakenIdIsRefusedWithItsPointer) {
    const auto plan = planImport(example(), documentOf(R"("people": [{"id": "x", "name": "X"},
                                                                     {"id": "d1", "name": "Y"}])"),
                                 ImportMode::Add);
    ASSERT_FALSE(plan);
    EXPECT_EQ(plan.error().code, Code::DuplicateId);
    EXPECT_EQ(plan.error().place, "/people/1/id");
}

TEST(PlanImport, TakenCodeIsRefusedWithItsPointer) {
    const auto plan = planImport(
        example(),
        documentOf(
            R"("dimensions": [{"id": "n", "name": "x", "quantity": "length", "code": "D2"}])"),
        ImportMode::Add);
    ASSERT_FALSE(plan);
    EXPECT_EQ(plan.error().code, Code::DuplicateId);
    EXPECT_EQ(plan.error().place, "/dimensions/0/code");
}

TEST(PlanImport, MayReferToRecordsOfTheArchive) {
    const auto plan =
        planImport(example(), documentOf(R"("readings": [{"id": "new", "of": "d1", "basis": "told",
                                               "value": "14 ft"}])"),
                   ImportMode::Add);
    ASSERT_TRUE(plan) << plan.error().help;
    EXPECT_EQ(plan->changes.size(), 1U);
}

TEST(PlanImport, ArchiveKeyIsForEmptyArchivesOrUpdates) {
    const auto document = documentOf(R"("archive": {"title": "Other"})");
    Register empty;
    empty.archive.title = "New";
    empty.people.push_back({{"p"}, "Anna", {}, {}});
    EXPECT_EQ(planImport(empty, document, ImportMode::Add)->changes.size(), 1U);
    EXPECT_TRUE(planImport(example(), document, ImportMode::Add)->changes.empty());
    EXPECT_EQ(planImport(example(), document, ImportMode::Update)->changes.size(), 1U);
}

TEST(PlanImport, UpdateReplacesTheWholeRecordButKeepsItsCode) {
    const auto reg = example();
    const auto plan = planImport(
        reg, documentOf(R"("dimensions": [{"id": "d2", "name": "renamed", "quantity": "length"}])"),
        ImportMode::Update);
    ASSERT_TRUE(plan) << plan.error().place << plan.error().help;
    ASSERT_EQ(plan->changes.size(), 1U);
    const auto after = record::applied(reg, *plan);
    EXPECT_EQ(after.dimensions[1].name, "renamed");
    EXPECT_EQ(after.dimensions[1].code, "D2");
    EXPECT_EQ(after.dimensions[1].tolerance, std::nullopt);
}

TEST(PlanImport, UpdateThatLeavesARecordOfTheArchiveWithoutSenseIsRefused) {
    const auto plan = planImport(
        example(), documentOf(R"("dimensions": [{"id": "d2", "name": "x", "quantity": "mass"}])"),
        ImportMode::Update);
    ASSERT_FALSE(plan);
    EXPECT_NE(plan.error().place.find("r3"), std::string::npos) << plan.error().place;
}

TEST(PlanImport, UpdateOfACodeLeavesTheRelationsRight) {
    const auto plan = planImport(
        example(), documentOf(R"("dimensions": [{"id": "d2", "code": "WB", "name": "Wheelbase",
                                      "quantity": "length"}])"),
        ImportMode::Update);
    EXPECT_TRUE(plan) << plan.error().place << plan.error().help;
}

TEST(PlanImport, UpdateOfNothingNewChangesNothing) {
    auto document = exchange::readDocument(exampleText());
    ASSERT_TRUE(document);
    EXPECT_TRUE(planImport(example(), *document, ImportMode::Update)->changes.empty());
}

TEST(PlanImport, IdOfAnotherKindCannotBeUpdated) {
    const auto plan = planImport(example(), documentOf(R"("people": [{"id": "d1", "name": "Y"}])"),
                                 ImportMode::Update);
    ASSERT_FALSE(plan);
    EXPECT_EQ(plan.error().code, Code::DuplicateId);
}

TEST(PlanImport, ResolutionOfAPageIsFixedOnceItHasMarks) {
    auto document = exchange::readDocument(exampleText());
    document->reg.sources[0].files[0].rasterDpi = 600;
    const auto plan = planImport(example(), *document, ImportMode::Update);
    ASSERT_FALSE(plan);
    EXPECT_EQ(plan.error().place, "/sources/0/files/0/raster_dpi");
}

TEST(PlanImport, StatesAppend) {
    const auto reg = example();
    const auto plan = planImport(reg, documentOf(R"("states": [{"id": "t0", "label": "later"}])"),
                                 ImportMode::Add);
    ASSERT_TRUE(plan);
    EXPECT_EQ(record::applied(reg, *plan).states.back().id.text, "t0");
}

}  // namespace
