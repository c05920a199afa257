// Bad input of each kind the contract names (docs/exchange.md): its own clear error with the place,
// exit status 3, and an archive that is just as it was.
#include "tests/support/program.h"
#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <string>

namespace {

using nlohmann::json;

json goodDocument() {
    return json::parse(R"({
        "format": "lostlines-exchange", "version": 1,
        "archive": {"title": "A gate", "display_unit": "in", "smallest_fraction": 16},
        "people": [{"id": "p1", "name": "Ida Marsh", "role": "compiler"}],
        "states": [{"id": "t1", "label": "as first hung", "from": "1911"}],
        "sources": [{"id": "s1", "title": "Gate drawing", "kind": "drawing", "authority": "maker",
                     "date": "1911-03", "states": ["t1"]}],
        "dimensions": [
            {"id": "d1", "name": "Width", "component": "Gate", "quantity": "length", "unit": "in"},
            {"id": "d2", "code": "D2", "name": "Rail", "component": "Gate", "quantity": "length", "unit": "in"},
            {"id": "d3", "name": "Weight", "component": "Gate", "quantity": "mass", "unit": "lb"}],
        "readings": [
            {"id": "r1", "of": "d1", "basis": "figured", "source": "s1", "value": "3'-6 1/2\""},
            {"id": "r2", "of": "d2", "basis": "guessed", "value": 3.5, "half_width": 0.5,
             "reason": "matches the stile"}],
        "relations": [{"id": "l1", "formula": "D1 = 2*D2 + 35.5 in", "u": 0.1,
                       "basis": "assumed", "reason": "two stiles and the panel"}],
        "rulings": [{"id": "k1", "on": "d1", "value": "3'-6 1/2\"", "reason": "figured",
                     "by": "p1", "at": "2026-05-01T10:00:00Z"}]
    })");
}

struct BadInput {
    const char* name;
    const char* pointer;  ///< where the fault is put …
    const char* value;    ///< … as JSON; empty: the key is taken out
    const char* code;
    const char* place;  ///< the pointer the error must name
};

std::ostream& operator<<(std::ostream& out, const BadInput& bad) {
    return out << bad.name;
}

json spoilt(const BadInput& bad) {
    json document = goodDocument();
    const json::json_pointer pointer(bad.pointer);
    if (*bad.value)
        document[pointer] = json::parse(bad.value);
    else
        document[pointer.parent_pointer()].erase(pointer.back());
    return document;
}

class BadDocument : public testing::TestWithParam<BadInput> {};

TEST_P(BadDocument, IsRefusedAtItsPlaceAndChangesNothing) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    ASSERT_EQ(test::runLostlines({"new", archive, "--title", "Empty"}).status, 0);
    const auto before = test::runLostlines({"export", archive});
    ASSERT_EQ(before.status, 0) << before.err;

    const auto document = test::writeText(scratch / "bad.json", spoilt(GetParam()).dump()).string();
    const auto ran = test::runLostlines({"import", archive, document, "--json"});

    EXPECT_EQ(ran.status, 3) << ran.out << ran.err;
    const auto answer = json::parse(ran.out, nullptr, false);
    ASSERT_TRUE(answer.contains("errors")) << ran.out;
    EXPECT_EQ(answer["errors"][0]["code"], GetParam().code) << ran.out;
    EXPECT_EQ(answer["errors"][0]["place"], GetParam().place) << ran.out;
    EXPECT_FALSE(answer["errors"][0]["help"].get<std::string>().empty());
    EXPECT_EQ(test::runLostlines({"export", archive}).out, before.out);
}

INSTANTIATE_TEST_SUITE_P(
    Contract, BadDocument,
    testing::Values(
        BadInput{"UnknownKey", "/dimensions/0/colour", R"("red")", "unknown-key",
                 "/dimensions/0/colour"},
        BadInput{"UnknownTopKey", "/gates", "[]", "unknown-key", "/gates"},
        BadInput{"WrongType", "/dimensions/0/name", "7", "wrong-type", "/dimensions/0/name"},
        BadInput{"MissingKey", "/readings/0/basis", "", "missing-key", "/readings/0"},
        BadInput{"MissingTargetOfReading", "/readings/0/of", R"("d9")", "missing-target",
                 "/readings/0/of"},
        BadInput{"MissingSource", "/readings/0/source", R"("s9")", "missing-target",
                 "/readings/0/source"},
        BadInput{"MissingPerson", "/rulings/0/by", R"("p9")", "missing-target", "/rulings/0/by"},
        BadInput{"DuplicateId", "/readings/1/id", R"("d1")", "duplicate-id", "/readings/1/id"},
        BadInput{"DuplicateCode", "/dimensions/0/code", R"("D2")", "duplicate-id",
                 "/dimensions/1/code"},
        BadInput{"UnknownWord", "/readings/0/basis", R"("hearsay")", "bad-value",
                 "/readings/0/basis"},
        BadInput{"LengthThatCannotBeRead", "/readings/0/value", R"("three foot six")", "bad-value",
                 "/readings/0/value"},
        BadInput{"UnitThatDoesNotFit", "/readings/0/value", R"("12 lb")", "bad-unit",
                 "/readings/0/value"},
        BadInput{"DateOfSource", "/sources/0/date", R"("spring 1911")", "bad-date",
                 "/sources/0/date"},
        BadInput{"TimeOfRuling", "/rulings/0/at", R"("yesterday")", "bad-date", "/rulings/0/at"},
        BadInput{"FormulaWithUnitsThatDoNotFit", "/relations/0/formula", R"("D1 = D2 + D3")",
                 "bad-unit", "/relations/0/formula"},
        BadInput{"FormulaThatCannotBeRead", "/relations/0/formula", R"("D1 = 2*(D2")",
                 "bad-formula", "/relations/0/formula"},
        BadInput{"FormulaWithUnknownName", "/relations/0/formula", R"("D1 = 2*D77")",
                 "missing-target", "/relations/0/formula"},
        BadInput{"NegativeUncertainty", "/relations/0/u", "-0.1", "bad-value", "/relations/0/u"},
        BadInput{"WrongFormat", "/format", R"("other")", "bad-document", "/format"},
        BadInput{"LaterVersion", "/version", "2", "bad-document", "/version"}),
    [](const auto& bad) { return std::string(bad.param.name); });

TEST(BadText, IsRefusedWithItsLineAndChangesNothing) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    for (const std::string text :
         {"", "{", "[1, 2]", "{\"format\": \"lostlines-exchange\", \"version\": 1e999}",
          "{\"format\": \"lostlines-exchange\", \"format\": \"lostlines-exchange\"}",
          "\xff\xfe not text"}) {
        const auto document = test::writeText(scratch / "bad.json", text).string();
        const auto ran = test::runLostlines({"import", archive, document, "--json"});
        EXPECT_EQ(ran.status, 3) << text << ran.out << ran.err;
        EXPECT_TRUE(json::parse(ran.out, nullptr, false).contains("errors")) << ran.out;
    }
}

