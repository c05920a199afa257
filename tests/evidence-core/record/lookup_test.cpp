#include "evidence-core/record/lookup.h"

#include "evidence-core/record/references.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence::record;

Register small() {
    Register reg;
    reg.sources.resize(2);
    reg.sources[0].id = {"s1"};
    reg.sources[0].code = "S1";
    reg.sources[1].id = {"s2"};
    reg.sources[1].files.resize(1);
    reg.sources[1].files[0].id = {"f1"};
    reg.dimensions.resize(2);
    reg.dimensions[0].id = {"d1"};
    reg.dimensions[0].code = "D12";
    reg.dimensions[1].id = {"D12"};
    reg.dimensions[1].code = "Dx";
    return reg;
}

TEST(Lookup, FindsRecordsOfTheKindOfTheId) {
    const auto reg = small();
    EXPECT_EQ(find(reg, DimensionId{"d1"}), &reg.dimensions[0]);
    EXPECT_EQ(find(reg, SourceId{"s2"}), &reg.sources[1]);
    EXPECT_EQ(find(reg, SourceId{"d1"}), nullptr);
    EXPECT_EQ(find(reg, FileId{"f1"}), &reg.sources[1].files[0]);
    EXPECT_EQ(sourceOf(reg, {"f1"}), &reg.sources[1]);
    EXPECT_EQ(sourceOf(reg, {"f2"}), nullptr);
}

TEST(Lookup, CodeGoesBeforeId) {
    const auto reg = small();
    EXPECT_EQ(byCodeOrId(reg, "D12"), AnyId{"d1"});
    EXPECT_EQ(byCodeOrId(reg, "s2"), AnyId{"s2"});
    EXPECT_EQ(byCodeOrId(reg, "nothing"), std::nullopt);
}

TEST(Lookup, NextCodeFollowsTheHighestNumber) {
    EXPECT_EQ(nextCode(small(), 'D'), "D13");
    EXPECT_EQ(nextCode(small(), 'S'), "S2");
    EXPECT_EQ(nextCode(small(), 'P'), "P1");
}

TEST(RegisterIndex, KnowsTheKindOfEveryId) {
    const RegisterIndex index(small());
    EXPECT_EQ(index.kindOf({"s1"}), Kind::Source);
    EXPECT_EQ(index.kindOf({"f1"}), Kind::File);
    EXPECT_EQ(index.find("f1")->position, 1U);
    EXPECT_EQ(index.kindOf({"D12"}), Kind::Dimension);
    EXPECT_EQ(index.kindOf({"none"}), std::nullopt);
}

TEST(References, EveryIdIsVisitedWithItsKey) {
    Frame frame;
    frame.id = {"g1"};
    frame.file = {"f1"};
    frame.references.resize(1);
    frame.references[0].mark = {"m1"};
    frame.references[0].length.dimension = DimensionId{"d1"};
    frame.parallel = {{{"m2"}, {"m3"}}};
    std::vector<std::string> visited;
    forEachId(frame, [&](std::string_view key, const auto& id) {
        visited.push_back(std::string(key) + "=" + id.text);
    });
    EXPECT_EQ(visited, (std::vector<std::string>{"id=g1", "file=f1", "mark=m1", "dimension=d1",
                                                 "parallel=m2", "parallel=m3"}));
}

TEST(References, InferredDimensionCounts) {
    Relation relation;
    relation.use = Infer{{"d7"}};
    int visits = 0;
    forEachId(relation, [&](std::string_view, const auto& id) { visits += id.text == "d7"; });
    EXPECT_EQ(visits, 1);
}

}  // namespace
