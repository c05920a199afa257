#include "evidence-core/store/register_store.h"

#include "tests/support/scratch_folder.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence;
using record::Change;
using record::ChangeSet;
using store::Act;
using store::RegisterStore;

const Act kAnna{{"p1"}, "Anna", "2026-01-02T03:04:05Z"};
const Act kBert{{"p2"}, "Bert", "2026-01-03T00:00:00Z"};

record::ArchiveInfo titled(const std::string& title) {
    record::ArchiveInfo info;
    info.title = title;
    return info;
}

record::Dimension dimension(const std::string& id, const std::string& code) {
    record::Dimension d;
    d.id = {id};
    d.code = code;
    d.name = "dimension " + id;
    return d;
}

class Store : public testing::Test {
  protected:
    void SetUp() override {
        auto made = RegisterStore::create(m_folder / "a", titled("Test"), kAnna);
        ASSERT_TRUE(made) << made.error().help;
        m_store = std::move(*made);
    }
    [[nodiscard]] std::filesystem::path archive() const { return m_folder / "a"; }
    record::Register load() {
        auto loaded = m_store->load();
        EXPECT_TRUE(loaded) << loaded.error().place << loaded.error().help;
        return loaded ? loaded->reg : record::Register{};
    }
    void applied(const ChangeSet& set, const Act& act = kAnna) {
        const auto done = m_store->apply(set, act);
        ASSERT_TRUE(done) << done.error().place << ": " << done.error().help;
    }

    test::ScratchFolder m_folder;
    std::unique_ptr<RegisterStore> m_store;
};

TEST_F(Store, NewArchiveHoldsItsTitleAndOneJournalEntry) {
    EXPECT_EQ(load().archive.title, "Test");
    ASSERT_EQ(m_store->journal().size(), 1U);
    EXPECT_EQ(m_store->journal()[0].name, "Anna");
    EXPECT_EQ(m_store->verifyChain(), std::nullopt);
}

TEST_F(Store, RecordsComeBackInTheOrderOfTheirEntryAfterReopening) {
    const auto z = dimension("z", "D1");
    const auto a = dimension("a", "D2");
    applied({"add", {{std::nullopt, z}, {std::nullopt, a}}});
    m_store.reset();
    auto again = RegisterStore::open(archive());
    ASSERT_TRUE(again) << again.error().help;
    const auto loaded = (*again)->load();
    ASSERT_TRUE(loaded);
    EXPECT_EQ(loaded->reg.dimensions, (std::vector{z, a}));
    EXPECT_EQ(loaded->sequence, 2U);
}

TEST_F(Store, FormulaFollowsTheCodesOfItsDimensions) {
    record::Relation relation;
    relation.id = {"l1"};
    relation.formula = "D1 = 2*D2 + sqrt(4 in2)";
    applied({"add",
             {{std::nullopt, relation},
              {std::nullopt, dimension("d1", "D1")},
              {std::nullopt, dimension("d2", "D2")}}});
    EXPECT_EQ(load().relations[0], relation);
    applied({"renumber", {{dimension("d2", "D2"), dimension("d2", "Z9")}}});
    EXPECT_EQ(load().relations[0].formula, "D1 = 2*Z9 + sqrt(4 in2)");
    EXPECT_EQ(m_store->verifyChain(), std::nullopt);
}

TEST_F(Store, ChangedMeanwhileIsStaleAndNamesWhoChangedItWhen) {
    const auto d = dimension("d1", "D1");
    auto annas = d;
    annas.name = "Anna's";
    auto berts = d;
    berts.name = "Bert's";
    applied({"add", {{std::nullopt, d}}});
    applied({"rename", {{d, berts}}}, kBert);
    const auto late = m_store->apply({"rename", {{d, annas}}}, kAnna);
    ASSERT_FALSE(late);
    EXPECT_EQ(late.error().code, Code::Stale);
    EXPECT_EQ(late.error().place, "d1");
    EXPECT_NE(late.error().help.find("Bert"), std::string::npos);
    EXPECT_NE(late.error().help.find("2026-01-03T00:00:00Z"), std::string::npos);
    EXPECT_EQ(load().dimensions[0].name, "Bert's");
}

TEST_F(Store, RefusedChangeSetChangesNothing) {
    const auto before = load();
    record::Reading reading;
    reading.id = {"r1"};
    reading.of = {"nowhere"};
    const auto done = m_store->apply(
        {"add", {{std::nullopt, dimension("d1", "D1")}, {std::nullopt, reading}}}, kAnna);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, Code::MissingTarget);
    EXPECT_EQ(done.error().place, "r1");
    EXPECT_EQ(load(), before);
    EXPECT_EQ(m_store->lastSequence(), 1U);
}

TEST_F(Store, IdTakenByAnyKindOfRecordIsRefused) {
    applied({"add", {{std::nullopt, dimension("d1", "D1")}}});
    record::Source source;
    source.id = {"s1"};
    source.files.push_back({});
    source.files[0].id = {"d1"};
    const auto done = m_store->apply({"add", {{std::nullopt, source}}}, kAnna);
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().code, Code::DuplicateId);
    EXPECT_EQ(done.error().place, "d1");
}

TEST_F(Store, UndoTakesTheRecordAndItsIdBack) {
    const ChangeSet add{"add", {{std::nullopt, dimension("d1", "D1")}}};
    applied(add);
    applied(record::inverse(add));
    EXPECT_TRUE(load().dimensions.empty());
    applied(add);
    EXPECT_EQ(load().dimensions.size(), 1U);
    EXPECT_EQ(m_store->lastSequence(), 4U);
    EXPECT_EQ(m_store->verifyChain(), std::nullopt);
}

TEST_F(Store, AtMomentGivesTheRegisterAsItWasThen) {
    const auto d = dimension("d1", "D1");
    auto renamed = d;
    renamed.name = "later";
    applied({"add", {{std::nullopt, d}}}, {{"p1"}, "Anna", "2026-02-01T00:00:00Z"});
    const auto february = load();
    applied({"rename", {{d, renamed}}}, {{"p1"}, "Anna", "2026-03-01T00:00:00Z"});
    applied({"take back", {{renamed, std::nullopt}}}, {{"p1"}, "Anna", "2026-04-01T00:00:00Z"});
    const auto then = m_store->atMoment("2026-02-15T00:00:00Z");
    ASSERT_TRUE(then) << then.error().help;
    EXPECT_EQ(*then, february);
    EXPECT_TRUE(m_store->atMoment("2026-05-01T00:00:00Z")->dimensions.empty());
    EXPECT_EQ(m_store->atMoment("2026-03-01T00:00:00Z")->dimensions[0].name, "later");
    EXPECT_EQ(m_store->atMoment("soon").error().code, Code::BadDate);
}

TEST_F(Store, SearchFindsBeginningsOfWordsWithCaseAndAccentsFolded) {
    auto d = dimension("d1", "D1");
    d.note = "Längsträger under the floor";
    applied({"add", {{std::nullopt, d}}});
    const auto hits = m_store->search("LANGS floor");
    ASSERT_EQ(hits.size(), 1U);
    EXPECT_EQ(hits[0].kind, "dimension");
    EXPECT_EQ(hits[0].id.text, "d1");
    applied({"take back", {{d, std::nullopt}}});
    EXPECT_TRUE(m_store->search("floor").empty());
}

}  // namespace