TEST(BadFile, HashThatDoesNotMatchIsRefused) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    json document = goodDocument();
    test::writeText(scratch / "sheet.txt", "three feet six and a half");
    document["sources"][0]["files"] = {
        {{"id", "f1"}, {"path", "sheet.txt"}, {"sha256", std::string(64, '0')}}};
    test::writeText(scratch / "doc.json", document.dump());
    const auto ran =
        test::runLostlines({"import", archive, (scratch / "doc.json").string(), "--json"});
    EXPECT_EQ(ran.status, 3) << ran.out << ran.err;
    EXPECT_EQ(json::parse(ran.out)["errors"][0]["code"], "hash-mismatch");
    EXPECT_EQ(json::parse(ran.out)["errors"][0]["place"], "/sources/0/files/0/sha256");
}

TEST(BadFile, NeitherBytesNorHashIsRefusedButAKnownHashMayBeAbsent) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    json document = goodDocument();
    document["sources"][0]["files"] = {{{"id", "f1"}, {"path", "nowhere.tif"}}};
    test::writeText(scratch / "doc.json", document.dump());
    const auto refused =
        test::runLostlines({"import", archive, (scratch / "doc.json").string(), "--json"});
    EXPECT_EQ(refused.status, 3) << refused.out << refused.err;
    EXPECT_EQ(json::parse(refused.out)["errors"][0]["code"], "missing-file");

    document["sources"][0]["files"][0]["sha256"] = std::string(64, 'a');
    test::writeText(scratch / "doc.json", document.dump());
    const auto taken = test::runLostlines({"import", archive, (scratch / "doc.json").string()});
    ASSERT_EQ(taken.status, 0) << taken.err;
    const auto analysis = json::parse(test::runLostlines({"analyse", archive, "--json"}).out);
    bool missing = false;
    for (const auto& finding : analysis["findings"]) missing |= finding["kind"] == "file-missing";
    EXPECT_TRUE(missing);
}

TEST(GoodDocument, ExportsTheSameBytesTwice) {
    const test::ScratchFolder scratch;
    const auto first = (scratch / "first").string();
    const auto second = (scratch / "second").string();
    test::writeText(scratch / "doc.json", goodDocument().dump());
    ASSERT_EQ(test::runLostlines({"new", first}).status, 0);
    const auto ran = test::runLostlines({"import", first, (scratch / "doc.json").string()});
    ASSERT_EQ(ran.status, 0) << ran.err;
    const auto once = test::runLostlines({"export", first}).out;
    test::writeText(scratch / "once.json", once);
    ASSERT_EQ(test::runLostlines({"new", second}).status, 0);
    const auto again = test::runLostlines({"import", second, (scratch / "once.json").string()});
    ASSERT_EQ(again.status, 0) << again.err;
    EXPECT_EQ(test::runLostlines({"export", second}).out, once);
}

TEST(Import, IntoAnArchiveWithContentRefusesATakenId) {
    const test::ScratchFolder scratch;
    const auto archive = (scratch / "archive").string();
    const auto document = test::writeText(scratch / "doc.json", goodDocument().dump()).string();
    ASSERT_EQ(test::runLostlines({"new", archive}).status, 0);
    ASSERT_EQ(test::runLostlines({"import", archive, document}).status, 0);
    const auto before = test::runLostlines({"export", archive}).out;
    const auto again = test::runLostlines({"import", archive, document, "--json"});
    EXPECT_EQ(again.status, 3);
    EXPECT_EQ(json::parse(again.out)["errors"][0]["code"], "duplicate-id");
    EXPECT_EQ(test::runLostlines({"export", archive}).out, before);
    EXPECT_EQ(test::runLostlines({"import", archive, document, "--update"}).status, 0);
    EXPECT_EQ(test::runLostlines({"export", archive}).out, before);
}

}  // namespace
