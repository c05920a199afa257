#include "app/desk/form/row_completer.h"

#include "app/report/document.h"
#include "app/session/table_offer.h"

#include <QCompleter>
#include <QLineEdit>

namespace app::desk::form {

void completeWithRows(QLineEdit* line, const evidence::record::Register& reg,
                      const std::vector<evidence::record::TableRowKind>& kinds) {
    const evidence::trade::Tables tables(reg);
    QStringList words;
    for (const auto& offer : session::offers(tables, reg, {}, kinds))
        words << report::shown(session::pickedWords(*tables.find(offer.row)));
    auto* completer = new QCompleter(words, line);
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    line->setCompleter(completer);
}

}  // namespace app::desk::form
