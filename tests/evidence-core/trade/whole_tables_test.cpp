// What holds for every row of every table that the program brings.
#include "evidence-core/trade/table_texts.h"
#include "tests/evidence-core/trade/known_row.h"

#include <algorithm>
#include <map>
#include <set>

namespace {

using namespace trading;

const std::vector<trade::Row>& rows() {
    return trade::Tables::builtIn().rows();
}

TEST(Tables, EveryFileIsRead) {
    std::map<std::string, std::size_t> linesOf;
    for (const auto& row : rows()) ++linesOf[row.table];
    for (const auto& table : trade::tableTexts()) {
        const std::set<std::string_view> words{"tables", "systems", "kinds", "places"};
        if (words.contains(table.name)) continue;
        const auto lines =
            static_cast<std::size_t>(std::ranges::count(table.text, '\n'));  // none inside a field
        EXPECT_EQ(linesOf[std::string(table.name)] + 1, lines) << table.name;
    }
    EXPECT_GT(rows().size(), 900U);
}

TEST(Tables, NoIdStandsTwice) {
    std::set<std::string> ids;
    for (const auto& row : rows()) EXPECT_TRUE(ids.insert(row.id).second) << row.id;
}

TEST(Tables, EveryRowHasASourceASpreadAndLimitsAroundItsValue) {
    for (const auto& row : rows()) {
        EXPECT_FALSE(row.source.empty()) << row.id;
        EXPECT_FALSE(row.measures.empty()) << row.id;
        EXPECT_GT(row.u, 0) << row.id;
        if (row.low) {
            EXPECT_LE(*row.low, row.value) << row.id;
        }
        if (row.high) {
            EXPECT_GE(*row.high, row.value) << row.id;
        }
        if (row.low && row.high) {
            EXPECT_LE(row.u, *row.high - *row.low) << row.id;
        }
    }
}

TEST(Tables, EveryRegionIsUnderstood) {
    for (const auto& row : rows()) {
        if (!row.region.empty()) {
            EXPECT_FALSE(row.places.empty()) << row.region;
        }
    }
}

TEST(Tables, EverySystemHasRowsAndEveryRowsSystemIsKnown) {
    std::set<std::string> used;
    for (const auto& row : rows()) {
        if (row.system.empty() || row.kind != record::TableRowKind::Length) continue;
        used.insert(row.system);
        EXPECT_NE(trade::Tables::builtIn().system(row.system), nullptr) << row.id;
        EXPECT_FALSE(row.size.empty()) << row.id;
    }
    for (const auto& system : trade::Tables::builtIn().systems())
        EXPECT_TRUE(used.contains(system.id)) << system.id;
}

// A mark that is lost would let a remembered figure pass for a published one.
TEST(Tables, RowsFromMemoryAreMarked) {
    EXPECT_TRUE(row("rg-erie6").fromMemory);
    EXPECT_FALSE(row("rg-standard").fromMemory);
    EXPECT_TRUE(row("dn-ash-white").fromMemory);
    EXPECT_FALSE(row("ws-ash-white-t").fromMemory);
    // Counted once, by hand: a row that loses its mark, or a table that is read wrongly, shows
    // here.
    int remembered = 0;
    for (const auto& each : rows())
        if (each.table == "scale_references" && each.fromMemory) ++remembered;
    EXPECT_EQ(remembered, 122);
}

}  // namespace
