#include "app/desk/preview/asked_first_list.h"

#include "app/desk/look/look.h"
#include "app/desk/preview/asked_first.h"
#include "app/report/document.h"

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

namespace app::desk::preview {

AskedFirstList::AskedFirstList(QWidget* parent) : QWidget(parent) {
    m_heading = new QLabel;
    m_heading->setFont(look::type(look::Size::Heading));
    m_heading->setWordWrap(true);
    m_list = new QListWidget;
    m_list->setObjectName(QStringLiteral("reviewerFirst"));
    m_list->setWordWrap(true);
    m_list->setSpacing(look::kGrid);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
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

    connect(m_list, &QListWidget::currentRowChanged, this, &AskedFirstList::choose);
    connect(m_acknowledge, &QPushButton::clicked, this, [this] {
        if (const auto* item = m_list->currentItem())
            Q_EMIT acknowledgeAsked(
                static_cast<std::size_t>(item->data(Qt::UserRole).toULongLong()));
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
        auto* item = new QListWidgetItem(report::shown(finding.text));
        item->setToolTip(report::shown(finding.settle));
        item->setData(Qt::UserRole, static_cast<qulonglong>(at));
        if (finding.severity == evidence::judgement::Severity::High)
            item->setForeground(look::colours().redPencil);
        m_list->addItem(item);
    }
    m_heading->setText(m_list->count() == 0
                           ? tr("Nothing that a reviewer would ask first")
                           : tr("What a reviewer will ask first (%1)").arg(m_list->count()));
}

void AskedFirstList::choose() {
    const auto* item = m_list->currentItem();
    m_acknowledge->setEnabled(item != nullptr);
    if (!item || !m_judged) return;
    const auto at = static_cast<std::size_t>(item->data(Qt::UserRole).toULongLong());
    const auto& on = m_judged->analysis.findings[at].on;
    if (!on.empty()) Q_EMIT chosen(on.front());
}

}  // namespace app::desk::preview
