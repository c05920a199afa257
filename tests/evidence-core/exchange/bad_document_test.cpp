// Each kind of bad input is one refusal that names the JSON pointer.
#include "evidence-core/exchange/plan_import.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>

namespace {

using namespace evidence;
using nlohmann::ordered_json;

ordered_json example() {
    std::ifstream in(std::string(LOSTLINES_SOURCE) + "/docs/examples/document.json");
    return ordered_json::parse(in);
}

struct BadInput {
    std::string name;
    std::string pointer;  ///< where the example is changed
    std::string value;    ///< what is put there (JSON); empty: it is removed
    Code code;
    std::string place;
    std::string help;  ///< a part of the sentence

    friend std::ostream& operator<<(std::ostream& out, const BadInput& bad) {
        return out << bad.name;
    }
};

class BadDocument : public testing::TestWithParam<BadInput> {};

TEST_P(BadDocument, IsRefusedWithItsPointer) {
    const auto& bad = GetParam();
    auto document = example();
    const ordered_json::json_pointer at(bad.pointer);
    if (bad.value.empty()) {
        auto& parent = document[at.parent_pointer()];
        ASSERT_TRUE(parent.contains(at.back()));
        parent.erase(at.back());
    } else {
        document[at] = ordered_json::parse(bad.value);
    }
    const auto read = exchange::readRegister(document.dump());
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().code, bad.code) << read.error().help;
    EXPECT_EQ(read.error().place, bad.place) << read.error().help;
    EXPECT_NE(read.error().help.find(bad.help), std::string::npos) << read.error().help;
}

