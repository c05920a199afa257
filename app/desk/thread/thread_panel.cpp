#include "app/desk/thread/thread_panel.h"

#include "app/desk/analyst.h"
#include "app/desk/look/look.h"
#include "app/desk/selection.h"
#include "app/desk/thread/expert_model.h"
#include "app/desk/thread/interval_view.h"
#include "app/desk/thread/thread_view.h"
#include "app/desk/thread/thread_words.h"
#include "app/report/reading_plot.h"
#include "app/report/value_words.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QScrollArea>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>
#include <QTextBrowser>
#include <QToolButton>
#include <QVBoxLayout>

namespace app::desk::thread {

using evidence::record::AnyId;
using look::kGrid;

namespace {

/// Tells what it scrolls how much room there is.
class FillingScrollArea : public QScrollArea {
  public:
    FillingScrollArea(ThreadView* view, QWidget* parent) : QScrollArea(parent), m_view(view) {
        setWidget(view);
        setFrameShape(QFrame::NoFrame);
    }

  protected:
    void resizeEvent(QResizeEvent* event) override {
        QScrollArea::resizeEvent(event);
        m_view->setRoom(viewport()->size());
    }

  private:
    ThreadView* m_view;
};

}  // namespace

class ThreadPanel::Insides {
  public:
    Insides(ThreadPanel& panel, Analyst& analyst, Selection& selection)
        : m_panel(panel), m_analyst(analyst), m_selection(selection) {
        build();
        connectAll();
        follow();
    }

    void dressAnew() { showSize(); }

  private:
    void build() {
        m_head = new QLabel(&m_panel);
        m_head->setObjectName(QStringLiteral("threadHead"));
        m_head->setFont(look::type(look::Size::Heading));
        m_head->setTextFormat(Qt::RichText);
        m_expert = new QToolButton(&m_panel);
        m_expert->setObjectName(QStringLiteral("expertFold"));
        m_expert->setText(tr("Figures for experts"));
        m_expert->setToolTip(tr("How each reading stands against all the others, in figures."));
        m_expert->setCheckable(true);
        m_all = new QToolButton(&m_panel);
        m_all->setObjectName(QStringLiteral("allStrands"));
        m_all->setText(tr("All strands"));
        m_all->setToolTip(tr("Shows the strands that carry little, too."));
        m_all->setCheckable(true);
        m_view = new ThreadView;
        m_view->setObjectName(QStringLiteral("threadFigure"));
        m_scroll = new FillingScrollArea(m_view, &m_panel);
        m_left = new QStackedWidget(&m_panel);
        m_left->addWidget(m_scroll);
        m_left->addWidget(buildTable());
        m_words = new QTextBrowser(&m_panel);
        m_words->setObjectName(QStringLiteral("threadWords"));
        m_words->setAccessibleName(tr("Why it is this size"));
        m_words->setMinimumWidth(60 * kGrid);
        m_words->setOpenLinks(false);
        m_words->document()->setDocumentMargin(2 * kGrid);
        m_plot = new IntervalView;
        m_plot->setObjectName(QStringLiteral("intervalPlot"));
        m_plotScroll = new QScrollArea(&m_panel);
        m_plotScroll->setWidget(m_plot);
        m_plotScroll->setWidgetResizable(true);
        m_plotScroll->setFrameShape(QFrame::NoFrame);
        m_plotScroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
        m_plotScroll->setMinimumWidth(70 * kGrid);
        auto* split = new QSplitter(Qt::Horizontal, &m_panel);
        split->setChildrenCollapsible(false);
        split->addWidget(m_left);
        split->addWidget(m_words);
        split->addWidget(m_plotScroll);
        split->setStretchFactor(0, 1);  // the thread takes what the others leave
        split->setStretchFactor(1, 0);
        split->setStretchFactor(2, 0);
        split->setSizes({220 * kGrid, 65 * kGrid, 72 * kGrid});
        m_instead = new QLabel(&m_panel);
        m_instead->setObjectName(QStringLiteral("threadInstead"));
        m_instead->setProperty("pencil", "graphite");
        m_instead->setFont(look::type(look::Size::Heading));
        m_instead->setWordWrap(true);
        m_instead->setAlignment(Qt::AlignTop | Qt::AlignLeft);
        m_instead->setMargin(4 * kGrid);
        auto* whole = new QWidget(&m_panel);
        auto* inside = new QVBoxLayout(whole);
        inside->setContentsMargins(0, 0, 0, 0);
        inside->setSpacing(0);
        auto* top = new QHBoxLayout;
        top->setContentsMargins(2 * kGrid, kGrid, 2 * kGrid, kGrid);
        top->addWidget(m_head, 1);
        top->addWidget(m_all);
        top->addWidget(m_expert);
        inside->addLayout(top);
        inside->addWidget(split, 1);
        m_pages = new QStackedWidget(&m_panel);
        m_pages->addWidget(whole);
        m_pages->addWidget(m_instead);
        auto* layout = new QVBoxLayout(&m_panel);
        layout->setContentsMargins(0, 0, 0, 0);
        layout->addWidget(m_pages);
    }

