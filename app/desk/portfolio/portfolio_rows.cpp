#include "app/desk/portfolio/portfolio_rows.h"

#include "app/report/wording.h"
#include "evidence-core/network/origin.h"
#include "evidence-core/quantity/edtf.h"
#include "evidence-core/record/lookup.h"

#include <QObject>

#include <algorithm>
#include <map>
#include <utility>

namespace app::desk::portfolio {

namespace record = evidence::record;

namespace {

QString text(const std::string& words) {
    return QString::fromStdString(words);
}

QString text(const std::optional<std::string>& words) {
    return words ? text(*words) : QString();
}

QString joined(const QStringList& parts) {
    QStringList said;
    for (const QString& part : parts)
        if (!part.isEmpty()) said << part;
    return said.join(QStringLiteral(", "));
}

QString sentence(QString words) {
    if (!words.isEmpty()) words[0] = words[0].toUpper();
    return words;
}

/// A letter is late once every day that its date can mean has passed.
bool isPast(const std::string& date, const std::string& today) {
    const auto due = evidence::quantity::parseEdtf(date);
    const auto now = evidence::quantity::parseEdtf(today);
    return due && now && due->latest && now->earliest && *due->latest < *now->earliest;
}

Row letterOf(const record::Enquiry& enquiry, const std::string& today) {
    Row row;
    row.kind = Row::Kind::Letter;
    row.record = record::any(enquiry.id);
    row.title = text(enquiry.asked);
    row.facts << joined(
        {QObject::tr("asked on %1").arg(report::dateWords(enquiry.on)), text(enquiry.reference)});
    if (enquiry.due) {
        const QString due = report::dateWords(*enquiry.due);
        if (isPast(*enquiry.due, today))
            row.attention = QObject::tr("the answer was due on %1").arg(due);
        else
            row.facts << QObject::tr("answer due on %1").arg(due);
    }
    return row;
}

/// What the source was made from: "tracing of S1".
QString descentOf(const record::Source& source, const record::Register& reg) {
    QStringList said;
    for (const auto& descent : source.descends) {
        const auto* parent = record::find(reg, descent.from);
        if (!parent) continue;
        said << report::descentWords(descent.as) + QLatin1Char(' ') +
                    text(parent->code.value_or(parent->title));
    }
    return said.join(QStringLiteral(", "));
}

Row cardOf(const record::Source& source, const record::Register& reg) {
    Row row;
    row.kind = Row::Kind::Card;
    row.record = record::any(source.id);
    row.title = text(source.title);
    row.code = text(source.code);
    row.mayPrint = source.mayPrint.value_or(false);
    if (!source.files.empty()) row.picture = source.files.front().id;
    const QString date = source.date ? report::dateWords(*source.date) : text(source.dateText);
    row.facts << sentence(joined({report::kindWords(source.kind), date}));
    row.facts << sentence(descentOf(source, reg));
    row.facts << joined({text(source.holder), text(source.callNumber)});
    const QString printing = source.files.empty() ? QString()
                             : row.mayPrint       ? QObject::tr("May be printed")
                                                  : QObject::tr("Not cleared for printing");
    const QString rights = text(source.rights);
    row.facts << (printing.isEmpty() || rights.isEmpty()
                      ? printing + rights
                      : QObject::tr("%1: %2").arg(printing, rights));
    if (source.setAside) row.facts << QObject::tr("set aside: %1").arg(text(*source.setAside));
    row.facts.removeAll(QString());
    return row;
}

Row heading(const QString& words) {
    Row row;
    row.title = words;
    return row;
}

void addGroup(std::vector<Row>& rows, const QString& words,
              const std::vector<const record::Source*>& sources, const record::Register& reg) {
    if (sources.empty()) return;
    rows.push_back(heading(words));
    for (const auto* source : sources) rows.push_back(cardOf(*source, reg));
}

}  // namespace

std::vector<Row> rowsOf(const record::Register& reg, const std::string& today) {
    std::vector<Row> rows;
    for (const auto& enquiry : reg.enquiries)
        if (!enquiry.answer && !enquiry.answeredOn) {
            if (rows.empty()) rows.push_back(heading(QObject::tr("Letters waiting")));
            rows.push_back(letterOf(enquiry, today));
        }

    const evidence::network::Origins origins(reg.sources);
    std::vector<std::pair<record::SourceId, std::vector<const record::Source*>>> groups;
    std::vector<const record::Source*> aside;
    for (const auto& source : reg.sources) {
        if (source.setAside) {
            aside.push_back(&source);
            continue;
        }
        const auto origin = origins.of(source.id).value_or(source.id);
        const auto found = std::ranges::find(groups, origin, [](const auto& g) { return g.first; });
        if (found == groups.end())
            groups.push_back({origin, {&source}});
        else
            found->second.push_back(&source);
    }
    std::vector<const record::Source*> alone;
    for (const auto& [origin, members] : groups) {
        if (members.size() == 1) {
            alone.push_back(members.front());
            continue;
        }
        const auto* root = record::find(reg, origin);
        addGroup(rows,
                 QObject::tr("One origin: %1").arg(root ? text(root->title) : text(origin.text)),
                 members, reg);
    }
    addGroup(rows,
             alone.size() == reg.sources.size() ? QObject::tr("Sources")
                                                : QObject::tr("Each an origin of its own"),
             alone, reg);
    addGroup(rows, QObject::tr("Set aside"), aside, reg);
    return rows;
}

}  // namespace app::desk::portfolio
