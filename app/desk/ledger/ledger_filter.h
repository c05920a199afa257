#pragma once

#include "app/desk/ledger/ledger_entry.h"

#include <QSortFilterProxyModel>
#include <QStringList>

#include <vector>

namespace app::desk::ledger {

/// What was asked of the ledger: a single capital H F T B C O or – is a grade, everything else a
/// word of a name, a component, a value or the beginning of a code. All words must be met, and one
/// of the grades.
struct LedgerQuery {
    QStringList words;
    std::vector<evidence::record::Grade> grades;

    [[nodiscard]] bool empty() const { return words.isEmpty() && grades.empty(); }
};

[[nodiscard]] LedgerQuery readQuery(const QString& text);
/// Components match nothing themselves: they are there for what is in them.
[[nodiscard]] bool matches(const LedgerQuery& query, const LedgerEntry& entry);
/// `text` with the grade added or, where it stands there already, taken out.
[[nodiscard]] QString withGradeToggled(const QString& text, evidence::record::Grade grade);

/// Shows the lines that were asked for, each under its components.
class LedgerFilter : public QSortFilterProxyModel {
    Q_OBJECT

  public:
    explicit LedgerFilter(QObject* parent = nullptr);

    void ask(const QString& text);
    [[nodiscard]] bool asksNothing() const { return m_query.empty(); }

  protected:
    [[nodiscard]] bool filterAcceptsRow(int row, const QModelIndex& parent) const override;

  private:
    LedgerQuery m_query;
};

}  // namespace app::desk::ledger
