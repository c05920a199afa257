#include "app/desk/form/alternative_rows.h"

#include "app/desk/look/look.h"

#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace app::desk::form {

AlternativeRows::AlternativeRows(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("alternatives"));
    m_layout = new QVBoxLayout(this);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(look::kGrid);
    auto* another = new QPushButton(tr("Another alternative"));
    another->setObjectName(QStringLiteral("anotherAlternative"));
    another->setFlat(true);
    another->setAutoDefault(false);
    m_layout->addWidget(another, 0, Qt::AlignLeft);
    connect(another, &QPushButton::clicked, this, &AlternativeRows::addRow);
    addRow();
}

std::vector<evidence::record::Alternative> AlternativeRows::written() const {
    std::vector<evidence::record::Alternative> list;
    for (const auto& row : m_rows) {
        const auto value = row.value->text().trimmed().toStdString();
        const auto reason = row.reason->text().trimmed().toStdString();
        if (value.empty() && reason.empty()) continue;
        evidence::record::Alternative one;
        one.value = value;
        if (!reason.empty()) one.reason = reason;
        list.push_back(std::move(one));
    }
    return list;
}

void AlternativeRows::addRow() {
    const auto number = QString::number(m_rows.size());
    const Row row{new QLineEdit, new QLineEdit};
    row.value->setObjectName(QStringLiteral("alternativeValue") + number);
    row.value->setPlaceholderText(tr("Value"));
    row.reason->setObjectName(QStringLiteral("alternativeReason") + number);
    row.reason->setPlaceholderText(tr("Why not"));
    auto* line = new QHBoxLayout;
    line->setSpacing(2 * look::kGrid);
    line->addWidget(row.value, 1);
    line->addWidget(row.reason, 2);
    m_layout->insertLayout(static_cast<int>(m_rows.size()), line);
    m_rows.push_back(row);
    if (m_rows.size() == 1)
        setFocusProxy(row.value);
    else
        row.value->setFocus();
}

}  // namespace app::desk::form