    QWidget* buildTable() {
        m_table = new QTableView;
        m_table->setObjectName(QStringLiteral("expertTable"));
        m_table->setAccessibleName(tr("Figures for experts"));
        m_table->setModel(&m_figures);
        m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
        m_table->setSelectionMode(QAbstractItemView::SingleSelection);
        m_table->setShowGrid(false);
        m_table->setFont(look::figures(look::Size::Small));
        m_table->verticalHeader()->hide();
        m_table->verticalHeader()->setDefaultSectionSize(6 * kGrid);
        m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignBottom | Qt::AlignRight |
                                                         Qt::Alignment(Qt::TextWordWrap));
        m_table->horizontalHeader()->setFixedHeight(
            4 * QFontMetrics(look::type(look::Size::Text)).lineSpacing() + 2 * kGrid);
        m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
        m_table->horizontalHeader()->setSectionResizeMode(ExpertModel::Reading,
                                                          QHeaderView::Interactive);
        m_table->setColumnWidth(ExpertModel::Reading, 60 * kGrid);
        m_fit = new QLabel;
        m_fit->setObjectName(QStringLiteral("fitOfTheWhole"));
        m_fit->setProperty("pencil", "graphite");
        m_fit->setWordWrap(true);
        m_fit->setMargin(kGrid);
        auto* page = new QWidget;
        auto* layout = new QVBoxLayout(page);
        layout->setContentsMargins(kGrid, 0, kGrid, 0);
        layout->setSpacing(0);
        layout->addWidget(m_table, 1);
        layout->addWidget(m_fit);
        return page;
    }

    void connectAll() {
        QObject* const here = &m_here;
        QObject::connect(&m_selection, &Selection::changed, here, [this] { follow(); });
        QObject::connect(&m_analyst, &Analyst::judgedAnew, here, [this] { showSize(); });
        QObject::connect(&m_analyst, &Analyst::started, here, [this] { sayInstead(); });
        QObject::connect(m_view, &ThreadView::nodeChosen, here,
                         [this](const AnyId& record) { m_selection.choose(record); });
        QObject::connect(m_view, &ThreadView::allStrandsWanted, here,
                         [this] { m_all->setChecked(true); });
        QObject::connect(m_all, &QToolButton::toggled, here, [this](bool all) {
            m_view->setStrands(all ? Strands::All : Strands::Main);
            bringIntoView(m_selection.now().record);
        });
        QObject::connect(m_table, &QTableView::clicked, here, [this](const QModelIndex& index) {
            m_selection.choose(m_figures.readingAt(index.row()));
        });
        QObject::connect(m_expert, &QToolButton::toggled, here, [this](bool open) {
            m_left->setCurrentIndex(open ? 1 : 0);
            m_plotScroll->setVisible(!open);  // the table needs its room, and has its figures
        });
    }

    /// A record that the thread holds is shown in it; only another size brings another thread.
    void follow() {
        const auto& now = m_selection.now();
        const bool inThread = m_view->holds(now.record) && now.record != now.size;
        if (!inThread && !now.size.empty() && now.size != m_size) {
            m_size = now.size;
            m_all->setChecked(false);
            showSize();
        }
        m_view->markChosen(now.record);
        bringIntoView(now.record);
    }

    void bringIntoView(const AnyId& record) {
        if (const auto place = m_view->placeOf(record))
            m_scroll->ensureVisible(place->center().x(), place->center().y(),
                                    place->width() / 2 + kGrid, place->height() / 2 + kGrid);
    }

    void showSize() {
        const auto judged = m_analyst.judged();
        m_figures.show(judged, m_size);
        m_fit->setText(m_figures.fitWords());
        if (!judged || m_size.empty()) return sayInstead();
        const auto& reg = judged->snapshot->reg;
        const report::RegisterIndex index(reg, judged->analysis);
        const QString head = headWords(index, m_size);
        m_known = !head.isEmpty();
        m_head->setText(head);
        m_words->setHtml(threadWords(index, m_size));
        m_view->show(evidence::judgement::threadOf(m_size, reg, judged->analysis));
        m_view->markChosen(m_selection.now().record);
        m_all->setVisible(m_view->leavesStrandsOut());
        const auto* dimension = index.dimension(m_size.text);
        m_plot->show(dimension ? report::readingPlot(index, *dimension)
                               : report::figure::IntervalPlot{});
        m_plotScroll->setVisible(dimension != nullptr && !m_expert->isChecked());
        m_expert->setEnabled(dimension != nullptr);
        if (!dimension) m_expert->setChecked(false);
        sayInstead();
    }

    void sayInstead() {
        if (m_size.empty())
            m_instead->setText(
                tr("Choose a size in the ledger or a mark on the page: all that it "
                   "hangs on is shown here."));
        else if (m_analyst.atWork())
            m_instead->setText(tr("Working it out …"));
        else
            m_instead->setText(tr("The register does not hold this any more."));
        m_pages->setCurrentIndex(m_size.empty() || !m_known ? 1 : 0);
    }

    ThreadPanel& m_panel;
    Analyst& m_analyst;
    Selection& m_selection;
    AnyId m_size;          ///< whose thread is shown
    bool m_known = false;  ///< the analysis knows it
    ExpertModel m_figures;
    QLabel* m_head = nullptr;
    QToolButton* m_all = nullptr;
    QToolButton* m_expert = nullptr;
    ThreadView* m_view = nullptr;
    QScrollArea* m_scroll = nullptr;
    QTableView* m_table = nullptr;
    QLabel* m_fit = nullptr;
    QStackedWidget* m_left = nullptr;
    QTextBrowser* m_words = nullptr;
    IntervalView* m_plot = nullptr;
    QScrollArea* m_plotScroll = nullptr;
    QLabel* m_instead = nullptr;
    QStackedWidget* m_pages = nullptr;
    QObject m_here;  ///< last: nothing is heard once the rest goes
};

// What the thread shows is the judged register, not the open one.
ThreadPanel::ThreadPanel(OpenRegister&, Analyst& analyst, Selection& selection, QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("thread"));
    m_insides = std::make_unique<Insides>(*this, analyst, selection);
}

ThreadPanel::~ThreadPanel() = default;

void ThreadPanel::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    // The words name their colours themselves.
    if (event->type() == QEvent::PaletteChange && m_insides) m_insides->dressAnew();
}

}  // namespace app::desk::thread
