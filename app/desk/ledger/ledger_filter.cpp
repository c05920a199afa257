#include "app/desk/ledger/ledger_filter.h"

#include "app/desk/ledger/ledger_model.h"
#include "app/report/figure/grade_mark.h"

#include <QRegularExpression>

#include <algorithm>
#include <optional>

namespace app::desk::ledger {

using evidence::record::Grade;

namespace {

std::optional<Grade> gradeNamed(const QString& word) {
    if (word == QLatin1String("-")) return Grade::Blank;
    for (const auto& [letter, grade] : evidence::record::Names<Grade>::all)
        if (word == report::figure::gradeLetter(grade)) return grade;
    return std::nullopt;
}

QStringList wordsOf(const QString& text) {
    static const QRegularExpression kSpace(QStringLiteral("\\s+"));
    return text.split(kSpace, Qt::SkipEmptyParts);
}

}  // namespace

LedgerQuery readQuery(const QString& text) {
    LedgerQuery query;
    for (const QString& word : wordsOf(text)) {
        if (const auto grade = gradeNamed(word))
            query.grades.push_back(*grade);
        else
            query.words << word;
    }
    return query;
}

bool matches(const LedgerQuery& query, const LedgerEntry& entry) {
    if (query.empty()) return true;
    if (entry.kind == EntryKind::Component) return false;
    if (!query.grades.empty() && std::ranges::find(query.grades, entry.grade) == query.grades.end())
        return false;
    return std::ranges::all_of(query.words, [&](const QString& word) {
        return entry.code.startsWith(word, Qt::CaseInsensitive) ||
               entry.name.contains(word, Qt::CaseInsensitive) ||
               entry.path.contains(word, Qt::CaseInsensitive) ||
               entry.value.contains(word, Qt::CaseInsensitive);
    });
}

QString withGradeToggled(const QString& text, Grade grade) {
    QStringList kept;
    bool stood = false;
    for (const QString& word : wordsOf(text)) {
        if (gradeNamed(word) == grade)
            stood = true;
        else
            kept << word;
    }
    if (!stood) kept << report::figure::gradeLetter(grade);
    return kept.join(QLatin1Char(' '));
}

LedgerFilter::LedgerFilter(QObject* parent) : QSortFilterProxyModel(parent) {
    setRecursiveFilteringEnabled(true);
}

void LedgerFilter::ask(const QString& text) {
    m_query = readQuery(text);
    invalidateFilter();
}

bool LedgerFilter::filterAcceptsRow(int row, const QModelIndex& parent) const {
    const auto* entry = LedgerModel::entryAt(sourceModel()->index(row, 0, parent));
    return entry != nullptr && matches(m_query, *entry);
}

}  // namespace app::desk::ledger
