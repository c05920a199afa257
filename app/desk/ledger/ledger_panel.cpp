#include "app/desk/ledger/ledger_panel.h"

#include "app/desk/analyst.h"
#include "app/desk/ledger/findings_panel.h"
#include "app/desk/ledger/grade_summary.h"
#include "app/desk/ledger/ledger_filter.h"
#include "app/desk/ledger/ledger_model.h"
#include "app/desk/ledger/ledger_view.h"
#include "app/desk/ledger/margin_notes.h"
#include "app/desk/look/look.h"
#include "app/desk/open_register.h"
#include "app/desk/selection.h"
#include "app/report/document.h"

#include <QAction>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace app::desk::ledger {

using look::kGrid;

namespace {

QLabel* quietLabel(const QString& name, QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setObjectName(name);
    label->setProperty("pencil", "graphite");
    label->setWordWrap(true);
    return label;
}

}  // namespace

class LedgerPanel::Insides {
  public:
    Insides(LedgerPanel& panel, OpenRegister& open, Analyst& analyst, Selection& selection)
        : m_panel(panel), m_open(open), m_analyst(analyst), m_selection(selection) {
        build();
        connectAll();
        take();
    }

    void startFilter() {
        m_filterField->setFocus(Qt::ShortcutFocusReason);
        m_filterField->selectAll();
    }

  private:
    void build() {
        m_filterField = new QLineEdit(&m_panel);
        m_filterField->setObjectName(QStringLiteral("ledgerFilter"));
        m_filterField->setPlaceholderText(tr("Words, a code, or grades: H F T B C O –"));
        m_filterField->setAccessibleName(tr("Narrow the ledger"));
        m_filterField->setToolTip(
            tr("Narrows the ledger. All words must be met, and one of the grades; Escape shows "
               "everything again."));
        m_filterField->setClearButtonEnabled(true);
        m_filterField->addAction(look::icon(QStringLiteral("filter")), QLineEdit::LeadingPosition);
        m_bar = new GradeSummary(&m_panel);
        m_bar->setObjectName(QStringLiteral("gradeSummary"));
        m_counts = quietLabel(QStringLiteral("ledgerSummary"), &m_panel);
        m_state = quietLabel(QStringLiteral("ledgerState"), &m_panel);
        m_view = new LedgerView(&m_panel);
        m_view->setObjectName(QStringLiteral("ledgerTree"));
        m_view->setAccessibleName(tr("Ledger"));
        m_view->setContextMenuPolicy(Qt::CustomContextMenu);
        m_filter.setSourceModel(&m_model);
        m_view->setModel(&m_filter);
        m_instead = quietLabel(QStringLiteral("ledgerInstead"), &m_panel);
        m_instead->setAlignment(Qt::AlignTop | Qt::AlignLeft);
        m_instead->setMargin(4 * kGrid);
        m_instead->setFont(look::type(look::Size::Heading));
        m_pages = new QStackedWidget(&m_panel);
        m_pages->addWidget(m_view);
        m_pages->addWidget(m_instead);
        m_findings = new FindingsPanel(&m_panel);
        m_split = new QSplitter(Qt::Vertical, &m_panel);
        m_split->addWidget(m_pages);
        m_split->addWidget(m_findings);
        m_split->setStretchFactor(0, 3);
        m_split->setStretchFactor(1, 2);
        m_split->setChildrenCollapsible(false);

        auto* head = new QVBoxLayout;
        head->setContentsMargins(2 * kGrid, 2 * kGrid, 2 * kGrid, kGrid);
        head->setSpacing(kGrid);
        head->addWidget(m_filterField);
        head->addWidget(m_bar);
        head->addWidget(m_counts);
        head->addWidget(m_state);
        auto* layout = new QVBoxLayout(&m_panel);
        layout->setContentsMargins(0, 0, 0, 0);
        layout->setSpacing(0);
        layout->addLayout(head);
        layout->addWidget(m_split, 1);
    }

