#include "app/desk/preview/report_preview.h"

#include "app/desk/preview/asked_first.h"
#include "app/report/report.h"
#include "tests/app/desk/desk_on_a_register.h"
#include "tests/app/qt_environment.h"
#include "tests/support/register_builder.h"

#include <QComboBox>
#include <QDialog>
#include <QFileDialog>
#include <QImage>
#include <QLabel>
#include <QPdfDocument>
#include <QPdfView>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QSpinBox>
#include <QTest>
#include <QTreeWidget>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace {

namespace desk = app::desk;
namespace record = evidence::record;

using desk::preview::askedFirst;
using desk::preview::ReportPreview;
using tests::app::DeskOnARegister;

record::Register brakeAndRoof() {
    testsupport::RegisterBuilder builder;
    auto& lever = builder.dimension("d1", "Brake lever");
    lever.critical = true;
    lever.component = "Brake";
    builder.dimension("d2", "Hoop rise").component = "Body/Roof";
    builder.dimension("d3", "Hoop width").component = "Body/Roof";
    builder.source("s1", "General arrangement");
    builder.guess("r1", "d1", 18, 1);
    builder.reading("r2", "d2", record::Basis::Figured, "s1", std::string("14 1/2 in"), 0.02);
    return builder.reg;
}

std::vector<std::string> kindsAsked(const desk::Judged& judged,
                                    const record::ReportFilter& filter) {
    std::vector<std::string> kinds;
    for (const auto at : askedFirst(judged, filter))
        kinds.push_back(judged.analysis.findings[at].kind);
    return kinds;
}

TEST(AskedFirst, IsHighAndMediumThatNobodyAcknowledged) {
    auto judged = *tests::app::judged(brakeAndRoof());
    EXPECT_THAT(
        kindsAsked(judged, {}),
        ::testing::AllOf(::testing::Contains("rests-on-guess"), ::testing::Contains("undetermined"),
                         ::testing::Not(::testing::Contains("single-reading"))));
    for (auto& finding : judged.analysis.findings) finding.acknowledged = true;
    EXPECT_TRUE(kindsAsked(judged, {}).empty());
}

TEST(AskedFirst, FollowsTheFilter) {
    const auto judged = tests::app::judged(brakeAndRoof());
    record::ReportFilter roof;
    roof.component = "Body/Roof";
    EXPECT_THAT(kindsAsked(*judged, roof),
                ::testing::AllOf(::testing::Contains("undetermined"),
                                 ::testing::Not(::testing::Contains("rests-on-guess"))));
    record::ReportFilter nothing;
    nothing.component = "Wings";
    EXPECT_TRUE(kindsAsked(*judged, nothing).empty());
}

class Preview : public ::testing::Test {
  protected:
    void SetUp() override {
        m_desk.waitForAnalysis();
        m_preview =
            std::make_unique<ReportPreview>(m_desk.open(), m_desk.analyst(), m_desk.selection());
        m_preview->resize(1100, 700);
    }
    /// Until the report of the register as it is stands there.
    void waitAfter(const std::function<void()>& cause) {
        QSignalSpy ready(m_preview.get(), &ReportPreview::ready);
        cause();
        ASSERT_TRUE(!ready.isEmpty() || ready.wait(30000)) << words().toStdString();
    }
    void show() {
        waitAfter([this] { m_preview->show(); });
    }
    template <class Widget>
    [[nodiscard]] Widget* part(const char* name) {
        return m_preview->findChild<Widget*>(QLatin1String(name));
    }
    [[nodiscard]] QString words() { return part<QLabel>("progress")->text(); }
    [[nodiscard]] int pages() { return part<QPdfView>("previewPages")->document()->pageCount(); }
    void choose(const char* name, const char* data) {
        auto* choice = part<QComboBox>(name);
        choice->setCurrentIndex(choice->findData(QString::fromUtf8(data)));
    }

    DeskOnARegister m_desk{brakeAndRoof()};
    std::unique_ptr<ReportPreview> m_preview;
};

