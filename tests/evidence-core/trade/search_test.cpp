#include "tests/evidence-core/trade/known_row.h"

#include <algorithm>

namespace {

using namespace trading;
using trade::FoundRow;
using trade::Question;

std::vector<FoundRow> found(const Question& question) {
    const auto rows = trade::search(trade::Tables::builtIn(), question);
    EXPECT_TRUE(rows) << (rows ? "" : rows.error().help);
    return rows ? *rows : std::vector<FoundRow>{};
}

Question words(const std::string& text) {
    return {.words = text};
}

const FoundRow* of(const std::vector<FoundRow>& rows, const std::string& id) {
    const auto it = std::ranges::find(rows, id, [](const FoundRow& f) { return f.row->id; });
    return it == rows.end() ? nullptr : &*it;
}

quantity::EdtfDate date(const std::string& edtf) {
    return *quantity::parseEdtf(edtf);
}

TEST(Search, AllWordsMustStandInTheRow) {
    const auto rows = found(words("standard gauge railway"));
    ASSERT_FALSE(rows.empty());
    EXPECT_EQ(rows.front().row->id, "rg-standard");
    EXPECT_TRUE(found(words("railway zeppelin")).empty());
}

TEST(Search, AWordMayBeTheBeginningOfOneAndCaseIsNothing) {
    EXPECT_NE(of(found(words("RAIL gau")), "rg-standard"), nullptr);
    EXPECT_EQ(of(found(words("ilway")), "rg-standard"), nullptr);
}

TEST(Search, ANumberIsNoPartOfAFraction) {
    for (const auto& each : found(words("whitworth hexagon 2")))
        EXPECT_NE(each.row->id, "bsw-h1-1_2");
}

TEST(Search, WordsOfTheNameGoBeforeWordsOfTheSource) {
    const auto rows = found(words("oak"));
    ASSERT_GE(rows.size(), 4U);
    EXPECT_NE(rows.front().row->name.find("oak"), std::string::npos);
}

TEST(Search, EraThatDoesNotMeetIsKeptAndSaidSo) {
    const auto rows = found({.words = "2 in lumber", .era = date("1909")});
    const auto* early = of(rows, "lb-2-1910");
    const auto* late = of(rows, "lb-2-1970");
    ASSERT_NE(early, nullptr);
    ASSERT_NE(late, nullptr);
    EXPECT_TRUE(early->fits());
    EXPECT_FALSE(late->fitsEra);
    EXPECT_LT(early, late);
}

TEST(Search, AnApproximateDateReachesTenYearsFarther) {
    EXPECT_FALSE(trade::erasMeet(date("1924/1964"), date("1915")));
    EXPECT_TRUE(trade::erasMeet(date("1924/1964"), date("1915~")));
    EXPECT_FALSE(trade::erasMeet(date("1924/1964"), date("1913~")));
    EXPECT_TRUE(trade::erasMeet(date("1884/.."), date("2020")));
    EXPECT_FALSE(trade::erasMeet(date("1884/.."), date("1880")));
    EXPECT_TRUE(trade::erasMeet(std::nullopt, date("1880")));
}

TEST(Search, RegionIsACodeOrAWordAndHoldsWhatLiesInIt) {
    for (const std::string region : {"GB", "uk", "Great Britain", "England"}) {
        const auto rows = found({.words = "brick", .region = region});
        EXPECT_TRUE(of(rows, "bk-uk1571-l")->fitsRegion) << region;
        EXPECT_FALSE(of(rows, "bk-us-ne-l")->fitsRegion) << region;
    }
    const auto rows = found({.words = "brick", .region = "New England"});
    EXPECT_TRUE(of(rows, "bk-us-ne-l")->fitsRegion);
    EXPECT_TRUE(of(rows, "bk-us-press-l")->fitsRegion);  // all of the United States
    EXPECT_FALSE(of(rows, "bk-uk1571-l")->fitsRegion);   // New England is no England
    EXPECT_TRUE(of(found({.words = "standard railway gauge", .region = "Chile"}), "rg-standard")
                    ->fitsRegion);  // worldwide
}

TEST(Search, UnknownRegionIsRefused) {
    const auto rows = trade::search(trade::Tables::builtIn(), {.words = "", .region = "Atlantis"});
    ASSERT_FALSE(rows);
    EXPECT_EQ(rows.error().code, Code::BadValue);
    EXPECT_EQ(rows.error().place, "region");
}

TEST(Search, KindNarrows) {
    const auto rows = found({.words = "ash", .kind = record::TableRowKind::Density});
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0].row->id, "dn-ash-white");
}

TEST(Tables, RowByItsId) {
    EXPECT_EQ(row("rg-standard").value, 56.5);
    EXPECT_EQ(trade::Tables::builtIn().find("rg-nothing"), nullptr);
}

}  // namespace