    void connectAll() {
        QObject* const here = &m_here;
        QObject::connect(&m_analyst, &Analyst::started, here, [this] { sayState(); });
        QObject::connect(&m_analyst, &Analyst::judgedAnew, here, [this] { take(); });
        QObject::connect(&m_analyst, &Analyst::failed, here,
                         [this](const evidence::Refusal& refusal) { sayRefusal(refusal); });
        QObject::connect(&m_selection, &Selection::changed, here, [this] { follow(); });
        QObject::connect(m_filterField, &QLineEdit::textChanged, here, [this] { narrow(); });
        QObject::connect(m_bar, &GradeSummary::gradePicked, here,
                         [this](evidence::record::Grade grade) {
                             m_filterField->setText(withGradeToggled(m_filterField->text(), grade));
                         });
        QObject::connect(m_view->selectionModel(), &QItemSelectionModel::currentChanged, here,
                         [this](const QModelIndex& now) {
                             const LedgerEntry* entry = LedgerModel::entryAt(now);
                             if (!m_following && entry && entry->id != m_selection.now().size)
                                 choose(*entry);
                         });
        QObject::connect(m_view, &QTreeView::clicked, here, [this](const QModelIndex& index) {
            if (const LedgerEntry* entry = LedgerModel::entryAt(index)) choose(*entry);
        });
        QObject::connect(m_view, &QWidget::customContextMenuRequested, here,
                         [this](const QPoint& point) { showMenu(point); });
        QObject::connect(m_findings, &FindingsPanel::acknowledgeWanted, &m_panel,
                         &LedgerPanel::acknowledgeWanted);
        QObject::connect(m_findings, &FindingsPanel::findingChosen, here,
                         [this](std::size_t finding) { chooseFinding(finding); });
        QObject::connect(m_findings, &FindingsPanel::folded, here, [this](bool open) {
            const int whole = m_split->height();
            if (open) m_split->setSizes({whole * 3 / 5, whole * 2 / 5});
        });
        auto* leave = new QAction(&m_panel);
        leave->setShortcut(Qt::Key_Escape);
        leave->setShortcutContext(Qt::WidgetShortcut);
        m_filterField->addAction(leave);
        QObject::connect(leave, &QAction::triggered, m_filterField, &QLineEdit::clear);
    }

    /// The view keeps its place, unless what is chosen has only now come into the ledger.
    void take() {
        const auto judged = m_analyst.judged();
        const bool stoodThere = chosenLine().isValid();
        m_following = true;
        m_model.show(judged);
        openNodes();
        m_view->markChosen(chosenLine());
        m_following = false;
        m_findings->show(judged);
        if (stoodThere)
            markNote();
        else
            follow();
        const GradeCounts counts = countGrades(m_model.root());
        m_bar->show(counts);
        m_counts->setText(gradeCountWords(counts));
        sayState();
    }

    void openNodes() {
        if (m_filter.asksNothing())
            m_view->openAsLeft();
        else
            m_view->openAll();
    }

    void narrow() {
        m_following = true;
        m_filter.ask(m_filterField->text());
        openNodes();
        m_following = false;
        sayState();
        follow();
    }

    /// Brings the chosen size's line into view.
    void follow() {
        m_following = true;
        m_view->showChosen(chosenLine());
        m_following = false;
        markNote();
    }

    [[nodiscard]] QModelIndex chosenLine() const {
        return m_filter.mapFromSource(m_model.indexOf(m_selection.now().size));
    }

    /// Marks the first note beside the chosen size.
    void markNote() {
        const auto* entry = LedgerModel::entryAt(m_model.indexOf(m_selection.now().size));
        m_findings->mark(entry ? entry->notes : std::vector<std::size_t>{});
    }

    void choose(const LedgerEntry& entry) {
        if (!entry.id.empty()) m_selection.choose(entry.id);
    }

    void chooseFinding(std::size_t finding) {
        const auto& about = m_model.judged()->analysis.findings[finding].on;
        if (!about.empty()) m_selection.choose(about.front());
    }

