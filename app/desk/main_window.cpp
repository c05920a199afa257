#include "app/desk/main_window.h"

#include "app/desk/actions.h"
#include "app/desk/desk_settings.h"
#include "app/desk/form/forms.h"
#include "app/desk/ledger/ledger_panel.h"
#include "app/desk/look/look.h"
#include "app/desk/page/page_panel.h"
#include "app/desk/portfolio/portfolio_panel.h"
#include "app/desk/preview/report_preview.h"
#include "app/desk/state_words.h"
#include "app/desk/thread/thread_panel.h"
#include "evidence-core/record/lookup.h"

#include <QApplication>
#include <QCloseEvent>
#include <QDialog>
#include <QFileDialog>
#include <QLabel>
#include <QMenuBar>
#include <QSplitter>
#include <QStatusBar>
#include <QTimer>
#include <QToolBar>

#include <array>
#include <chrono>

namespace app::desk {

using namespace std::chrono_literals;
using page::Tool;

namespace {

/// How often the desk looks whether another program has committed.
constexpr auto kLookAgain = 3s;
/// How long a sentence stands at the foot.
constexpr auto kSentence = 12s;

QSplitter* hairlineSplitter(Qt::Orientation orientation, QWidget* parent) {
    auto* splitter = new QSplitter(orientation, parent);
    splitter->setChildrenCollapsible(false);
    splitter->setHandleWidth(3);
    return splitter;
}

}  // namespace

MainWindow::MainWindow(std::unique_ptr<session::Archive> archive, QWidget* parent)
    : QMainWindow(parent),
      m_open(std::move(archive)),
      m_analyst(m_open),
      m_selection(m_open),
      m_actions(new Actions(m_open.undoStack(), this)),
      m_page(new page::PagePanel(m_open, m_analyst, m_selection, this)),
      m_ledger(new ledger::LedgerPanel(m_open, m_analyst, m_selection, this)),
      m_thread(new thread::ThreadPanel(m_open, m_analyst, m_selection, this)),
      m_portfolio(new portfolio::PortfolioPanel(m_open, m_selection, this)),
      m_state(new QLabel(this)) {
    setWindowTitle(
        tr("%1 – Lostlines").arg(QString::fromStdString(m_open.snapshot()->reg.archive.title)));
    layOut();
    fillMenus();
    fillToolStrip();
    connectActions();
    connectForms();
    follow();
    allowActions();
    sayState();
}

MainWindow::~MainWindow() = default;

void MainWindow::layOut() {
    m_across = hairlineSplitter(Qt::Horizontal, this);
    m_across->addWidget(m_portfolio);
    m_across->addWidget(m_page);
    m_across->addWidget(m_ledger);
    m_across->setStretchFactor(1, 1);
    m_across->setSizes({260, 760, 520});
    m_portfolio->hide();

    m_down = hairlineSplitter(Qt::Vertical, this);
    m_down->addWidget(m_across);
    m_down->addWidget(m_thread);
    m_down->setStretchFactor(0, 1);
    m_down->setSizes({560, 250});
    setCentralWidget(m_down);

    m_state->setContentsMargins(0, 0, 2 * look::kGrid, 0);
    statusBar()->addPermanentWidget(m_state);
    statusBar()->setSizeGripEnabled(false);
}

void MainWindow::fillMenus() {
    const auto& a = *m_actions;
    const auto fill = [this](const QString& title, std::initializer_list<QAction*> items) {
        auto* menu = menuBar()->addMenu(title);
        for (auto* item : items) {
            if (item)
                menu->addAction(item);
            else
                menu->addSeparator();
        }
    };
    fill(tr("&Register"), {a.openRegister, a.takeIn, nullptr, a.report, nullptr, a.quit});
    fill(tr("&Change"), {a.undo, a.redo, nullptr, a.setAside});
    fill(tr("&Page"), {a.look, a.scale, a.measure, a.circle, nullptr, a.printedScale});
    fill(tr("&Size"),
         {a.dimension, a.reading, a.guess, a.rule, nullptr, a.mass, a.tableRow, nullptr, a.find});
    fill(tr("&View"),
         {a.portfolio, a.glass, nullptr, a.whole, a.nearer, a.farther, a.toMark, nullptr, a.lamp});
}

void MainWindow::fillToolStrip() {
    auto* strip = new QToolBar(tr("Tools"), this);
    strip->setObjectName(QStringLiteral("toolStrip"));
    strip->setMovable(false);
    strip->setToolButtonStyle(Qt::ToolButtonTextUnderIcon);
    strip->setIconSize({20, 20});
    const auto& a = *m_actions;
    const std::initializer_list<QAction*> items{
        a.portfolio, nullptr,     a.look,    a.scale, a.measure, a.circle, a.glass,
        nullptr,     a.dimension, a.reading, a.guess, a.rule,    nullptr,  a.report};
    for (auto* item : items) {
        if (item)
            strip->addAction(item);
        else
            strip->addSeparator();
    }
    addToolBar(Qt::LeftToolBarArea, strip);
}

void MainWindow::connectActions() {
    const auto& a = *m_actions;
    connect(a.openRegister, &QAction::triggered, this, &MainWindow::anotherWanted);
    connect(a.takeIn, &QAction::triggered, this, &MainWindow::takeFilesIn);
    connect(a.report, &QAction::triggered, this, &MainWindow::showReport);
    connect(a.quit, &QAction::triggered, this, &QWidget::close);

    const std::array<std::pair<QAction*, Tool>, 4> tools{{{a.look, Tool::Look},
                                                          {a.scale, Tool::Scale},
                                                          {a.measure, Tool::Measure},
                                                          {a.circle, Tool::Circle}}};
    for (const auto& [action, tool] : tools)
        connect(action, &QAction::triggered, m_page,
                [this, tool = tool] { m_page->setTool(tool); });
    connect(m_page, &page::PagePanel::toolChanged, this, [tools](Tool now) {
        for (const auto& [action, tool] : tools) action->setChecked(tool == now);
    });
    connect(a.whole, &QAction::triggered, m_page, &page::PagePanel::showWhole);
    connect(a.nearer, &QAction::triggered, m_page, &page::PagePanel::zoomIn);
    connect(a.farther, &QAction::triggered, m_page, &page::PagePanel::zoomOut);
    connect(a.toMark, &QAction::triggered, m_page, &page::PagePanel::showChosen);
    connect(a.glass, &QAction::toggled, m_page, &page::PagePanel::showGlass);
    connect(a.portfolio, &QAction::toggled, m_portfolio, &QWidget::setVisible);
    connect(a.find, &QAction::triggered, m_ledger, &ledger::LedgerPanel::startFilter);

    a.lamp->setChecked(desk_settings::theme() == look::Theme::Lamp);
    connect(a.lamp, &QAction::toggled, this, [](bool on) {
        const auto theme = on ? look::Theme::Lamp : look::Theme::Paper;
        desk_settings::keepTheme(theme);
        look::dress(*qobject_cast<QApplication*>(QApplication::instance()), theme);
    });
}

void MainWindow::connectForms() {
    const auto& a = *m_actions;
    connect(a.dimension, &QAction::triggered, this,
            [this] { showForm(form::dimensionForm(m_open, m_analyst, this)); });
    connect(a.guess, &QAction::triggered, this,
            [this] { showForm(form::guessForm(m_open, m_analyst, m_selection.now().size, this)); });
    connect(a.rule, &QAction::triggered, this, [this] {
        showForm(form::rulingForm(m_open, m_analyst, m_selection.now().size, this));
    });
    connect(a.reading, &QAction::triggered, this, [this] {
        showForm(form::readingForm(m_open, m_analyst, m_selection.now().size, this));
    });
    connect(a.mass, &QAction::triggered, this,
            [this] { showForm(form::massForm(m_open, m_selection.now().size, this)); });
    connect(a.tableRow, &QAction::triggered, this,
            [this] { showForm(form::tableRowForm(m_open, this)); });
    connect(a.setAside, &QAction::triggered, this,
            [this] { showForm(form::setAsideForm(m_open, m_selection.now().record, this)); });
    connect(a.printedScale, &QAction::triggered, this, [this] {
        const auto& page = m_selection.now().page;
        showForm(form::printedScaleForm(m_open, page.file, page.page, this));
    });
    connect(m_ledger, &ledger::LedgerPanel::acknowledgeWanted, this, [this](std::size_t finding) {
        showForm(form::acknowledgeForm(m_open, m_analyst, finding, this));
    });
    m_ledger->addActions({a.reading, a.guess, a.rule, a.toMark});
}

void MainWindow::follow() {
    connect(&m_selection, &Selection::changed, this, &MainWindow::allowActions);
    connect(&m_open, &OpenRegister::changed, this, &MainWindow::allowActions);
    connect(&m_analyst, &Analyst::started, this, &MainWindow::sayState);
    connect(&m_analyst, &Analyst::judgedAnew, this, [this] {
        allowActions();
        sayState();
    });
    connect(&m_analyst, &Analyst::failed, this, &MainWindow::sayRefusal);
    connect(&m_open, &OpenRegister::refused, this, &MainWindow::sayRefusal);
    connect(m_page, &page::PagePanel::said, this, &MainWindow::say);
    connect(m_portfolio, &portfolio::PortfolioPanel::said, this, &MainWindow::say);

    auto* timer = new QTimer(this);
    connect(timer, &QTimer::timeout, &m_open, &OpenRegister::lookAgain);
    timer->start(kLookAgain);
}

void MainWindow::allowActions() {
    const auto& now = m_selection.now();
    const auto& reg = m_open.snapshot()->reg;
    Actions::Possible possible;
    possible.size = !now.size.empty();
    const auto* dimension =
        evidence::record::find(reg, evidence::record::DimensionId{now.size.text});
    possible.dimension = dimension != nullptr;
    possible.mass = dimension != nullptr &&
                    dimension->quantity == evidence::record::DimensionQuantity::Mass;
    possible.page = !now.page.file.empty();
    possible.aside = session::canBeSetAside(now.record, reg);
    possible.judged = m_analyst.judged() != nullptr;
    m_actions->allow(possible);
}

void MainWindow::showForm(QWidget* form) {
    form->show();
    form->raise();
    form->activateWindow();
}

void MainWindow::showReport() {
    if (!m_preview) {
        m_preview = new preview::ReportPreview(m_open, m_analyst, m_selection, this);
        m_preview->setWindowFlag(Qt::Window);
        m_preview->setAttribute(Qt::WA_DeleteOnClose);
        m_preview->resize(1080, 760);
    }
    showForm(m_preview);
}

void MainWindow::takeFilesIn() {
    auto* dialog = new QFileDialog(this, tr("Take files in"));
    dialog->setFileMode(QFileDialog::ExistingFiles);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QFileDialog::filesSelected, this, [this](const QStringList& chosen) {
        std::vector<std::filesystem::path> files;
        for (const auto& file : chosen) files.emplace_back(file.toStdString());
        if (const auto done = m_open.takeIn(files); !done)
            sayRefusal(done.error());
        else
            m_actions->portfolio->setChecked(true);
    });
    dialog->open();
}

void MainWindow::say(const QString& sentence) {
    statusBar()->showMessage(sentence, int(std::chrono::milliseconds(kSentence).count()));
}

void MainWindow::sayRefusal(const evidence::Refusal& refusal) {
    say(QString::fromStdString(refusal.help));
}

void MainWindow::sayState() {
    m_state->setText(m_analyst.atWork() || !m_analyst.judged()
                         ? tr("Working it out …")
                         : stateInWords(m_analyst.judged()->analysis));
}

void MainWindow::closeEvent(QCloseEvent* event) {
    desk_settings::keepGeometry(saveGeometry());
    QMainWindow::closeEvent(event);
}

bool MainWindow::event(QEvent* event) {
    if (event->type() == QEvent::WindowActivate) m_open.lookAgain();
    return QMainWindow::event(event);
}

}  // namespace app::desk
