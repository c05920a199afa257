#pragma once

#include "app/desk/analyst.h"
#include "app/report/figure/interval_figure.h"
#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <QMetaType>
#include <QString>

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

namespace app::desk::ledger {

enum class EntryKind { Component, Dimension, Particular };

/// What stands in the margin beside a value, in as many words as fit.
struct Margin {
    QString words;
    int more = 0;            ///< open notes that are not in the words
    bool attention = false;  ///< to settle first or soon: red pencil; else graphite
};

/// One line of the ledger, ready to be shown. Figures are set as type.
struct LedgerEntry {
    EntryKind kind = EntryKind::Component;
    evidence::record::AnyId id;  ///< empty for a component
    QString code;
    QString name;
    QString path;   ///< of its component; of a component its own: "Body/Roof"
    QString about;  ///< what else its record says of itself
    QString value;
    QString spread;    ///< half the 95 % interval, with its unit
    QString rounding;  ///< how far a fraction was rounded
    QString interval;  ///< from … to, 95 %
    QString wanted;    ///< "allow ± 1⁄16″"
    evidence::record::Grade grade = evidence::record::Grade::Blank;
    QString gradeWhy;
    std::optional<report::figure::IntervalRow> bar;
    std::optional<double> tolerance;
    bool restsOnGuess = false;
    bool setAside = false;
    QString caution;  ///< a safety-critical size on a guess or in conflict: what, in words
    Margin margin;
    std::vector<std::size_t> notes;  ///< findings: open ones, graver first, then acknowledged
};

/// A component with its sizes, particulars and components; or one of them. The root has no name.
struct LedgerNode {
    LedgerEntry entry;
    LedgerNode* parent = nullptr;
    int row = 0;
    std::vector<std::unique_ptr<LedgerNode>> children;
};

/// The whole ledger: sizes by their codes, each under the components of its path.
[[nodiscard]] std::unique_ptr<LedgerNode> readLedger(const Judged& judged);

}  // namespace app::desk::ledger

Q_DECLARE_METATYPE(const app::desk::ledger::LedgerEntry*)