    void sayState() {
        const bool known = m_model.judged() != nullptr;
        setPencil("graphite");
        m_state->setText(m_analyst.atWork() ? tr("Working it out …") : QString());
        m_state->setVisible(m_analyst.atWork());
        const auto& reg = m_open.snapshot()->reg;
        const bool empty = reg.dimensions.empty() && reg.particulars.empty();
        const bool none = m_filter.rowCount({}) == 0;
        m_bar->setVisible(known && !empty);
        m_counts->setVisible(known && !empty);
        m_filterField->setEnabled(!empty);
        m_findings->setVisible(known && !empty);
        if (empty)
            m_instead->setText(
                tr("Nothing is measured yet. Take a drawing or a photograph into the portfolio, "
                   "open it, and drag along a thing of known length: that sets its scale. Then "
                   "drag along what you want to know. A size that no picture shows is begun with "
                   "“New dimension”."));
        else if (known && none)
            m_instead->setText(tr("Nothing in the ledger fits these words."));
        else
            m_instead->clear();
        m_pages->setCurrentWidget(empty || none ? static_cast<QWidget*>(m_instead) : m_view);
    }

    void sayRefusal(const evidence::Refusal& refusal) {
        setPencil("red");
        m_state->setText(tr("The analysis cannot use a record as it stands. %1: %2")
                             .arg(report::shown(refusal.place), report::shown(refusal.help)));
        m_state->setVisible(true);
    }

    void setPencil(const char* pencil) {
        m_state->setProperty("pencil", pencil);
        m_state->style()->unpolish(m_state);
        m_state->style()->polish(m_state);
    }

    void showMenu(const QPoint& point) {
        auto* menu = new QMenu(&m_panel);
        menu->setAttribute(Qt::WA_DeleteOnClose);
        menu->setObjectName(QStringLiteral("ledgerMenu"));
        if (const LedgerEntry* entry = LedgerModel::entryAt(m_view->indexAt(point)))
            addNotes(*menu, *entry);
        menu->addActions(m_panel.actions());
        if (menu->isEmpty())
            menu->deleteLater();
        else
            menu->popup(m_view->viewport()->mapToGlobal(point));
    }

    void addNotes(QMenu& menu, const LedgerEntry& entry) {
        constexpr int kMostWords = 60;
        for (const std::size_t note : entry.notes) {
            const auto& finding = m_model.judged()->analysis.findings[note];
            if (finding.acknowledged) continue;
            QString words = besideItsValue(report::shown(finding.text), entry.name);
            if (words.size() > kMostWords) words = words.left(kMostWords) + QStringLiteral(" …");
            QAction* action = menu.addAction(
                tr("Acknowledge “%1” …").arg(words.replace(QLatin1Char('&'), QLatin1String("&&"))));
            QObject::connect(action, &QAction::triggered, &m_here,
                             [this, note] { Q_EMIT m_panel.acknowledgeWanted(note); });
        }
        if (!menu.isEmpty()) menu.addSeparator();
    }

    LedgerPanel& m_panel;
    OpenRegister& m_open;
    Analyst& m_analyst;
    Selection& m_selection;
    LedgerModel m_model;
    LedgerFilter m_filter;
    bool m_following = false;  ///< the view moves because something else was chosen
    QLineEdit* m_filterField = nullptr;
    GradeSummary* m_bar = nullptr;
    QLabel* m_counts = nullptr;
    QLabel* m_state = nullptr;
    LedgerView* m_view = nullptr;
    QLabel* m_instead = nullptr;
    QStackedWidget* m_pages = nullptr;
    FindingsPanel* m_findings = nullptr;
    QSplitter* m_split = nullptr;
    QObject m_here;  ///< last: nothing is heard once the rest goes
};

LedgerPanel::LedgerPanel(OpenRegister& open, Analyst& analyst, Selection& selection,
                         QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("ledger"));
    m_insides = std::make_unique<Insides>(*this, open, analyst, selection);
}

LedgerPanel::~LedgerPanel() = default;

void LedgerPanel::startFilter() {
    m_insides->startFilter();
}

}  // namespace app::desk::ledger
