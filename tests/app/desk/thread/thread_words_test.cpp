#include "app/desk/thread/thread_words.h"

#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/desk/small_trolley.h"

#include <QTextDocument>
#include <gtest/gtest.h>

namespace {

using namespace app::desk::thread;

struct Said {
    QString html;
    QString plain;
};

Said said(const evidence::record::Register& reg, const char* id,
          QString (*write)(const app::report::RegisterIndex&, const evidence::record::AnyId&)) {
    const auto judged = tests::app::judged(reg);
    const app::report::RegisterIndex index(judged->snapshot->reg, judged->analysis);
    Said words;
    words.html = write(index, {id});
    QTextDocument document;
    document.setHtml(words.html);
    words.plain = document.toPlainText().replace(QChar(0x00A0), QLatin1Char(' '));
    return words;
}

Said words(const char* id) {
    return said(tests::app::smallTrolley().reg, id, threadWords);
}

TEST(ThreadWords, HeadNamesTheSizeItsValueAndItsGrade) {
    const QString head = said(tests::app::smallTrolley().reg, "d1", headWords).plain;
    EXPECT_TRUE(head.startsWith("Length over headstocks D1")) << head.toStdString();
    EXPECT_TRUE(head.contains(QString::fromUtf8("14′-3½″ ± 0.14 in")));
    EXPECT_TRUE(head.endsWith("Figured"));
    EXPECT_TRUE(said(tests::app::smallTrolley().reg, "nobody", headWords).html.isEmpty());
}

TEST(ThreadWords, GiveTheReasonsOfTheGradeAndWhatWouldRaiseIt) {
    const auto judged = tests::app::judged(tests::app::smallTrolley().reg);
    const auto& first = judged->analysis.dimensions.front();
    ASSERT_EQ(first.id.text, "d1");
    const QString plain = words("d1").plain;
    EXPECT_TRUE(plain.contains(QString::fromStdString(first.gradeWhy)));
    EXPECT_TRUE(plain.contains(QString::fromStdString(first.raiseBy)));
}

TEST(ThreadWords, ShowTheRulingAndWhetherItsEvidenceMoved) {
    EXPECT_TRUE(words("d2").plain.contains("Ruling. None yet."));
    EXPECT_TRUE(words("d1").plain.contains("the evidence bears it"));
    EXPECT_TRUE(words("d1").plain.contains("Ada Brook, 1 May 2026"));
    EXPECT_TRUE(words("d1").plain.contains("stands as it was"));
    auto b = tests::app::smallTrolley();
    evidence::record::EvidenceState then;
    then.value = 171.0;
    then.digest = "of another state";
    b.reg.rulings.back().evidence = then;
    EXPECT_TRUE(said(b.reg, "d1", threadWords).plain.contains("has changed since"));
}

TEST(ThreadWords, ShowRelationsInNamesAndCodesOnlyInTheTooltip) {
    for (const char* id : {"d2", "d3", "d4"}) {
        const auto relation = words(id);
        EXPECT_TRUE(relation.plain.contains(QString::fromUtf8("Hoop width = Sill + 2 × Post")))
            << relation.plain.toStdString();
        EXPECT_FALSE(relation.plain.contains("2*D3"));
        EXPECT_TRUE(relation.html.contains("title=\"D4 = D2 + 2*D3\""));
    }
    EXPECT_FALSE(words("d1").plain.contains("Stands in"));
}

TEST(ThreadWords, SayWhatRestsOnAGuessAndCaution) {
    EXPECT_TRUE(words("d2").plain.contains("It rests on a guess"));
    EXPECT_TRUE(words("d2").plain.contains("licensed practice"));
    EXPECT_TRUE(words("d4").plain.contains("It rests on a guess"));
    EXPECT_FALSE(words("d4").plain.contains("licensed practice"));
    EXPECT_FALSE(words("d1").plain.contains("guess"));
}

TEST(ThreadWords, ShowDepartures) {
    auto b = tests::app::smallTrolley();
    evidence::record::Departure departure;
    departure.id = {"x1"};
    departure.on = {"q1"};
    departure.to = std::string("ash");
    departure.why = evidence::record::DepartureWhy::Material;
    departure.reason = "no oak of that length";
    b.reg.departures.push_back(departure);
    EXPECT_TRUE(said(b.reg, "q1", threadWords)
                    .plain.contains("The build has ash for material no longer to be had: no oak "
                                    "of that length"));
}

TEST(ThreadWords, EscapeWhatPeopleWrote) {
    auto b = tests::app::smallTrolley();
    b.reg.dimensions[0].name = "<b>Length</b> & more";
    EXPECT_TRUE(said(b.reg, "d1", headWords).plain.startsWith("<b>Length</b> & more"));
}

}  // namespace
