#include "app/report/figure/thread_on_paper.h"

#include <gtest/gtest.h>

#include <string>

namespace {

using app::report::figure::threadOnPaper;
using evidence::judgement::Thread;
using evidence::judgement::ThreadNode;
using evidence::judgement::ThreadStage;
using evidence::record::Grade;

std::size_t add(Thread& thread, const std::string& id, ThreadStage stage) {
    ThreadNode node;
    node.id = id;
    node.stage = stage;
    node.title = id;
    thread.nodes.push_back(node);
    return thread.nodes.size() - 1;
}

const ThreadNode* named(const Thread& thread, const std::string& title) {
    for (const auto& node : thread.nodes)
        if (node.title == title) return &node;
    return nullptr;
}

double shareBetween(const Thread& thread, const std::string& from, const std::string& to) {
    for (const auto& link : thread.links)
        if (thread.nodes[link.from].title == from && thread.nodes[link.to].title == to)
            return link.share;
    return -1;
}

TEST(ThreadOnPaper, LeavesMarksOutAndKeepsTheirFlow) {
    Thread thread;
    const auto source = add(thread, "source", ThreadStage::Source);
    const auto first = add(thread, "segment", ThreadStage::Mark);
    const auto second = add(thread, "known length's mark", ThreadStage::Mark);
    const auto reading = add(thread, "reading", ThreadStage::Reading);
    const auto value = add(thread, "value", ThreadStage::Value);
    thread.links = {{source, first, 0.9},
                    {first, second, 0.3},
                    {first, reading, 0.6},
                    {second, reading, 0.3},
                    {reading, value, 0.9}};
    const Thread paper = threadOnPaper(thread, 6);
    EXPECT_EQ(named(paper, "segment"), nullptr);
    EXPECT_EQ(paper.nodes.size(), 3U);
    EXPECT_NEAR(shareBetween(paper, "source", "reading"), 0.9, 1e-12);
    EXPECT_NEAR(shareBetween(paper, "reading", "value"), 0.9, 1e-12);
}

TEST(ThreadOnPaper, GathersTheLeastOfAStageAndLosesNoShare) {
    Thread thread;
    const auto value = add(thread, "value", ThreadStage::Value);
    for (int i = 1; i <= 10; ++i) {
        const auto node = add(thread, "relation " + std::to_string(i), ThreadStage::Relation);
        thread.links.push_back({node, value, i / 55.0});
    }
    thread.nodes[1].strength = Grade::OurCall;
    thread.nodes[1].guess = true;
    const Thread paper = threadOnPaper(thread, 4);
    EXPECT_EQ(paper.nodes.size(), 5U);
    const ThreadNode* more = named(paper, "7 more");
    ASSERT_NE(more, nullptr);
    EXPECT_TRUE(more->guess);
    EXPECT_EQ(more->strength, Grade::OurCall);
    EXPECT_EQ(more->detail, "51 % of the doubt");
    EXPECT_NE(named(paper, "relation 10"), nullptr);
    double all = 0;
    for (const auto& link : paper.links) all += link.share;
    EXPECT_NEAR(all, 1, 1e-12);
}

TEST(ThreadOnPaper, GathersReadingsOfTheValueLast) {
    Thread thread;
    const auto value = add(thread, "value", ThreadStage::Value);
    const auto relation = add(thread, "relation", ThreadStage::Relation);
    thread.links.push_back({relation, value, 0.9});
    const auto own = add(thread, "own echo", ThreadStage::Reading);
    thread.links.push_back({own, value, 0});
    for (int i = 0; i < 5; ++i) {
        const auto other = add(thread, "other " + std::to_string(i), ThreadStage::Reading);
        thread.links.push_back({other, relation, 0.18});
    }
    const Thread paper = threadOnPaper(thread, 3);
    EXPECT_NE(named(paper, "own echo"), nullptr);
    EXPECT_NE(named(paper, "4 more"), nullptr);
}

TEST(ThreadOnPaper, LeavesASmallThreadAlone) {
    Thread thread;
    thread.on = "d1";
    const auto source = add(thread, "source", ThreadStage::Source);
    const auto value = add(thread, "value", ThreadStage::Value);
    thread.links = {{source, value, 1}};
    const Thread paper = threadOnPaper(thread, 2);
    EXPECT_EQ(paper.on, "d1");
    EXPECT_EQ(paper.nodes.size(), 2U);
    EXPECT_EQ(paper.links.size(), 1U);
}

}  // namespace
