#pragma once

#include "app/session/actions.h"
#include "evidence-core/record/lookup.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

/// A small register to plan on, and questions to ask of a plan.
namespace planning {

using namespace evidence;
using app::session::Context;
using app::session::MarkDraft;

inline const record::PersonId kAnna{"p1"};
inline const std::string kNow = "2026-05-01T10:00:00Z";

/// A drawing S1 of two pages (file f1), a photograph S2 of one (file f2), the hoop width D1, the
/// tread angle D2, a length without evidence D3, the panel timber P1.
inline record::Register smallRegister() {
    record::Register reg;
    reg.people.push_back({kAnna, "Anna", {}, {}});
    const auto source = [&](const std::string& number, record::SourceKind kind, int pages) {
        record::Source made;
        made.id = {"s" + number};
        made.code = "S" + number;
        made.title = "source " + number;
        made.kind = kind;
        made.authority = record::Authority::Maker;
        record::File file;
        file.id = {"f" + number};
        file.path = number + ".png";
        file.sha256 = std::string(64, static_cast<char>('a' + pages));
        file.pages = pages;
        made.files.push_back(file);
        reg.sources.push_back(made);
    };
    source("1", record::SourceKind::Drawing, 2);
    source("2", record::SourceKind::Photograph, 1);
    const auto dimension = [&](const std::string& number, const std::string& name,
                               record::DimensionQuantity quantity) {
        record::Dimension made;
        made.id = {"d" + number};
        made.code = "D" + number;
        made.name = name;
        made.component = "Body";
        made.quantity = quantity;
        reg.dimensions.push_back(made);
    };
    dimension("1", "hoop width", record::DimensionQuantity::Length);
    dimension("2", "tread angle", record::DimensionQuantity::Angle);
    dimension("3", "sill length", record::DimensionQuantity::Length);
    record::Particular timber;
    timber.id = {"q1"};
    timber.code = "P1";
    timber.name = "panel timber";
    reg.particulars.push_back(timber);
    return reg;
}

inline Context contextOf(const record::Register& reg) {
    return {reg, kAnna, kNow};
}

inline MarkDraft segment(double pixels, const std::string& file = "f2", int page = 1) {
    MarkDraft draft;
    draft.file = {file};
    draft.page = page;
    draft.points = {{100, 200}, {100 + pixels, 200}};
    draft.uPx = 0.3;
    return draft;
}

/// The records of one kind that a plan makes.
template <class Record>
std::vector<Record> made(const Result<record::ChangeSet>& plan) {
    std::vector<Record> found;
    EXPECT_TRUE(plan) << (plan ? "" : plan.error().place + ": " + plan.error().help);
    if (!plan) return found;
    for (const auto& change : plan->changes)
        if (!change.before && std::holds_alternative<Record>(*change.after))
            found.push_back(std::get<Record>(*change.after));
    return found;
}

/// The one record of that kind that a plan makes.
template <class Record>
Record theOne(const Result<record::ChangeSet>& plan) {
    const auto found = made<Record>(plan);
    EXPECT_EQ(found.size(), 1U);
    return found.empty() ? Record{} : found.front();
}

/// The refusal's code and place are these, and it says something.
inline void expectRefused(const Result<record::ChangeSet>& plan, Code code,
                          const std::string& place) {
    ASSERT_FALSE(plan) << "the plan \"" << plan->what << "\" was not refused";
    EXPECT_EQ(plan.error().code, code) << plan.error().help;
    EXPECT_EQ(plan.error().place, place) << plan.error().help;
    EXPECT_FALSE(plan.error().help.empty());
}

}  // namespace planning
