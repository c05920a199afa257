#include "app/desk/preview/asked_first_list.h"

#include "app/desk/ledger/findings_delegate.h"
#include "app/desk/ledger/findings_model.h"
#include "app/desk/look/look.h"
#include "app/desk/preview/asked_first.h"
#include "app/report/document.h"

#include <QLabel>
#include <QPushButton>
#include <QTreeWidget>
#include <QVBoxLayout>

namespace app::desk::preview {

namespace {

constexpr int kFinding = ledger::FindingsModel::FindingRole;

}  // namespace

AskedFirstList::AskedFirstList(QWidget* parent) : QWidget(parent) {
    m_heading = new QLabel;
    m_heading->setFont(look::type(look::Size::Heading));
    m_heading->setWordWrap(true);
    m_list = new QTreeWidget;
    m_list->setObjectName(QStringLiteral("reviewerFirst"));
    m_list->setHeaderHidden(true);
    m_list->setRootIsDecorated(false);
    m_list->setIndentation(0);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setItemDelegate(new ledger::FindingsDelegate(m_list));
    m_acknowledge = new QPushButton(tr("Acknowledge …"));
    m_acknowledge->setObjectName(QStringLiteral("acknowledge"));
    m_acknowledge->setToolTip(tr("Write down why the chosen finding may stand."));
    m_acknowledge->setEnabled(false);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2 * look::kGrid, look::kGrid, 2 * look::kGrid, look::kGrid);
    column->setSpacing(2 * look::kGrid);
    column->addWidget(m_heading);
    column->addWidget(m_list, 1);
    column->addWidget(m_acknowledge, 0, Qt::AlignLeft);

    connect(m_list, &QTreeWidget::currentItemChanged, this, &AskedFirstList::choose);
    connect(m_acknowledge, &QPushButton::clicked, this, [this] {
        if (const auto* item = m_list->currentItem())
            Q_EMIT acknowledgeAsked(
                static_cast<std::size_t>(item->data(0, kFinding).toULongLong()));
    });
}

void AskedFirstList::showFindings(const std::shared_ptr<const Judged>& judged,
                                  const evidence::record::ReportFilter& filter) {
    m_judged = judged;
    const QSignalBlocker quiet(m_list);
    m_list->clear();
    m_acknowledge->setEnabled(false);
    for (const auto at : askedFirst(*judged, filter)) {
        const auto& finding = judged->analysis.findings[at];
        auto* item = new QTreeWidgetItem(m_list, {report::shown(finding.text)});
        item->setData(0, kFinding, static_cast<qulonglong>(at));
        item->setData(0, ledger::FindingsModel::SettleRole, report::shown(finding.settle));
        item->setData(0, ledger::FindingsModel::AttentionRole,
                      finding.severity == evidence::judgement::Severity::High);
    }
    m_heading->setText(
        m_list->topLevelItemCount() == 0
            ? tr("Nothing that a reviewer would ask first")
            : tr("What a reviewer will ask first (%1)").arg(m_list->topLevelItemCount()));
}

void AskedFirstList::choose() {
    const auto* item = m_list->currentItem();
    m_acknowledge->setEnabled(item != nullptr);
    if (!item || !m_judged) return;
    const auto at = static_cast<std::size_t>(item->data(0, kFinding).toULongLong());
    const auto& on = m_judged->analysis.findings[at].on;
    if (!on.empty()) Q_EMIT chosen(on.front());
}

void AskedFirstList::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    m_list->doItemsLayout();  // sentences wrap anew
}

}  // namespace app::desk::preview
