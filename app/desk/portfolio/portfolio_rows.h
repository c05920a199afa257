#pragma once

#include "evidence-core/record/people.h"
#include "evidence-core/record/register.h"

#include <QString>
#include <QStringList>

#include <string>
#include <vector>

namespace app::desk::portfolio {

/// One line of the portfolio.
struct Row {
    enum class Kind { Heading, Letter, Card };

    Kind kind = Kind::Heading;
    QString title;      ///< the heading; whom was asked; the source's title
    QString code;       ///< of the source
    QStringList facts;  ///< what it is, where it is kept, what it was made from; when it was asked
    bool mayPrint = false;           ///< of a source: its picture may stand in a report
    QString attention;               ///< what has to be seen to, such as an answer that is overdue
    evidence::record::AnyId record;  ///< enquiry or source
    evidence::record::FileId picture;  ///< the first file of the source

    friend bool operator==(const Row&, const Row&) = default;
};

/// The portfolio of a register: letters without an answer first, then sources by origin. Sources
/// that share one stand together under it, those that stand alone under one heading of their own,
/// those set aside last. `today`: RFC 3339.
[[nodiscard]] std::vector<Row> rowsOf(const evidence::record::Register& reg,
                                      const std::string& today);

}  // namespace app::desk::portfolio