TEST_F(Preview, ShowsAsManyPagesAsTheReportHas) {
    show();
    test::ScratchFolder folder;
    ::app::report::ReportRequest request;
    request.at = m_desk.open().timeNow();
    request.registerDigest = m_desk.open().headDigest();
    const auto judged = m_desk.analyst().judged();
    ASSERT_TRUE(app::report::writeReport(
        *judged->snapshot, [](const auto&) { return std::filesystem::path(); }, judged->analysis,
        request, folder / "same.pdf"));
    QPdfDocument same;
    same.load(QString::fromStdString((folder / "same.pdf").string()));
    EXPECT_GT(same.pageCount(), 1);
    EXPECT_EQ(pages(), same.pageCount());
    EXPECT_EQ(part<QSpinBox>("pageNumber")->maximum(), same.pageCount());
    EXPECT_TRUE(words().startsWith(QString::number(same.pageCount())));
}

TEST_F(Preview, PagesCanBeSeen) {
    show();
    const auto* view = part<QPdfView>("previewPages");
    const QImage seen =
        m_preview->grab(QRect(view->mapTo(m_preview.get(), QPoint(0, 0)), view->size())).toImage();
    // White paper with ink on it.
    int paper = 0;
    int ink = 0;
    for (int y = 0; y < seen.height(); ++y)
        for (int x = 0; x < seen.width(); ++x) {
            const int grey = qGray(seen.pixel(x, y));
            paper += grey == 255 ? 1 : 0;
            ink += grey < 80 ? 1 : 0;
        }
    EXPECT_GT(paper, seen.width() * seen.height() / 4);
    EXPECT_GT(ink, 500);
}

TEST_F(Preview, ListsWhatAReviewerAsksFirstAndAClickChoosesTheRecord) {
    show();
    auto* list = part<QTreeWidget>("reviewerFirst");
    const auto judged = m_desk.analyst().judged();
    const auto asked = askedFirst(*judged, {});
    ASSERT_EQ(list->topLevelItemCount(), static_cast<int>(asked.size()));
    const auto& first = judged->analysis.findings[asked[0]];
    EXPECT_EQ(list->topLevelItem(0)->text(0).toStdString(), first.text);
    QTest::mouseClick(list->viewport(), Qt::LeftButton, {},
                      list->visualItemRect(list->topLevelItem(0)).center());
    EXPECT_EQ(m_desk.selection().now().record, first.on.front());
}

TEST_F(Preview, FilterNarrowsReportAndQuestions) {
    show();
    const int all = pages();
    const int asked = part<QTreeWidget>("reviewerFirst")->topLevelItemCount();
    waitAfter([this] { choose("component", "Body/Roof"); });
    EXPECT_LT(part<QTreeWidget>("reviewerFirst")->topLevelItemCount(), asked);
    EXPECT_LE(pages(), all);
    EXPECT_EQ(part<QComboBox>("component")->currentData().toString(), QStringLiteral("Body/Roof"));
}

TEST_F(Preview, OffersEveryKindOfReport) {
    show();
    const auto* kinds = part<QComboBox>("kind");
    for (const char* kind : {"provenance", "short", "shop", "slip", "departures", "guesses"})
        EXPECT_GE(kinds->findData(QString::fromUtf8(kind)), 0) << kind;
    const int whole = pages();
    waitAfter([this] { choose("kind", "guesses"); });
    EXPECT_LT(pages(), whole);
}

TEST_F(Preview, SlipAsksForASizeAndFollowsTheChosenOne) {
    show();
    choose("kind", "slip");
    ASSERT_TRUE(
        QTest::qWaitFor([this] { return words().contains(QStringLiteral("slip")); }, 20000));
    EXPECT_EQ(part<QLabel>("progress")->property("pencil").toString(), QStringLiteral("red"));
    EXPECT_EQ(pages(), 0);
    waitAfter([this] { m_desk.selection().choose({"d2"}); });
    EXPECT_GE(pages(), 1);
}

TEST_F(Preview, IsWrittenAnewAfterAChange) {
    show();
    auto dimension = m_desk.open().snapshot()->reg.dimensions[2];
    auto aside = dimension;
    aside.setAside = "no such hoop";
    const int asked = part<QTreeWidget>("reviewerFirst")->topLevelItemCount();
    waitAfter([&] { m_desk.perform({"set aside", {{dimension, aside}}}); });
    EXPECT_LT(part<QTreeWidget>("reviewerFirst")->topLevelItemCount(), asked);
}

