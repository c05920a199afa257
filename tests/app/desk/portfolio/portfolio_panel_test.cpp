#include "app/desk/portfolio/portfolio_panel.h"

#include "app/desk/portfolio/portfolio_model.h"
#include "tests/app/desk/page/drawn_page.h"

#include <QAbstractItemModelTester>
#include <QApplication>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QListView>
#include <QMimeData>
#include <QSignalSpy>
#include <QTest>
#include <QUrl>
#include <gtest/gtest.h>

namespace {

namespace record = evidence::record;

using app::desk::portfolio::PortfolioModel;
using app::desk::portfolio::PortfolioPanel;
using app::desk::portfolio::Row;
using app::desk::portfolio::rowsOf;
using app::desk::portfolio::Thumbnails;
using tests::app::page::Desk;

constexpr auto kFatal = QAbstractItemModelTester::FailureReportingMode::Fatal;

class DeskPortfolio : public testing::Test {
  protected:
    DeskPortfolio() : m_desk(m_folder / "archive"), m_panel(*m_desk.open, *m_desk.selection) {
        m_panel.resize(300, 600);
        m_panel.show();
        m_list = m_panel.findChild<QListView*>(QStringLiteral("portfolio"));
    }

    std::filesystem::path picture(const std::string& name, int width) {
        auto file = m_folder / name;
        tests::app::page::writePage(file,
                                    tests::app::page::pageWithBars(width, 300, {{20, 20, 60, 60}}));
        return file;
    }
    void drop(const std::vector<std::filesystem::path>& files) {
        QMimeData data;
        QList<QUrl> urls;
        for (const auto& file : files)
            urls << QUrl::fromLocalFile(QString::fromStdString(file.string()));
        data.setUrls(urls);
        QDragEnterEvent enter(QPoint(20, 20), Qt::CopyAction, &data, Qt::LeftButton,
                              Qt::NoModifier);
        QApplication::sendEvent(&m_panel, &enter);
        ASSERT_TRUE(enter.isAccepted());
        QDropEvent event(QPointF(20, 20), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&m_panel, &event);
        ASSERT_TRUE(event.isAccepted());
    }
    [[nodiscard]] const record::Register& reg() const { return m_desk.open->snapshot()->reg; }

    test::ScratchFolder m_folder;
    Desk m_desk;
    PortfolioPanel m_panel;
    QListView* m_list = nullptr;
};

TEST_F(DeskPortfolio, DroppedFilesAreTakenInAndTheFirstIsChosen) {
    QSignalSpy said(&m_panel, &PortfolioPanel::said);
    drop({picture("a.png", 400), picture("b.png", 500)});
    ASSERT_EQ(reg().sources.size(), 2U);
    EXPECT_EQ(m_desk.selection->now().source, reg().sources[0].id);
    EXPECT_EQ(said.back().at(0).toString(), QStringLiteral("2 sources were taken in."));
    EXPECT_EQ(m_list->currentIndex().data().toString(), QStringLiteral("a.png"));
    drop({m_folder / "a.png"});
    EXPECT_EQ(reg().sources.size(), 2U);
    EXPECT_TRUE(said.back().at(0).toString().contains(QStringLiteral("already")));
    m_desk.open->undoStack().undo();
    EXPECT_TRUE(reg().sources.empty());
}

TEST_F(DeskPortfolio, ClickOnACardChoosesItsSourceAndPage) {
    drop({picture("a.png", 400), picture("b.png", 500)});
    ASSERT_EQ(reg().sources.size(), 2U);
    const QModelIndex second = m_list->model()->index(2, 0);
    QTest::mouseClick(m_list->viewport(), Qt::LeftButton, {}, m_list->visualRect(second).center());
    EXPECT_EQ(m_desk.selection->now().source, reg().sources[1].id);
    EXPECT_EQ(m_desk.selection->now().page.file, reg().sources[1].files[0].id);
}

TEST_F(DeskPortfolio, FollowsWhatIsChosenElsewhere) {
    drop({picture("a.png", 400), picture("b.png", 500)});
    ASSERT_EQ(reg().sources.size(), 2U);
    m_desk.selection->choosePage({reg().sources[1].files[0].id, 1});
    EXPECT_EQ(m_list->currentIndex().data().toString(), QStringLiteral("b.png"));
}

TEST_F(DeskPortfolio, PicturesArriveOnceDecodedAndAreSmall) {
    drop({picture("a.png", 400), test::writeText(m_folder / "c.txt", "a letter")});
    const QModelIndex card = m_list->model()->index(1, 0);
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return !card.data(Qt::DecorationRole).value<QPixmap>().isNull(); }));
    EXPECT_EQ(card.data(Qt::DecorationRole).value<QPixmap>().size(), QSize(96, 72));
    EXPECT_TRUE(m_list->model()->index(2, 0).data(Qt::DecorationRole).value<QPixmap>().isNull());
}

TEST(PortfolioModel, KeepsTheRulesOfModels) {
    Thumbnails thumbnails([](const record::FileId&) { return app::desk::page::SheetToRead{}; });
    PortfolioModel model(thumbnails);
    QAbstractItemModelTester tester(&model, kFatal);
    record::Register reg;
    for (const char* id : {"1", "2", "3"}) {
        record::Source source;
        source.id = {id};
        source.title = id;
        source.files = {{.id = {std::string("f") + id}, .path = "x.png"}};
        reg.sources.push_back(source);
    }
    model.setRows(rowsOf(reg, "2026-05-11T09:00:00Z"));
    EXPECT_EQ(model.rowCount(), 4);
    EXPECT_FALSE(model.flags(model.index(0)).testFlag(Qt::ItemIsSelectable));
    QSignalSpy changes(&model, &QAbstractItemModel::dataChanged);
    (void)model.index(1).data(Qt::DecorationRole);
    ASSERT_TRUE(changes.wait());
    model.setRows({});
    EXPECT_EQ(model.rowCount(), 0);
}

}  // namespace
