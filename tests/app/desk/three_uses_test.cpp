// The desk's three main uses, clicked through in its window: scale a dimension off a photograph
// with a known reference; record why a guessed part was sized as it was; produce the report.
#include "app/desk/actions.h"
#include "app/desk/main_window.h"
#include "app/desk/page/page_view.h"
#include "app/desk/preview/report_preview.h"
#include "evidence-core/record/lookup.h"
#include "tests/app/desk/page/drawn_page.h"
#include "tests/support/scratch_folder.h"

#include <QApplication>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPdfDocument>
#include <QPdfView>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <QTreeView>
#include <QUndoStack>
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

namespace {

namespace record = evidence::record;

using app::desk::MainWindow;
using app::desk::page::PageView;

/// Who acted stays on record when an action is taken back.
record::Register withoutPeople(record::Register reg) {
    reg.people.clear();
    return reg;
}

constexpr int kWait = 20000;  // ms, far beyond what any of this takes

class ThreeUses : public testing::Test {
  protected:
    ThreeUses() {
        auto archive = app::session::Archive::create(
            m_folder / "archive", "Teal",
            {"Anna", [] { return std::string("2026-05-11T09:00:00Z"); }});
        m_window = std::make_unique<MainWindow>(std::move(*archive));
        m_window->resize(1280, 800);
        m_window->show();
        waitUntilJudged();
    }

    void waitUntilJudged() {
        const auto upToDate = [this] {
            const auto judged = m_window->analyst().judged();
            return judged && judged->snapshot->version == m_window->open().snapshot()->version;
        };
        ASSERT_TRUE(QTest::qWaitFor(upToDate, kWait));
    }

    /// A photograph of two bars: the upper 400 px, the lower 240 px long.
    void takePhotographIn() {
        const auto file = m_folder / "broadside.png";
        tests::app::page::writePage(
            file,
            tests::app::page::pageWithBars(800, 500, {{200, 100, 400, 100}, {200, 300, 240, 100}}));
        ASSERT_TRUE(m_window->open().takeIn({file}));
        m_window->selection().choose(record::any(reg().sources.at(0).id));
        ASSERT_TRUE(QTest::qWaitFor(
            [&] {
                return !page().viewport().pageBox().isEmpty() &&
                       page().viewport().pageBox().width() == 800;
            },
            kWait));
        waitUntilJudged();
    }

    [[nodiscard]] const record::Register& reg() const { return m_window->open().snapshot()->reg; }
    [[nodiscard]] PageView& page() const {
        return *m_window->findChild<PageView*>(QStringLiteral("pageView"));
    }
    template <class Widget>
    [[nodiscard]] static Widget* in(QWidget* parent, const char* name) {
        return parent->findChild<Widget*>(QString::fromLatin1(name));
    }
    /// The form that lies open.
    [[nodiscard]] QDialog* form() const {
        for (auto* dialog : m_window->findChildren<QDialog*>())
            if (dialog->isVisible()) return dialog;
        return nullptr;
    }

    void drag(const QPointF& from, const QPointF& to) {
        const QPoint a = page().viewport().toView(from).toPoint();
        const QPoint b = page().viewport().toView(to).toPoint();
        QTest::mousePress(&page(), Qt::LeftButton, {}, a);
        for (const QPoint& at : {(a + b) / 2, b}) {
            QMouseEvent move(QEvent::MouseMove, QPointF(at), QPointF(page().mapToGlobal(at)),
                             Qt::NoButton, Qt::LeftButton, {});
            QApplication::sendEvent(&page(), &move);
        }
        QTest::mouseRelease(&page(), Qt::LeftButton, {}, b);
    }

    /// 400 px are 50 in; then the lower bar is measured: 30 in.
    void scaleAndMeasure() {
        m_window->actions().scale->trigger();
        drag({202, 150}, {597, 150});
        QTest::keyClicks(in<QLineEdit>(m_window.get(), "lengthField"), QStringLiteral("4'-2\""));
        QTest::keyClicks(in<QLineEdit>(m_window.get(), "plusMinusField"), QStringLiteral("1/16"));
        QTest::keyClick(in<QLineEdit>(m_window.get(), "lengthField"), Qt::Key_Return);
        waitUntilJudged();
        m_window->actions().measure->trigger();
        drag({203, 350}, {437, 350});
        QTest::keyClicks(in<QLineEdit>(m_window.get(), "nameField"), QStringLiteral("Sill"));
        QTest::keyClick(in<QLineEdit>(m_window.get(), "nameField"), Qt::Key_Return);
        waitUntilJudged();
    }

