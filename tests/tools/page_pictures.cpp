// Paints the desk's page and portfolio with a register in them, in both themes, so that a person
// can look at them: page_pictures ARCHIVE OUT_FOLDER [CODE]. CODE is the code of a
// dimension that has a mark, or the id of any record.

#include "app/desk/analyst.h"
#include "app/desk/look/look.h"
#include "app/desk/open_register.h"
#include "app/desk/page/page_panel.h"
#include "app/desk/page/page_view.h"
#include "app/desk/portfolio/portfolio_panel.h"
#include "app/desk/selection.h"
#include "evidence-core/record/lookup.h"

#include <QApplication>
#include <QLineEdit>
#include <QMouseEvent>
#include <QTest>

#include <cstdio>
#include <ctime>

namespace {

using namespace app::desk;

/// Processor time, so that a busy machine does not count.
double msSince(std::clock_t start) {
    return 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

/// One desk with the page and the portfolio of an archive.
class Room {
  public:
    explicit Room(std::unique_ptr<app::session::Archive> archive)
        : m_open(std::move(archive)),
          m_analyst(m_open),
          m_selection(m_open),
          m_page(m_open, m_analyst, m_selection),
          m_portfolio(m_open, m_selection),
          m_view(m_page.findChild<page::PageView*>(QStringLiteral("pageView"))) {
        m_page.resize(1280, 800);
        m_portfolio.resize(340, 800);
        m_page.show();
        m_portfolio.show();
    }

    void choose(const std::string& code) {
        const auto id = evidence::record::byCodeOrId(m_open.snapshot()->reg, code);
        m_selection.choose(id.value_or(evidence::record::AnyId{code}));
    }
    bool wait() {
        return QTest::qWaitFor(
            [&] { return m_analyst.judged() && m_view->cursor().shape() != Qt::ArrowCursor; },
            120000);
    }
    void save(const QString& folder, const QString& name) {
        QTest::qWait(50);
        m_page.grab().save(folder + QStringLiteral("/page-") + name + QStringLiteral(".png"));
    }
    void savePortfolio(const QString& folder, const QString& name) {
        QTest::qWait(3000);  // the thumbnails
        m_portfolio.grab().save(folder + QStringLiteral("/portfolio-") + name +
                                QStringLiteral(".png"));
    }
    /// Drags along the chosen mark's middle and leaves the field open.
    void drag(page::Tool tool, const QPoint& from, const QPoint& to, bool letGo) {
        m_page.setTool(tool);
        QTest::mousePress(m_view, Qt::LeftButton, {}, from);
        QMouseEvent move(QEvent::MouseMove, QPointF(to), QPointF(m_view->mapToGlobal(to)),
                         Qt::NoButton, Qt::LeftButton, {});
        QApplication::sendEvent(m_view, &move);
        QApplication::processEvents();
        if (letGo) QTest::mouseRelease(m_view, Qt::LeftButton, {}, to);
    }
    /// Drags the picture by an offset.
    void move(const QPoint& offset) {
        const QPoint from(640, 400);
        QTest::mousePress(m_view, Qt::MiddleButton, {}, from);
        QMouseEvent to(QEvent::MouseMove, QPointF(from + offset),
                       QPointF(m_view->mapToGlobal(from + offset)), Qt::NoButton, Qt::MiddleButton,
                       {});
        QApplication::sendEvent(m_view, &to);
        QTest::mouseRelease(m_view, Qt::MiddleButton, {}, from + offset);
    }
    /// Milliseconds that one move takes while a mark is dragged: its fit and its live figures.
    double msPerDrag() {
        const std::clock_t start = std::clock();
        constexpr int kSteps = 40;
        for (int i = 0; i < kSteps; ++i) {
            const QPointF to(893 + i % 5, 420 + i % 7);
            QMouseEvent move(QEvent::MouseMove, to, QPointF(m_view->mapToGlobal(to.toPoint())),
                             Qt::NoButton, Qt::LeftButton, {});
            QApplication::sendEvent(m_view, &move);
            QApplication::processEvents();
        }
        return msSince(start) / kSteps;
    }
    void drop() { QTest::keyClick(m_view, Qt::Key_Escape); }
    page::PagePanel& page() { return m_page; }

    /// Milliseconds that one repaint takes while the page is dragged about at 100 %.
    double msPerPan() {
        m_page.setTool(page::Tool::Look);
        const std::clock_t start = std::clock();
        constexpr int kSteps = 60;
        for (int i = 0; i < kSteps; ++i) {
            QTest::keyClick(m_view, i % 4 < 2 ? Qt::Key_Right : Qt::Key_Left);
            m_view->repaint();
        }
        return msSince(start) / kSteps;
    }

  private:
    OpenRegister m_open;
    Analyst m_analyst;
    Selection m_selection;
    page::PagePanel m_page;
    portfolio::PortfolioPanel m_portfolio;
    page::PageView* m_view;
};

}  // namespace

int main(int count, char** arguments) {
    QApplication application(count, arguments);
    if (count < 3) {
        std::fputs("page_pictures ARCHIVE OUT_FOLDER [CODE]\n", stderr);
        return 2;
    }
    const QString out = QString::fromLocal8Bit(arguments[2]);
    const std::string code = count > 3 ? arguments[3] : "D1";
    const QList<std::pair<look::Theme, QString>> themes{
        {look::Theme::Paper, QStringLiteral("paper")}, {look::Theme::Lamp, QStringLiteral("lamp")}};
    for (const auto& [theme, name] : themes) {
        look::dress(application, theme);
        auto archive = app::session::Archive::open(
            arguments[1], {"Looker", [] { return std::string("2026-05-11T09:00:00Z"); }});
        if (!archive) {
            std::fprintf(stderr, "%s\n", archive.error().help.c_str());
            return 4;
        }
        Room room(std::move(*archive));
        room.save(out, name + QStringLiteral("-empty"));
        room.choose(code);
        room.save(out, name + QStringLiteral("-reading"));
        if (!room.wait()) return 5;
        room.page().showWhole();
        room.save(out, name + QStringLiteral("-whole"));
        room.page().showChosen();
        room.save(out, name + QStringLiteral("-chosen"));
        for (int i = 0; i < 10; ++i) room.page().zoomIn();
        room.move({-256 * 9, 0});
        room.save(out, name + QStringLiteral("-close"));
        room.page().showChosen();
        room.drag(page::Tool::Measure, {386, 420}, {893, 422}, false);
        room.save(out, name + QStringLiteral("-dragging"));
        std::printf("%s: %.1f ms a step of dragging a mark\n", qPrintable(name), room.msPerDrag());
        room.page().showGlass(true);
        room.save(out, name + QStringLiteral("-glass"));
        room.page().showGlass(false);
        room.drop();
        room.drag(page::Tool::Measure, {386, 420}, {893, 422}, true);
        room.save(out, name + QStringLiteral("-measure"));
        room.drop();
        room.drag(page::Tool::Scale, {388, 320}, {892, 320}, true);
        room.save(out, name + QStringLiteral("-scale"));
        room.drop();
        room.savePortfolio(out, name);
        std::printf("%s: %.1f ms a step of panning\n", qPrintable(name), room.msPerPan());
    }
    return 0;
}