const auto kBadInputs = testing::Values(
    // the document itself
    BadInput{"OtherFormat", "/format", "\"something\"", Code::BadDocument, "/format", "another"},
    BadInput{"NoFormat", "/format", "", Code::MissingKey, "", "format"},
    BadInput{"LaterVersion", "/version", "2", Code::BadDocument, "/version", "version 1"},
    BadInput{"NoVersion", "/version", "", Code::MissingKey, "", "version"},
    BadInput{"UnknownTable", "/wishes", "[]", Code::UnknownKey, "/wishes", "no such key"},
    // keys and types
    BadInput{"UnknownKey", "/dimensions/0/colour", "\"red\"", Code::UnknownKey,
             "/dimensions/0/colour", "quantity"},
    BadInput{"UnknownNestedKey", "/frames/0/references/0/length/length", "1", Code::UnknownKey,
             "/frames/0/references/0/length/length", "known are value"},
    BadInput{"TextForNumber", "/dimensions/0/tolerance", "\"0.1\"", Code::WrongType,
             "/dimensions/0/tolerance", "a number"},
    BadInput{"NumberForText", "/dimensions/0/name", "5", Code::WrongType, "/dimensions/0/name",
             "a text"},
    BadInput{"ObjectForList", "/dimensions", "{}", Code::WrongType, "/dimensions", "a list"},
    BadInput{"ListForRecord", "/dimensions/0", "[]", Code::WrongType, "/dimensions/0", "an object"},
    BadInput{"NullForValue", "/readings/1/value", "null", Code::WrongType, "/readings/1/value",
             "a number or a text"},
    BadInput{"FractionForPage", "/marks/0/page", "1.5", Code::WrongType, "/marks/0/page",
             "whole number"},
    BadInput{"NumberForTruth", "/dimensions/0/critical", "1", Code::WrongType,
             "/dimensions/0/critical", "true or false"},
    BadInput{"PointOfThreeNumbers", "/marks/0/points/0", "[1, 2, 3]", Code::BadValue,
             "/marks/0/points/0", "list of 2"},
    BadInput{"NoId", "/readings/0/id", "", Code::MissingKey, "/readings/0", "\"id\""},
    BadInput{"EmptyId", "/readings/0/id", "\"\"", Code::BadValue, "/readings/0/id", "empty"},
    BadInput{"NoTitle", "/archive/title", "", Code::MissingKey, "/archive", "\"title\""},
    BadInput{"NoQuantity", "/dimensions/0/quantity", "", Code::MissingKey, "/dimensions/0",
             "\"quantity\""},
    BadInput{"NoReason", "/rulings/0/reason", "", Code::MissingKey, "/rulings/0", "\"reason\""},
    BadInput{"UnknownWord", "/sources/0/kind", "\"poem\"", Code::BadValue, "/sources/0/kind",
             "\"photograph\""},
    BadInput{"UnknownBasis", "/readings/0/basis", "\"felt\"", Code::BadValue, "/readings/0/basis",
             "\"scaled\""},
    BadInput{"UnknownUse", "/relations/0/use", "\"maybe\"", Code::BadValue, "/relations/0/use",
             "\"adjust\""},
    // ids, codes and what they point to
    BadInput{"IdTwiceInOneTable", "/dimensions/1/id", "\"d1\"", Code::DuplicateId,
             "/dimensions/1/id", "twice"},
    BadInput{"IdTwiceAcrossKinds", "/readings/0/id", "\"d1\"", Code::DuplicateId, "/readings/0/id",
             "twice"},
    BadInput{"FileIdTwice", "/sources/0/files/0/id", "\"p1\"", Code::DuplicateId,
             "/sources/0/files/0/id", "twice"},
    BadInput{"CodeTwice", "/dimensions/1/code", "\"D1\"", Code::DuplicateId, "/dimensions/1/code",
             "d1"},
    BadInput{"ReadingOfNothing", "/readings/0/of", "\"d99\"", Code::MissingTarget, "/readings/0/of",
             "d99"},
    BadInput{"ReadingOfASource", "/readings/0/of", "\"s1\"", Code::MissingTarget, "/readings/0/of",
             "is a source"},
    BadInput{"ReadingWithoutItsMark", "/readings/0/mark", "\"m99\"", Code::MissingTarget,
             "/readings/0/mark", "a mark"},
    BadInput{"ReadingWithoutItsFrame", "/readings/0/frame", "\"m1\"", Code::MissingTarget,
             "/readings/0/frame", "a frame"},
    BadInput{"ReadingFromNowhere", "/readings/1/source", "\"s99\"", Code::MissingTarget,
             "/readings/1/source", "a source"},
    BadInput{"ReadingByNobody", "/readings/1/by", "\"p99\"", Code::MissingTarget, "/readings/1/by",
             "a person"},
    BadInput{"MarkOnNoFile", "/marks/0/file", "\"f99\"", Code::MissingTarget, "/marks/0/file",
             "a file"},
    BadInput{"ReferenceWithoutItsMark", "/frames/0/references/0/mark", "\"m99\"",
             Code::MissingTarget, "/frames/0/references/0/mark", "a mark"},
    BadInput{"ReferenceToNoDimension", "/frames/0/references/1/length/dimension", "\"d99\"",
             Code::MissingTarget, "/frames/0/references/1/length/dimension", "a dimension"},
    BadInput{"StateUnknown", "/dimensions/0/state", "\"t99\"", Code::MissingTarget,
             "/dimensions/0/state", "a state"},
    BadInput{"SourceOfUnknownState", "/sources/0/states/0", "\"t99\"", Code::MissingTarget,
             "/sources/0/states/0", "a state"},
    BadInput{"DescentFromNothing", "/sources/1/descends/0/from", "\"s99\"", Code::MissingTarget,
             "/sources/1/descends/0/from", "a source"},
    BadInput{"SharedErrorOnADimension", "/shared_errors/0/on/0/record", "\"d1\"",
             Code::MissingTarget, "/shared_errors/0/on/0/record", "g1/0"},
    BadInput{"SharedErrorOnNoReference", "/shared_errors/0/on/0/record", "\"g1/9\"",
             Code::MissingTarget, "/shared_errors/0/on/0/record", "g1/0"},
    BadInput{"RulingOnAReading", "/rulings/0/on", "\"r1\"", Code::MissingTarget, "/rulings/0/on",
             "a dimension or a particular"},
    BadInput{"QueryOnNothing", "/queries/0/on", "\"zz\"", Code::MissingTarget, "/queries/0/on",
             "id of a record"},
    BadInput{"InfersNoDimension", "/relations/0/use", "{\"infer\": \"d99\"}", Code::MissingTarget,
             "/relations/0/use/infer", "a dimension"},
    BadInput{"DescentRing", "/sources/0/descends", "[{\"from\": \"s2\", \"as\": \"copy\"}]",
             Code::WrongUse, "/sources/0/descends", "come from itself"},
    BadInput{"ReplacesItself", "/sources/0/replaces", "\"s1\"", Code::WrongUse,
             "/sources/0/replaces", "come from itself"},
    // values, units, dates, formulas
    BadInput{"ValueUnreadable", "/readings/1/value", "\"five feet or so\"", Code::BadValue,
             "/readings/1/value", "cannot be read as length"},
    BadInput{"ValueOfAnotherKind", "/readings/1/value", "\"5 lb\"", Code::BadUnit,
             "/readings/1/value", "cannot be read as length"},
    BadInput{"UnitUnknown", "/dimensions/0/unit", "\"cubit\"", Code::BadUnit, "/dimensions/0/unit",
             ""},
    BadInput{"UnitOfAnotherKind", "/dimensions/0/unit", "\"kg\"", Code::BadUnit,
             "/dimensions/0/unit", ""},
    BadInput{"ReadingsUnitUnfit", "/readings/2/unit", "\"deg\"", Code::BadUnit, "/readings/2/unit",
             ""},
    BadInput{"RulingUnreadable", "/rulings/0/value", "\"l4 in\"", Code::BadValue,
             "/rulings/0/value", ""},
    BadInput{"SlipUnreadable", "/slips/0/value", "\"?\"", Code::BadValue, "/slips/0/value", ""},
    BadInput{"AsBuiltUnreadable", "/as_built/0/value", "\"?\"", Code::BadValue, "/as_built/0/value",
             ""},
    BadInput{"ReferenceUnreadable", "/frames/0/references/0/length/value", "\"wide\"",
             Code::BadValue, "/frames/0/references/0/length/value", ""},
    BadInput{"DateNotEdtf", "/sources/0/date", "\"03/04/1935\"", Code::BadDate, "/sources/0/date",
             "EDTF"},
    BadInput{"StateDateNotEdtf", "/states/0/from", "\"spring\"", Code::BadDate, "/states/0/from",
             "EDTF"},
    BadInput{"TimeNotRfc3339", "/rulings/0/at", "\"yesterday\"", Code::BadDate, "/rulings/0/at",
             "UTC"},
    BadInput{"TimeNotInUtc", "/rulings/0/at", "\"2026-05-01T10:00:00+02:00\"", Code::BadDate,
             "/rulings/0/at", "UTC"},
    BadInput{"FormulaUnreadable", "/relations/0/formula", "\"D1 = = D2\"", Code::BadFormula,
             "/relations/0/formula", ""},
    BadInput{"FormulaOfUnknownName", "/relations/0/formula", "\"D1 = D77\"", Code::MissingTarget,
             "/relations/0/formula", "character 6"},
    BadInput{"FormulaOfUnlikeUnits", "/relations/0/formula", "\"D1 = D2 * D2\"", Code::BadUnit,
             "/relations/0/formula", ""},
    // numbers out of range
    BadInput{"NegativeU", "/readings/3/u", "-0.1", Code::BadValue, "/readings/3/u", "0 or more"},
    BadInput{"TwoUncertainties", "/readings/3/half_width", "0.1", Code::WrongUse, "/readings/3/u",
             "only one"},
    BadInput{"ShapeWithoutWidth", "/readings/3/shape", "\"triangular\"", Code::WrongUse,
             "/readings/3/shape", "half_width"},
    BadInput{"FractionTooCoarse", "/archive/smallest_fraction", "1", Code::BadValue,
             "/archive/smallest_fraction", "2"},
    BadInput{"FractionTooFine", "/archive/smallest_fraction", "256", Code::BadValue,
             "/archive/smallest_fraction", "128"},
    BadInput{"TableRowWithoutSource", "/archive/settings/table_rows/0/source", "", Code::MissingKey,
             "/archive/settings/table_rows/0", "source"},
    BadInput{"TableRowOfNoSource", "/archive/settings/table_rows/0/source", "\"s99\"",
             Code::MissingTarget, "/archive/settings/table_rows/0/source", "no source"},
    BadInput{"TableRowWithATakenId", "/archive/settings/table_rows/0/id", "\"rg-standard\"",
             Code::DuplicateId, "/archive/settings/table_rows/0/id", "rg-standard"},
    BadInput{"TableRowInAnotherUnit", "/archive/settings/table_rows/0/unit", "\"lb/ft3\"",
             Code::BadUnit, "/archive/settings/table_rows/0/unit", "in, mm"},
    BadInput{"TableRowWithoutASpread", "/archive/settings/table_rows/0/u", "0", Code::BadValue,
             "/archive/settings/table_rows/0/u", "more than 0"},
    BadInput{"PageZero", "/marks/0/page", "0", Code::BadValue, "/marks/0/page", "from 1"},
    BadInput{"HashTooShort", "/sources/0/files/0/sha256", "\"abc\"", Code::BadValue,
             "/sources/0/files/0/sha256", "64"},
    BadInput{"NegativeTolerance", "/dimensions/0/tolerance", "-1", Code::BadValue,
             "/dimensions/0/tolerance", "0 or more"},
    BadInput{"SegmentOfOnePoint", "/marks/0/points", "[[1, 2]]", Code::BadValue, "/marks/0/points",
             "a segment takes 2 points"},
    BadInput{"SegmentOfThreePoints", "/marks/0/points", "[[1, 2], [3, 4], [5, 6]]", Code::BadValue,
             "/marks/0/points", "found 3"},
    BadInput{"CovarianceOfAnotherSize", "/marks/0/covariance", "[[1, 0], [0, 1]]", Code::BadValue,
             "/marks/0/covariance", "4 rows of 4"},
    BadInput{"CovarianceNotSymmetric", "/marks/0/covariance",
             "[[1,0.5,0,0],[0,1,0,0],[0,0,1,0],[0,0,0,1]]", Code::BadValue, "/marks/0/covariance",
             "symmetric"},
    BadInput{"NegativeVariance", "/marks/0/covariance",
             "[[-1,0,0,0],[0,1,0,0],[0,0,1,0],[0,0,0,1]]", Code::BadValue, "/marks/0/covariance",
             "negative"},
    // keys that need each other
    BadInput{"ScaledWithoutFrame", "/readings/0/frame", "", Code::MissingKey, "/readings/0",
             "\"frame\""},
    BadInput{"ScaledWithoutMark", "/readings/0/mark", "", Code::MissingKey, "/readings/0",
             "\"mark\""},
    BadInput{"ReadingWithoutValue", "/readings/1/value", "", Code::MissingKey, "/readings/1",
             "\"value\""},
    BadInput{"ReferenceWithoutLength", "/frames/0/references/0/length", "{}", Code::MissingKey,
             "/frames/0/references/0/length", "\"dimension\""},
    BadInput{"ReferenceToAMass", "/dimensions/2/quantity", "\"mass\"", Code::WrongUse,
             "/frames/0/references/1/length/dimension", "no length"},
    BadInput{"ReferenceInterpolatedWithoutDoubt", "/frames/0/references/0/length",
             R"({"value": 56.5, "basis": "interpolated", "source": "s4"})", Code::MissingKey,
             "/frames/0/references/0/length", "no default uncertainty"},
    BadInput{"ReferenceOfTwoLengths", "/frames/0/references/1/length/value", "12", Code::WrongUse,
             "/frames/0/references/1/length/dimension", "either"},
    BadInput{"InferredWithoutSpread", "/readings/2/basis", "\"interpolated\"", Code::MissingKey,
             "/readings/2", "no default"},
    BadInput{"LimitsCrossed", "/readings/4",
             R"({"id": "r5", "of": "d2", "basis": "limit", "low": "3 in", "high": "2 in"})",
             Code::BadValue, "/readings/4/high", "below"},
    BadInput{"CorrectionOfTwoKinds", "/readings/3/corrections/0/factor", "1.01", Code::WrongUse,
             "/readings/3/corrections/0", "either"},
    BadInput{"MarkOfAnotherSheet", "/marks/1/page", "2", Code::WrongUse,
             "/frames/0/references/1/mark", "page 2"});

INSTANTIATE_TEST_SUITE_P(Each, BadDocument, kBadInputs,
                         [](const auto& row) { return row.param.name; });

TEST(GoodDocument, ExampleIsReadWithoutComplaint) {
    const auto read = exchange::readRegister(example().dump());
    ASSERT_TRUE(read) << read.error().place << ": " << read.error().help;
}

TEST(GoodDocument, NothingButTheHeadIsEnough) {
    const auto read = exchange::readRegister(R"({"format": "lostlines-exchange", "version": 1})");
    ASSERT_TRUE(read);
    EXPECT_EQ(*read, record::Register{});
}

}  // namespace
