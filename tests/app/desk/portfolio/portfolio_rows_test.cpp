#include "app/desk/portfolio/portfolio_rows.h"

#include <gtest/gtest.h>

namespace {

namespace record = evidence::record;

using app::desk::portfolio::Row;
using app::desk::portfolio::rowsOf;

constexpr const char* kToday = "2026-05-11T09:00:00Z";

record::Source source(const char* id, const char* title) {
    record::Source made;
    made.id = {id};
    made.code = std::string("S") + id;
    made.title = title;
    return made;
}

std::vector<std::string> titles(const std::vector<Row>& rows) {
    std::vector<std::string> found;
    found.reserve(rows.size());
    for (const Row& row : rows) found.push_back(row.title.toStdString());
    return found;
}

TEST(PortfolioRows, EmptyRegisterHasNone) {
    EXPECT_TRUE(rowsOf({}, kToday).empty());
}

TEST(PortfolioRows, SourcesOfOneOriginStandTogetherUnderIt) {
    record::Register reg;
    reg.sources = {source("1", "Arrangement"), source("2", "Ledger"), source("3", "Tracing")};
    reg.sources[2].descends = {{{"1"}, record::DescentKind::Tracing, {}}};
    const auto rows = rowsOf(reg, kToday);
    EXPECT_EQ(titles(rows),
              (std::vector<std::string>{"One origin: Arrangement", "Arrangement", "Tracing",
                                        "Each an origin of its own", "Ledger"}));
    EXPECT_TRUE(rows[2].facts.contains(QStringLiteral("Tracing of S1")));
}

TEST(PortfolioRows, LettersWithoutAnAnswerLieOnTopAndLateOnesSaySo) {
    record::Register reg;
    reg.sources = {source("1", "Arrangement")};
    record::Enquiry enquiry;
    enquiry.id = {"n1"};
    enquiry.asked = "Corran Museum";
    enquiry.on = "2026-01-10";
    enquiry.due = "2026-03-01";
    record::Enquiry waiting = enquiry;
    waiting.id = {"n2"};
    waiting.asked = "County office";
    waiting.due = "2026-06";
    record::Enquiry answered = enquiry;
    answered.id = {"n3"};
    answered.answer = "nothing found";
    reg.enquiries = {enquiry, waiting, answered};
    const auto rows = rowsOf(reg, kToday);
    EXPECT_EQ(titles(rows), (std::vector<std::string>{"Letters waiting", "Corran Museum",
                                                      "County office", "Sources", "Arrangement"}));
    EXPECT_EQ(rows[1].attention, QStringLiteral("the answer was due on 1 March 2026"));
    EXPECT_TRUE(rows[2].attention.isEmpty());
}

TEST(PortfolioRows, CardSaysWhereItIsKeptAndWhetherItMayBePrinted) {
    record::Register reg;
    reg.sources = {source("1", "Arrangement")};
    reg.sources[0].holder = "Corran Museum";
    reg.sources[0].callNumber = "14/3";
    reg.sources[0].rights = "copyright expired";
    reg.sources[0].files = {{.id = {"f"}, .path = "a.tif"}};
    EXPECT_EQ(rowsOf(reg, kToday)[1].facts,
              (QStringList{QStringLiteral("Drawing"), QStringLiteral("Corran Museum, 14/3"),
                           QStringLiteral("Not cleared for printing: copyright expired")}));
    reg.sources[0].mayPrint = true;
    EXPECT_TRUE(rowsOf(reg, kToday)[1].facts.last().startsWith(QStringLiteral("May be printed")));
}

TEST(PortfolioRows, SourcesSetAsideComeLastWithTheReason) {
    record::Register reg;
    reg.sources = {source("1", "Forgery"), source("2", "Ledger")};
    reg.sources[0].setAside = "a modern forgery";
    const auto rows = rowsOf(reg, kToday);
    EXPECT_EQ(rows.back().title, QStringLiteral("Forgery"));
    EXPECT_EQ(rows.back().facts.last(), QStringLiteral("set aside: a modern forgery"));
}

}  // namespace