    test::ScratchFolder m_folder;
    std::unique_ptr<MainWindow> m_window;
};

TEST_F(ThreeUses, DimensionScaledOffAPhotographStandsInTheLedger) {
    takePhotographIn();
    scaleAndMeasure();

    ASSERT_EQ(reg().dimensions.size(), 1U);
    const auto& result = m_window->analyst().judged()->analysis.dimensions.at(0);
    EXPECT_NEAR(result.value.value_or(0), 30.0, 0.05);
    EXPECT_LT(result.low95.value_or(99), 30.0);
    EXPECT_GT(result.high95.value_or(0), 30.0);
    // What scales it has no source: the ledger and its finding must not hide that.
    EXPECT_TRUE(result.restsOnGuess);
    EXPECT_EQ(m_window->selection().now().size, record::any(reg().dimensions[0].id));

    auto* ledger = in<QTreeView>(m_window.get(), "ledgerTree");
    ASSERT_TRUE(ledger->currentIndex().isValid());
    QString row;
    for (int column = 0; column < ledger->model()->columnCount(); ++column)
        row +=
            ledger->currentIndex().siblingAtColumn(column).data().toString() + QStringLiteral("|");
    EXPECT_TRUE(row.contains(QStringLiteral("Sill"))) << row.toStdString();
    EXPECT_TRUE(row.contains(QStringLiteral("2′-6″"))) << row.toStdString();
}

TEST_F(ThreeUses, EveryStepOfScalingAndMeasuringCanBeUndoneAndRedone) {
    takePhotographIn();
    const record::Register before = reg();
    scaleAndMeasure();
    const record::Register after = reg();

    m_window->actions().undo->trigger();
    m_window->actions().undo->trigger();
    EXPECT_TRUE(withoutPeople(reg()) == withoutPeople(before));
    m_window->actions().redo->trigger();
    m_window->actions().redo->trigger();
    EXPECT_TRUE(reg() == after);
    waitUntilJudged();
}

TEST_F(ThreeUses, GuessIsKeptWithItsBoundsAndReasonAndNotWithout) {
    ASSERT_TRUE(m_window->open().perform([](const app::session::Context& context) {
        return app::session::planDimension(context,
                                           {.name = "Hoop depth", .component = "Body/Roof"});
    }));
    waitUntilJudged();
    m_window->selection().choose(record::any(reg().dimensions.at(0).id));
    m_window->actions().guess->trigger();
    auto* dialog = form();
    ASSERT_NE(dialog, nullptr);

    QTest::keyClicks(in<QLineEdit>(dialog, "low"), QStringLiteral("2 1/2"));
    QTest::keyClicks(in<QLineEdit>(dialog, "high"), QStringLiteral("3 1/2"));
    QTest::mouseClick(in<QPushButton>(dialog, "keep"), Qt::LeftButton);
    EXPECT_TRUE(reg().readings.empty());
    EXPECT_FALSE(in<QLabel>(dialog, "refusal")->text().isEmpty());

    in<QPlainTextEdit>(dialog, "reason")->setPlainText(QStringLiteral("as deep as the end hoops"));
    in<QPlainTextEdit>(dialog, "considered")
        ->setPlainText(QStringLiteral("2 in, as in the canopy"));
    in<QPlainTextEdit>(dialog, "wouldSettle")
        ->setPlainText(QStringLiteral("a photograph from above"));
    QTest::mouseClick(in<QPushButton>(dialog, "keep"), Qt::LeftButton);
    ASSERT_EQ(reg().readings.size(), 1U);
    EXPECT_EQ(reg().readings[0].basis, record::Basis::Guessed);
    EXPECT_NE(reg().readings[0].reason.value_or("").find("as deep as the end hoops"),
              std::string::npos);
    EXPECT_NE(reg().readings[0].reason.value_or("").find("a photograph from above"),
              std::string::npos);

    waitUntilJudged();
    const auto& result = m_window->analyst().judged()->analysis.dimensions.at(0);
    EXPECT_TRUE(result.restsOnGuess);
    EXPECT_NEAR(result.value.value_or(0), 3.0, 1e-9);
    m_window->actions().undo->trigger();
    EXPECT_TRUE(reg().readings.empty());
    waitUntilJudged();
}

TEST_F(ThreeUses, ReportIsPreviewedFromTheRegisterAsItIs) {
    takePhotographIn();
    scaleAndMeasure();
    m_window->actions().report->trigger();
    auto* preview = m_window->findChild<app::desk::preview::ReportPreview*>();
    ASSERT_NE(preview, nullptr);
    QSignalSpy ready(preview, &app::desk::preview::ReportPreview::ready);
    ASSERT_TRUE(ready.count() > 0 || ready.wait(kWait));

    auto* pages = in<QPdfView>(preview, "previewPages");
    ASSERT_NE(pages, nullptr);
    ASSERT_GT(pages->document()->pageCount(), 1);
    QString text;
    for (int page = 0; page < pages->document()->pageCount(); ++page)
        text += pages->document()->getAllText(page).text();
    EXPECT_TRUE(text.contains(QStringLiteral("Sill")));
    EXPECT_TRUE(text.contains(QStringLiteral("guess"), Qt::CaseInsensitive));
}

}  // namespace
