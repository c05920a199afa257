#include "app/desk/ledger/ledger_model.h"

#include "app/desk/ledger/margin_notes.h"
#include "app/report/document.h"
#include "app/report/figure/grade_mark.h"
#include "app/report/wording.h"

#include <QStringList>

namespace app::desk::ledger {

namespace {

QString paragraph(const QString& words) {
    return QStringLiteral("<p>%1</p>").arg(words.toHtmlEscaped());
}

QString cell(const LedgerEntry& entry, int column) {
    switch (column) {
        case LedgerModel::Code:
            return entry.code;
        case LedgerModel::Name:
            return entry.name;
        case LedgerModel::Value:
            return entry.value;
        case LedgerModel::Spread:
            return entry.spread;
        case LedgerModel::Sign:
            return entry.kind == EntryKind::Component ? QString()
                                                      : report::figure::gradeLetter(entry.grade);
        case LedgerModel::Margin:
            return entry.margin.words;
        default:
            return {};
    }
}

}  // namespace

LedgerModel::LedgerModel(QObject* parent)
    : QAbstractItemModel(parent), m_root(std::make_unique<LedgerNode>()) {}

LedgerModel::~LedgerModel() = default;

void LedgerModel::show(std::shared_ptr<const Judged> judged) {
    auto root = judged ? readLedger(*judged) : std::make_unique<LedgerNode>();
    beginResetModel();
    m_judged = std::move(judged);
    m_root = std::move(root);
    endResetModel();
}

const LedgerNode& LedgerModel::nodeOf(const QModelIndex& index) const {
    return index.isValid() ? *static_cast<const LedgerNode*>(index.constInternalPointer())
                           : *m_root;
}

const LedgerEntry* LedgerModel::entryAt(const QModelIndex& index) {
    return index.data(EntryRole).value<const LedgerEntry*>();
}

QModelIndex LedgerModel::indexOf(const evidence::record::AnyId& size) const {
    if (size.empty()) return {};
    std::vector<const LedgerNode*> waiting{m_root.get()};
    while (!waiting.empty()) {
        const LedgerNode* node = waiting.back();
        waiting.pop_back();
        if (node->entry.id == size) return createIndex(node->row, 0, node);
        for (const auto& child : node->children) waiting.push_back(child.get());
    }
    return {};
}

QModelIndex LedgerModel::index(int row, int column, const QModelIndex& parent) const {
    if (!hasIndex(row, column, parent)) return {};
    return createIndex(row, column, nodeOf(parent).children[static_cast<std::size_t>(row)].get());
}

QModelIndex LedgerModel::parent(const QModelIndex& child) const {
    if (!child.isValid()) return {};
    const LedgerNode* above = nodeOf(child).parent;
    return above == nullptr || above == m_root.get() ? QModelIndex()
                                                     : createIndex(above->row, 0, above);
}

int LedgerModel::rowCount(const QModelIndex& parent) const {
    return parent.column() > 0 ? 0 : static_cast<int>(nodeOf(parent).children.size());
}

int LedgerModel::columnCount(const QModelIndex&) const {
    return ColumnCount;
}

QVariant LedgerModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const LedgerEntry& entry = nodeOf(index).entry;
    switch (role) {
        case Qt::DisplayRole:
            return cell(entry, index.column());
        case Qt::ToolTipRole:
            return tip(entry, index.column());
        case Qt::AccessibleTextRole:
            if (index.column() == Sign && entry.kind != EntryKind::Component)
                return report::figure::gradeName(entry.grade);
            return index.column() == Interval ? entry.interval : cell(entry, index.column());
        case EntryRole:
            return QVariant::fromValue(&entry);
        case KeyRole:
            return entry.kind == EntryKind::Component ? QStringLiteral("component ") + entry.path
                                                      : QString::fromStdString(entry.id.text);
        default:
            return {};
    }
}

QVariant LedgerModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue<Qt::Alignment>(
            (section == Value ? Qt::AlignHCenter : Qt::AlignLeft) | Qt::AlignVCenter);
    if (role == Qt::DisplayRole) switch (section) {
            case Code:
                return tr("Code");
            case Name:
                return tr("Part and size");
            case Value:
                return tr("Value");
            case Spread:
                return tr("± (95 %)");
            case Interval:
                return tr("Interval");
            case Sign:
                return tr("Sign");
            case Margin:
                return tr("Margin");
            default:
                return {};
        }
    if (role == Qt::ToolTipRole) switch (section) {
            case Value:
                return tr("The size of the original from all evidence together.");
            case Spread:
                return tr("Half of the 95 % interval.");
            case Interval:
                return tr(
                    "The 95 % interval about its value, and the wanted tolerance as the gap "
                    "that it must fit in.");
            case Sign:
                return tr("Grade sign: how the size is held up.");
            case Margin:
                return tr("What the evidence leaves to be settled.");
            default:
                return {};
        }
    return {};
}

QString LedgerModel::tip(const LedgerEntry& entry, int column) const {
    QStringList parts;
    const auto say = [&](const QString& words) {
        if (!words.isEmpty()) parts << paragraph(words);
    };
    switch (column) {
        case Code:
        case Name:
            say(entry.code + QLatin1Char(' ') + entry.name);
            if (entry.kind != EntryKind::Component) say(entry.path);
            say(entry.about);
            break;
        case Value:
        case Spread:
        case Interval:
            if (!entry.interval.isEmpty())
                say(tr("Between %1 with 95 % confidence.").arg(entry.interval));
            if (!entry.rounding.isEmpty()) say(tr("The fraction is %1.").arg(entry.rounding));
            if (!entry.wanted.isEmpty()) say(tr("Wanted: %1.").arg(entry.wanted));
            if (entry.kind == EntryKind::Particular) say(entry.value);
            break;
        case Sign:
            if (entry.kind == EntryKind::Component) break;
            say(QStringLiteral("%1, %2").arg(report::figure::gradeLetter(entry.grade),
                                             report::figure::gradeName(entry.grade)));
            say(report::figure::gradeMeaning(entry.grade));
            say(entry.gradeWhy);
            if (entry.restsOnGuess)
                say(tr("It rests on a guess: without our guesses it cannot be worked out."));
            break;
        case Margin:
            return notesTip(entry);
        default:
            break;
    }
    return parts.join(QString());
}

QString LedgerModel::notesTip(const LedgerEntry& entry) const {
    constexpr std::size_t kMost = 6;
    QStringList parts;
    if (!entry.caution.isEmpty())
        parts << paragraph(entry.caution) << paragraph(report::cautionWords());
    for (std::size_t i = 0; i < entry.notes.size() && i < kMost; ++i) {
        const auto& finding = m_judged->analysis.findings[entry.notes[i]];
        QString words = report::shown(finding.text).toHtmlEscaped();
        if (finding.acknowledged) words += QLatin1Char(' ') + tr("(acknowledged)");
        if (!finding.settle.empty())
            words +=
                QStringLiteral("<br><i>%1</i>")
                    .arg(tr("To settle it: %1").arg(report::shown(finding.settle).toHtmlEscaped()));
        parts << QStringLiteral("<p>%1</p>").arg(words);
    }
    if (entry.notes.size() > kMost)
        parts << paragraph(tr("And %1 more in the list below.").arg(entry.notes.size() - kMost));
    return parts.join(QString());
}

}  // namespace app::desk::ledger
