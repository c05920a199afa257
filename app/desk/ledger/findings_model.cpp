#include "app/desk/ledger/findings_model.h"

#include "app/desk/ledger/margin_notes.h"
#include "app/report/document.h"

#include <QStringList>

#include <algorithm>
#include <array>

namespace app::desk::ledger {

using evidence::judgement::Severity;

namespace {

constexpr quintptr kGathering = 0;  // internal id of a gathering; a finding's is 1 + its parent row

constexpr std::array kSeverities{Severity::High, Severity::Medium, Severity::Low, Severity::Note};

}  // namespace

void FindingsModel::show(std::shared_ptr<const Judged> judged) {
    beginResetModel();
    m_judged = std::move(judged);
    m_gatherings.clear();
    for (const Severity severity : kSeverities)
        m_gatherings.push_back({gatheringName(severity), severity, {}});
    m_gatherings.push_back({tr("Acknowledged"), std::nullopt, {}});
    if (m_judged) {
        const auto& findings = m_judged->analysis.findings;
        for (std::size_t i = 0; i < findings.size(); ++i) {
            const auto place = findings[i].acknowledged
                                   ? kSeverities.size()
                                   : static_cast<std::size_t>(findings[i].severity);
            m_gatherings[place].findings.push_back(i);
        }
    }
    std::erase_if(m_gatherings, [](const Gathering& g) { return g.findings.empty(); });
    endResetModel();
}

QModelIndex FindingsModel::indexOf(std::size_t finding) const {
    for (std::size_t g = 0; g < m_gatherings.size(); ++g) {
        const auto& list = m_gatherings[g].findings;
        const auto found = std::ranges::find(list, finding);
        if (found != list.end())
            return createIndex(static_cast<int>(found - list.begin()), 0, quintptr{g + 1});
    }
    return {};
}

std::optional<std::size_t> FindingsModel::findingAt(const QModelIndex& index) {
    const QVariant finding = index.data(FindingRole);
    if (!finding.isValid()) return std::nullopt;
    return static_cast<std::size_t>(finding.toULongLong());
}

QString FindingsModel::summary() const {
    QStringList parts;
    for (const Gathering& gathering : m_gatherings) {
        if (!gathering.severity) continue;
        const auto count = QString::number(gathering.findings.size());
        switch (*gathering.severity) {
            case Severity::High:
                parts << tr("%1 to settle first").arg(count);
                break;
            case Severity::Medium:
                parts << tr("%1 soon").arg(count);
                break;
            case Severity::Low:
                parts << tr("%1 when you can").arg(count);
                break;
            case Severity::Note:
                break;
        }
    }
    return parts.isEmpty() ? tr("Nothing to settle") : parts.join(QStringLiteral(" · "));
}

QModelIndex FindingsModel::index(int row, int column, const QModelIndex& parent) const {
    if (!hasIndex(row, column, parent)) return {};
    return createIndex(row, column,
                       parent.isValid() ? static_cast<quintptr>(parent.row() + 1) : kGathering);
}

QModelIndex FindingsModel::parent(const QModelIndex& child) const {
    if (!child.isValid() || child.internalId() == kGathering) return {};
    return createIndex(static_cast<int>(child.internalId()) - 1, 0, kGathering);
}

int FindingsModel::rowCount(const QModelIndex& parent) const {
    if (!parent.isValid()) return static_cast<int>(m_gatherings.size());
    if (parent.internalId() != kGathering || parent.column() > 0) return 0;
    return static_cast<int>(m_gatherings[static_cast<std::size_t>(parent.row())].findings.size());
}

int FindingsModel::columnCount(const QModelIndex&) const {
    return 1;
}

QVariant FindingsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    if (index.internalId() == kGathering) {
        const auto& gathering = m_gatherings[static_cast<std::size_t>(index.row())];
        if (role == Qt::DisplayRole)
            return QStringLiteral("%1 (%2)").arg(gathering.name).arg(gathering.findings.size());
        if (role == AttentionRole) return gathering.severity == Severity::High;
        return {};
    }
    const auto& gathering = m_gatherings[index.internalId() - 1];
    const std::size_t i = gathering.findings[static_cast<std::size_t>(index.row())];
    const auto& finding = m_judged->analysis.findings[i];
    switch (role) {
        case Qt::DisplayRole:
            return report::shown(finding.text);
        case FindingRole:
            return QVariant::fromValue<qulonglong>(i);
        case SettleRole:
            return report::shown(finding.settle);
        case AttentionRole:
            return !finding.acknowledged && finding.severity == Severity::High;
        case QuietRole:
            return finding.acknowledged;
        default:
            return {};
    }
}

}  // namespace app::desk::ledger