TEST_F(Preview, WritesNothingWhileNobodyLooks) {
    QSignalSpy ready(m_preview.get(), &ReportPreview::ready);
    auto dimension = m_desk.open().snapshot()->reg.dimensions[2];
    auto renamed = dimension;
    renamed.name = "Hoop thickness";
    m_desk.perform({"rename", {{dimension, renamed}}});
    m_desk.waitForAnalysis();
    QCoreApplication::processEvents();
    EXPECT_TRUE(ready.isEmpty());
    EXPECT_EQ(pages(), 0);
}

TEST_F(Preview, AcknowledgingTakesAQuestionOffTheList) {
    show();
    auto* list = part<QTreeWidget>("reviewerFirst");
    const int asked = list->topLevelItemCount();
    EXPECT_FALSE(part<QPushButton>("acknowledge")->isEnabled());
    list->setCurrentItem(list->topLevelItem(0));
    part<QPushButton>("acknowledge")->click();
    auto* form = m_preview->findChild<QDialog*>(QStringLiteral("acknowledgeForm"));
    ASSERT_NE(form, nullptr);
    form->findChild<QPlainTextEdit*>(QStringLiteral("reason"))
        ->setPlainText(QStringLiteral("known to the reviewer"));
    waitAfter([&] { form->findChild<QPushButton*>(QStringLiteral("keep"))->click(); });
    EXPECT_EQ(list->topLevelItemCount(), asked - 1);
}

TEST_F(Preview, SavesWhereTheUserSays) {
    show();
    test::ScratchFolder folder;
    for (const char* ending : {"pdf", "html"}) {
        const auto button = std::string(ending) == "pdf" ? "savePdf" : "saveHtml";
        part<QPushButton>(button)->click();
        auto* dialog = m_preview->findChild<QFileDialog*>();
        ASSERT_NE(dialog, nullptr);
        EXPECT_FALSE(dialog->isModal());
        const auto out = folder / (std::string("report.") + ending);
        Q_EMIT dialog->fileSelected(QString::fromStdString(out.string()));
        delete dialog;
        ASSERT_TRUE(
            QTest::qWaitFor([&] { return words().startsWith(QStringLiteral("Saved as")); }, 20000))
            << words().toStdString();
        EXPECT_GT(std::filesystem::file_size(out), 1000U);
        part<QLabel>("progress")->clear();
    }
}

TEST_F(Preview, SavesOnlyOnceTheEvidenceIsThatOfTheRegister) {
    show();
    part<QPushButton>("savePdf")->click();
    auto* dialog = m_preview->findChild<QFileDialog*>();
    ASSERT_NE(dialog, nullptr);
    const auto dimension = m_desk.open().snapshot()->reg.dimensions[2];
    auto renamed = dimension;
    renamed.name = "Hoop thickness";
    m_desk.perform({"rename", {{dimension, renamed}}});
    test::ScratchFolder folder;
    const auto out = folder / "report.pdf";
    Q_EMIT dialog->fileSelected(QString::fromStdString(out.string()));
    delete dialog;
    ASSERT_TRUE(QTest::qWaitFor([&] { return std::filesystem::exists(out); }, 20000));
    QPdfDocument saved;
    saved.load(QString::fromStdString(out.string()));
    QString text;
    for (int page = 0; page < saved.pageCount(); ++page) text += saved.getAllText(page).text();
    EXPECT_TRUE(text.contains(QStringLiteral("Hoop thickness")));
    EXPECT_FALSE(text.contains(QStringLiteral("Hoop width")));
}

TEST_F(Preview, TellsWhereAReportCannotBeSaved) {
    show();
    part<QPushButton>("savePdf")->click();
    auto* dialog = m_preview->findChild<QFileDialog*>();
    ASSERT_NE(dialog, nullptr);
    tests::app::announceQtWarning(QStringLiteral("QPainter::begin(): Returned false"));
    Q_EMIT dialog->fileSelected(QStringLiteral("/nowhere/at/all/report.pdf"));
    delete dialog;
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return words().contains(QStringLiteral("could not be written")); }, 20000))
        << words().toStdString();
    EXPECT_EQ(part<QLabel>("progress")->property("pencil").toString(), QStringLiteral("red"));
}

}  // namespace
