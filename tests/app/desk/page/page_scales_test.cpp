#include "app/desk/page/page_scales.h"

#include <gtest/gtest.h>

namespace {

namespace record = evidence::record;

using namespace app::desk::page;
using app::session::PageOfFile;

const PageOfFile kPage{{"f"}, 1};

record::Register threeScales() {
    record::Register reg;
    record::Source source;
    source.id = {"s"};
    source.files = {{.id = {"f"}, .path = "a.tif"}};
    reg.sources = {source};
    for (const char* id : {"g1", "g2", "g3"}) {
        record::Frame frame;
        frame.id = {id};
        frame.file = {"f"};
        reg.frames.push_back(frame);
        record::Mark mark;
        mark.id = {std::string("m") + id};
        mark.file = {"f"};
        mark.kind = record::MarkKind::Segment;
        mark.points = {{0, 0}, {100, 0}};
        reg.marks.push_back(mark);
        reg.frames.back().references.push_back({mark.id, {}, {}, {}});
        reg.frames.back().references[0].length.value = std::string("18 in");
    }
    reg.frames[1].page = 2;
    reg.frames[2].model = record::FrameModel::Printed;
    reg.frames[2].references.clear();
    reg.frames[2].print = record::Print{300, 24, {}, {}};
    return reg;
}

TEST(PageScales, ChoicesAreThoseOfThePageByCodeAndWhatTheyRestOn) {
    const auto choices = scaleChoices(threeScales(), kPage);
    ASSERT_EQ(choices.size(), 2U);
    EXPECT_EQ(choices[0].words.toStdString(), "J1 by 18 in");
    EXPECT_TRUE(choices[0].takesReferences);
    EXPECT_EQ(choices[1].words.toStdString(), "J3 by its print");
    EXPECT_FALSE(choices[1].takesReferences);
}

TEST(PageScales, UsualOneIsThatOfMostReadings) {
    auto reg = threeScales();
    EXPECT_EQ(usualScale(reg, kPage), record::FrameId{"g1"});
    record::Reading reading;
    reading.id = {"r"};
    reading.frame = record::FrameId{"g3"};
    reg.readings = {reading};
    EXPECT_EQ(usualScale(reg, kPage), record::FrameId{"g3"});
    EXPECT_EQ(usualScale(reg, {{"f"}, 3}), std::nullopt);
}

TEST(PageScales, WordsHaveNoMoreFiguresThanTheUncertaintyEarns) {
    evidence::judgement::FrameResult scale;
    scale.inchesPerPixel = 1 / 12.3456;
    scale.uRelative = 0.002;
    EXPECT_EQ(scaleInWords(scale, {}).toStdString(), "12.346 px to the inch ± 0.39 %");
    scale.uRelative = 0.02;
    EXPECT_EQ(scaleInWords(scale, {}).toStdString(), "12.35 px to the inch ± 3.9 %");
    record::ArchiveInfo metric;
    metric.displayUnit = record::DisplayUnit::Millimetre;
    EXPECT_EQ(scaleInWords(scale, metric).toStdString(), "0.486 px to the millimetre ± 3.9 %");
    EXPECT_EQ(scaleInWords({}, {}).toStdString(), "cannot be worked out yet");
}

TEST(PageScales, LineCountsTheOtherScales) {
    evidence::judgement::Analysis analysis;
    evidence::judgement::FrameResult result;
    result.id = {"g1"};
    result.inchesPerPixel = 0.1;
    result.uRelative = 0.01;
    analysis.frames = {result};
    EXPECT_EQ(scalesInWords(threeScales(), analysis, kPage, record::FrameId{"g1"}).toStdString(),
              "scale J1: 10.00 px to the inch ± 2.0 % (one other)");
    EXPECT_EQ(scalesInWords(threeScales(), analysis, kPage, std::nullopt).toStdString(),
              "no scale yet");
}

}  // namespace
