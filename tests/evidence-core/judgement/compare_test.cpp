#include "evidence-core/judgement/compare.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence;

judgement::DimensionResult known(const std::string& id, double value, double half,
                                 record::Grade grade) {
    judgement::DimensionResult result;
    result.id = {id};
    result.code = id;
    result.unit = "in";
    result.value = value;
    result.low95 = value - half;
    result.high95 = value + half;
    result.grade = grade;
    return result;
}

TEST(Compare, NamesWhatMovedBeyondHalfItsFormerIntervalAndTheSlipsOnIt) {
    judgement::Analysis before;
    judgement::Analysis after;
    before.dimensions = {known("d1", 10, 0.5, record::Grade::TakenOff),
                         known("d2", 20, 0.5, record::Grade::TakenOff)};
    after.dimensions = {known("d1", 10.4, 0.1, record::Grade::Figured),
                        known("d2", 20.6, 0.1, record::Grade::TakenOff),
                        known("d3", 5, 0.1, record::Grade::Figured)};
    record::Register reg;
    reg.slips.push_back({.id = {"b1"}, .on = {"d1"}, .value = std::string("10 in")});
    reg.slips.push_back({.id = {"b2"}, .on = {"d2"}, .value = std::string("20 in")});

    const auto changes = judgement::compare({reg, before}, {reg, after});

    ASSERT_EQ(changes.moved.size(), 1U);
    EXPECT_EQ(changes.moved[0].dimension.text, "d2");
    EXPECT_DOUBLE_EQ(*changes.moved[0].spread, 0.5);
    ASSERT_EQ(changes.grades.size(), 1U);
    EXPECT_EQ(changes.grades[0].on.text, "d1");
    EXPECT_EQ(changes.slips, std::vector{record::SlipId{"b2"}});
    EXPECT_EQ(changes.added, std::vector{record::AnyId{"d3"}});
}

TEST(Compare, AValueThatIsNoLongerKnownHasMoved) {
    judgement::Analysis before;
    judgement::Analysis after;
    before.dimensions = {known("d1", 10, 0.5, record::Grade::TakenOff)};
    after.dimensions = before.dimensions;
    after.dimensions[0].value.reset();
    const record::Register reg;
    EXPECT_EQ(judgement::compare({reg, before}, {reg, after}).moved.size(), 1U);
    EXPECT_TRUE(judgement::compare({reg, before}, {reg, before}).moved.empty());
}

}  // namespace
