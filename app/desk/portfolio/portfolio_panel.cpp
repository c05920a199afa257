#include "app/desk/portfolio/portfolio_panel.h"

#include "app/desk/form/refusal_sentence.h"
#include "app/desk/open_register.h"
#include "app/desk/portfolio/card_delegate.h"
#include "app/desk/portfolio/portfolio_model.h"
#include "app/desk/selection.h"
#include "evidence-core/record/lookup.h"

#include <QDragEnterEvent>
#include <QDropEvent>
#include <QLabel>
#include <QListView>
#include <QMimeData>
#include <QStackedLayout>
#include <QUrl>
#include <QVBoxLayout>

namespace app::desk::portfolio {

namespace record = evidence::record;

namespace {

std::vector<std::filesystem::path> filesOf(const QMimeData& dropped) {
    std::vector<std::filesystem::path> files;
    for (const QUrl& url : dropped.urls())
        if (url.isLocalFile()) files.emplace_back(url.toLocalFile().toStdString());
    return files;
}

}  // namespace

class PortfolioPanel::Insides : public QObject {
  public:
    Insides(PortfolioPanel& panel, OpenRegister& open, Selection& selection)
        : m_panel(panel),
          m_open(open),
          m_selection(selection),
          m_thumbnails([this](const record::FileId& file) { return sheetOf(file); }),
          m_model(m_thumbnails),
          m_list(new QListView(&panel)),
          m_first(new QLabel(tr("Drop drawings, photographs and texts here: each becomes a source "
                                "of the register, and its bytes are kept unaltered."),
                             &panel)) {
        m_list->setObjectName(QStringLiteral("portfolio"));
        m_list->setAccessibleName(tr("Portfolio of sources"));
        m_list->setModel(&m_model);
        m_list->setItemDelegate(new CardDelegate(m_list));
        m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
        m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
        m_list->setUniformItemSizes(false);
        m_list->setResizeMode(QListView::Adjust);
        m_list->setEditTriggers(QAbstractItemView::NoEditTriggers);
        m_first->setObjectName(QStringLiteral("portfolioFirst"));
        m_first->setProperty("pencil", QStringLiteral("graphite"));
        m_first->setWordWrap(true);
        m_first->setAlignment(Qt::AlignCenter);
        m_first->setMargin(24);

        m_stack = new QStackedLayout(&panel);
        m_stack->addWidget(m_first);
        m_stack->addWidget(m_list);
        panel.setFocusProxy(m_list);

        connect(&open, &OpenRegister::changed, this, [this] { refresh(); });
        connect(&selection, &Selection::changed, this, [this] { follow(); });
        connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
                [this](const QModelIndex& current) { choose(current); });
        connect(m_list, &QListView::clicked, this, [this](const QModelIndex& at) { choose(at); });
        refresh();
    }

    void takeIn(const std::vector<std::filesystem::path>& files) {
        const std::size_t before = m_open.snapshot()->reg.sources.size();
        const auto outcome = m_open.takeIn(files);
        if (!outcome) {
            Q_EMIT m_panel.said(form::refusalSentence(outcome.error()));
            return;
        }
        const auto held = m_open.snapshot();
        const std::size_t taken = held->reg.sources.size() - before;
        if (taken == 0) {
            Q_EMIT m_panel.said(tr("These files are in the register already."));
            return;
        }
        Q_EMIT m_panel.said(taken == 1 ? tr("1 source was taken in.")
                                       : tr("%1 sources were taken in.").arg(taken));
        m_selection.choose(record::any(held->reg.sources[before].id));
    }

  private:
    [[nodiscard]] page::SheetToRead sheetOf(const record::FileId& file) const {
        const auto held = m_open.snapshot();
        const auto* known = record::find(held->reg, file);
        return known ? page::sheetToRead(m_open, *known, 1) : page::SheetToRead{};
    }

    void refresh() {
        m_following = true;
        m_model.setRows(rowsOf(m_open.snapshot()->reg, m_open.timeNow()));
        m_following = false;
        m_stack->setCurrentWidget(m_model.rowCount() == 0 ? static_cast<QWidget*>(m_first)
                                                          : m_list);
        follow();
    }

    void follow() {
        QModelIndex wanted = m_model.indexOf(record::any(m_selection.now().source));
        if (!wanted.isValid()) wanted = m_model.indexOf(m_selection.now().record);
        m_following = true;
        m_list->setCurrentIndex(wanted);
        m_following = false;
        if (wanted.isValid()) m_list->scrollTo(wanted);
    }

    void choose(const QModelIndex& index) {
        if (m_following || !index.isValid() || m_model.row(index).record.empty()) return;
        m_selection.choose(m_model.row(index).record);
    }

    PortfolioPanel& m_panel;
    OpenRegister& m_open;
    Selection& m_selection;
    Thumbnails m_thumbnails;
    PortfolioModel m_model;
    QListView* m_list;
    QLabel* m_first;
    QStackedLayout* m_stack = nullptr;
    bool m_following = false;  ///< the row moves with the selection, not the other way round
};

PortfolioPanel::PortfolioPanel(OpenRegister& open, Selection& selection, QWidget* parent)
    : QWidget(parent), m_insides(std::make_unique<Insides>(*this, open, selection)) {
    setObjectName(QStringLiteral("portfolioPanel"));
    setAcceptDrops(true);
}

PortfolioPanel::~PortfolioPanel() = default;

void PortfolioPanel::dragEnterEvent(QDragEnterEvent* event) {
    if (!filesOf(*event->mimeData()).empty()) event->acceptProposedAction();
}

void PortfolioPanel::dropEvent(QDropEvent* event) {
    const auto files = filesOf(*event->mimeData());
    if (files.empty()) return;
    event->setDropAction(Qt::CopyAction);  // what was given stays where it is
    event->accept();
    m_insides->takeIn(files);
}

}  // namespace app::desk::portfolio
