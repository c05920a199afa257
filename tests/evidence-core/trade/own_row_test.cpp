// Rows that people add: whole, with a source.
#include "tests/evidence-core/trade/known_row.h"

namespace {

using namespace trading;

record::TableRow siding() {
    record::TableRow own;
    own.id = "our-siding";
    own.name = "Rail at the surviving siding";
    own.measures = "distance between inner faces of rail heads";
    own.value = 36.19;
    own.unit = "in";
    own.u = 0.03;
    own.era = "1911/..";
    own.region = "UK";
    own.source = {"s1"};
    return own;
}

std::vector<record::Source> sources() {
    record::Source source;
    source.id = {"s1"};
    source.title = "Siding gauged with a steel rule";
    return {source};
}

TEST(OwnRow, IsARowOfTheTablesAndStandsFirst) {
    record::Register reg;
    reg.sources = sources();
    reg.archive.settings = record::Settings{};
    reg.archive.settings->tableRows = {siding()};
    const trade::Tables tables(reg);
    const auto* found = tables.find("our-siding");
    ASSERT_NE(found, nullptr);
    EXPECT_EQ(found->source, "Siding gauged with a steel rule");
    EXPECT_EQ(found->ownSource, record::SourceId{"s1"});
    const auto rows = trade::search(tables, {.words = "rail"});
    ASSERT_TRUE(rows);
    EXPECT_NE(tables.find("rg-standard"), nullptr);
    EXPECT_EQ(trade::search(tables, {.words = "rail heads"})->front().row->table, "own");
}

struct Fault {
    std::string name;
    void (*spoil)(record::TableRow&);
    Code code;
    std::string place;

    friend std::ostream& operator<<(std::ostream& out, const Fault& fault) {
        return out << fault.name;
    }
};

class FaultyOwnRow : public testing::TestWithParam<Fault> {};

TEST_P(FaultyOwnRow, IsRefusedAtItsKey) {
    auto own = siding();
    GetParam().spoil(own);
    const auto row = trade::ownRow(own, sources());
    ASSERT_FALSE(row);
    EXPECT_EQ(row.error().code, GetParam().code) << row.error().help;
    EXPECT_EQ(row.error().place, GetParam().place);
    EXPECT_FALSE(row.error().help.empty());
}

using record::TableRow;
INSTANTIATE_TEST_SUITE_P(
    All, FaultyOwnRow,
    testing::Values(
        Fault{"NoSource", [](TableRow& r) { r.source = {}; }, Code::MissingKey, "source"},
        Fault{"UnknownSource", [](TableRow& r) { r.source = {"s9"}; }, Code::MissingTarget,
              "source"},
        Fault{"NoId", [](TableRow& r) { r.id = " "; }, Code::MissingKey, "id"},
        Fault{"TakenId", [](TableRow& r) { r.id = "rg-standard"; }, Code::DuplicateId, "id"},
        Fault{"NoName", [](TableRow& r) { r.name = ""; }, Code::MissingKey, "name"},
        Fault{"OtherUnit", [](TableRow& r) { r.unit = "lb/ft3"; }, Code::BadUnit, "unit"},
        Fault{"NoSpread", [](TableRow& r) { r.u = 0; }, Code::BadValue, "u"},
        Fault{"LowAbove", [](TableRow& r) { r.low = 37; }, Code::BadValue, "low"},
        Fault{"HighBelow", [](TableRow& r) { r.high = 36; }, Code::BadValue, "high"},
        Fault{"NoDate", [](TableRow& r) { r.era = "last year"; }, Code::BadDate, "era"},
        Fault{"NoPlace", [](TableRow& r) { r.region = "Atlantis"; }, Code::BadValue, "region"},
        Fault{"WeightlessDensity",
              [](TableRow& r) {
                  r.kind = record::TableRowKind::Density;
                  r.unit = "lb/ft3";
                  r.value = 0;
              },
              Code::BadValue, "value"}),
    [](const auto& each) { return each.param.name; });

}  // namespace
