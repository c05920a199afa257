#include "app/desk/ledger/findings_panel.h"

#include "app/desk/ledger/findings_delegate.h"
#include "app/desk/ledger/findings_model.h"
#include "app/desk/look/look.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QToolButton>
#include <QTreeView>
#include <QVBoxLayout>

#include <algorithm>

namespace app::desk::ledger {

FindingsPanel::FindingsPanel(QWidget* parent)
    : QWidget(parent),
      m_model(new FindingsModel(this)),
      m_head(new QToolButton(this)),
      m_list(new QTreeView(this)),
      m_acknowledge(new QPushButton(tr("Acknowledge …"), this)) {
    m_head->setObjectName(QStringLiteral("findingsFold"));
    m_head->setCheckable(true);
    m_head->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    m_head->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    m_head->setToolTip(tr("Shows all findings, gravest first."));
    m_list->setObjectName(QStringLiteral("findings"));
    m_list->setAccessibleName(tr("Findings"));
    m_list->setModel(m_model);
    m_list->setItemDelegate(new FindingsDelegate(m_list));
    m_list->setHeaderHidden(true);
    m_list->setRootIsDecorated(false);
    m_list->setItemsExpandable(false);
    m_list->setIndentation(0);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_acknowledge->setObjectName(QStringLiteral("acknowledge"));
    m_acknowledge->setToolTip(
        tr("Says why the finding may stand; it becomes quiet until its "
           "evidence changes."));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(look::kGrid);
    layout->addWidget(m_head);
    layout->addWidget(m_list, 1);
    auto* foot = new QHBoxLayout;
    foot->setContentsMargins(2 * look::kGrid, 0, 2 * look::kGrid, look::kGrid);
    foot->addWidget(m_acknowledge);
    foot->addStretch();
    layout->addLayout(foot);

    connect(m_head, &QToolButton::toggled, this, &FindingsPanel::fold);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            &FindingsPanel::markMoved);
    const auto choose = [this](const QModelIndex& index) {
        if (const auto finding = FindingsModel::findingAt(index)) Q_EMIT findingChosen(*finding);
    };
    connect(m_list, &QTreeView::clicked, this, choose);
    connect(m_list, &QTreeView::activated, this, choose);
    connect(m_acknowledge, &QPushButton::clicked, this, [this] {
        if (const auto finding = FindingsModel::findingAt(m_list->currentIndex()))
            Q_EMIT acknowledgeWanted(*finding);
    });
    show(nullptr);
    fold(false);
}

void FindingsPanel::show(std::shared_ptr<const Judged> judged) {
    m_model->show(std::move(judged));
    m_list->expandAll();
    m_head->setText(m_model->summary());
    markMoved();
}

void FindingsPanel::mark(const std::vector<std::size_t>& findings) {
    const auto now = FindingsModel::findingAt(m_list->currentIndex());
    if (now && std::ranges::find(findings, *now) != findings.end()) return;
    const QModelIndex first = findings.empty() ? QModelIndex() : m_model->indexOf(findings.front());
    m_list->setCurrentIndex(first);
    if (first.isValid()) m_list->scrollTo(first);
}

bool FindingsPanel::unfolded() const {
    return m_head->isChecked();
}

void FindingsPanel::fold(bool open) {
    m_head->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
    m_list->setVisible(open);
    m_acknowledge->setVisible(open);
    setMaximumHeight(open ? QWIDGETSIZE_MAX : m_head->sizeHint().height() + look::kGrid);
    Q_EMIT folded(open);
    if (open) m_list->scrollTo(m_list->currentIndex());
}

void FindingsPanel::markMoved() {
    const QModelIndex index = m_list->currentIndex();
    m_acknowledge->setEnabled(FindingsModel::findingAt(index).has_value() &&
                              !index.data(FindingsModel::QuietRole).toBool());
}

void FindingsPanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    m_list->doItemsLayout();  // sentences break anew
}

}  // namespace app::desk::ledger
