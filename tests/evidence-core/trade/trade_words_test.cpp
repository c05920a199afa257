#include "tests/evidence-core/trade/known_row.h"

#include <rapidcheck/gtest.h>

#include <algorithm>
#include <set>

namespace {

using namespace trading;
using trade::TradeWords;

TradeWords read(const std::string& words, const trade::Question& where = {}) {
    return trade::tradeWords(trade::Tables::builtIn(), words, where);
}

std::set<std::string> systems(const TradeWords& words) {
    std::set<std::string> ids;
    for (const auto& meaning : words.meanings) ids.insert(meaning.system->id);
    return ids;
}

double first(const TradeWords& words, const std::string& system) {
    for (const auto& meaning : words.meanings)
        if (meaning.system->id == system) return meaning.rows.front()->value;
    return 0;
}

// Sixteen gauge in four systems: 0.0640, 0.0650, 0.0625 and 0.0508 in (legal table of 1883,
// Holtzapffel, 15 U.S.C. 206, ASTM B258).
TEST(TradeWords, SixteenGaugeAsksWhich) {
    const auto words = read("16 gauge");
    EXPECT_FALSE(words.settled());
    EXPECT_EQ(systems(words), (std::set<std::string>{"swg", "bwg", "awg", "ussg", "msg", "wmg"}));
    EXPECT_EQ(first(words, "swg"), 0.064);
    EXPECT_EQ(first(words, "bwg"), 0.065);
    EXPECT_EQ(first(words, "ussg"), 0.0625);
    EXPECT_EQ(first(words, "awg"), 0.0508);
    EXPECT_EQ(words.words, "16 gauge");
    EXPECT_NE(words.question.find("16 gauge"), std::string::npos);
}

TEST(TradeWords, NamedSystemSettlesIt) {
    for (const std::string typed : {"16 SWG", "16 s.w.g.", "No. 16 S.W.G.", "16swg",
                                    "16 gauge Imperial", "#16 standard wire gauge"}) {
        const auto words = read(typed);
        ASSERT_TRUE(words.settled()) << typed;
        EXPECT_EQ(words.meanings[0].system->id, "swg") << typed;
        EXPECT_EQ(words.meanings[0].rows[0]->id, "swg-16") << typed;
        EXPECT_TRUE(words.question.empty()) << typed;
        EXPECT_EQ(words.words, typed);
    }
}

TEST(TradeWords, FourNoughtsAndFourOverNoughtAreOne) {
    EXPECT_EQ(read("0000 AWG").meanings.at(0).rows.at(0)->id, "awg-0000");
    EXPECT_EQ(read("4/0 AWG").meanings.at(0).rows.at(0)->id, "awg-0000");
}

TEST(TradeWords, TwoByFourAsksForItsYearAndHasTwoSides) {
    const auto words = read("2 x 4");
    EXPECT_FALSE(words.settled());
    const auto ids = systems(words);
    for (const std::string system :
         {"lumber-rough", "lumber-1910", "lumber-1924", "lumber-1970", "lumber-uk"})
        EXPECT_TRUE(ids.contains(system)) << system;
    for (const auto& meaning : words.meanings) EXPECT_EQ(meaning.rows.size(), 2U);
    EXPECT_EQ(systems(read("4 by 2")), ids);
    EXPECT_EQ(systems(read("2×4")), ids);
    EXPECT_EQ(systems(read("2\" x 4\"")), ids);
}

TEST(TradeWords, EraPutsTheLikelyOnesFirstAndSettlesNothing) {
    const auto words = read("2 x 4", {.era = *quantity::parseEdtf("1935"), .region = "US"});
    ASSERT_FALSE(words.meanings.empty());
    EXPECT_EQ(words.meanings.front().system->id, "lumber-1924");
    EXPECT_FALSE(words.meanings.back().fitsEra && words.meanings.back().fitsRegion);
    EXPECT_FALSE(words.settled());
}

TEST(TradeWords, NumberEightScrewAsksWhich) {
    const auto words = read("No. 8 screw");
    EXPECT_EQ(systems(words),
              (std::set<std::string>{"wood-screw", "wood-screw-us-early", "machine-screw", "ba"}));
    EXPECT_TRUE(read("No. 8 machine screw").settled());
    EXPECT_FALSE(read("No. 8 wood screw").settled());
    // Without the word it may be wire too.
    EXPECT_TRUE(systems(read("No. 8")).contains("swg"));
    EXPECT_TRUE(systems(read("#8")).contains("wood-screw"));
}

TEST(TradeWords, HalfInchPipeMeasuresMoreThanHalfAnInch) {
    for (const std::string typed : {"1/2 in pipe", "½ in pipe", "1/2\" pipe"}) {
        const auto words = read(typed);
        EXPECT_FALSE(words.settled()) << typed;
        EXPECT_TRUE(systems(words).contains("bsp")) << typed;
        EXPECT_TRUE(systems(words).contains("iron-pipe-us")) << typed;
        for (const auto& meaning : words.meanings)
            for (const auto* each : meaning.rows)
                if (each->measures.find("diameter") != std::string::npos) {
                    EXPECT_GT(each->value, 0.55) << each->id;
                }
    }
    EXPECT_EQ(read("1/2 in gas pipe").meanings.at(0).system->id, "bsp");
}

TEST(TradeWords, WhitworthIsTheThreadAndItsNutIsAsked) {
    const auto thread = read("3/8 Whit");
    ASSERT_TRUE(thread.settled());
    EXPECT_EQ(thread.meanings[0].system->id, "bsw");
    EXPECT_EQ(thread.meanings[0].rows.size(), 2U);  // pitch and diameter
    EXPECT_EQ(systems(read("3/8 Whit nut")),
              (std::set<std::string>{"whitworth-heads-large", "whitworth-heads-small"}));
    EXPECT_GE(systems(read("3/8 bolt")).size(), 4U);
    EXPECT_EQ(systems(read("2 BA")), (std::set<std::string>{"ba"}));
}

TEST(TradeWords, MixedNumbersAreOneSize) {
    EXPECT_EQ(read("1 1/2 in BSP pipe").meanings.at(0).rows.at(0)->size, "1 1/2");
    EXPECT_EQ(read("1-1/2 BSP").meanings.at(0).rows.at(0)->size, "1 1/2");
    EXPECT_TRUE(systems(read("30 x 3 1/2 tyre")).contains("beaded-edge"));
}

// One known meaning is not the only one there is: only the words settle it.
TEST(TradeWords, OneCandidateIsStillAsked) {
    const auto words = read("30 x 3 1/2 tyre");
    EXPECT_EQ(words.meanings.size(), 1U);
    EXPECT_FALSE(words.settled());
    EXPECT_FALSE(words.question.empty());
}

TEST(TradeWords, PlainLengthsAreNone) {
    for (const std::string typed :
         {"", "56 1/2", "5'-3 1/2\"", "1605 mm", "rail gauge", "12 in", "Hoop 3", "D12"})
        EXPECT_TRUE(read(typed).meanings.empty()) << typed;
}

// Whatever is typed: a meaning has rows of its system, and only a named system settles it.
RC_GTEST_PROP(TradeWordsProperty, AnyTextIsReadWithoutHarm, ()) {
    static const std::vector<std::string> kPieces{
        "16",  "0000", "4/0", "1/2", "1 1/2", "0/0",  "3.5", " x ", "×", " ", "gauge", "SWG",  "#",
        "No.", "½",    "in",  "\"",  "pipe",  "Whit", "nut", "ba",  ".", "/", "-",     "\xc3", ";"};
    const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(kPieces));
    std::string typed;
    for (const auto& piece : pieces) typed += piece;
    const auto words = read(typed);
    RC_ASSERT(words.words == typed);
    RC_ASSERT(!words.settled() || words.named);
    RC_ASSERT(words.question.empty() == (words.meanings.empty() || words.settled()));
    for (const auto& meaning : words.meanings) {
        RC_ASSERT(!meaning.rows.empty());
        for (const auto* each : meaning.rows) RC_ASSERT(each->system == meaning.system->id);
    }
}

}  // namespace
