#include "app/report/selection.h"

#include "app/report/document.h"
#include "app/report/wording.h"

#include <algorithm>
#include <map>

namespace app::report {

using namespace evidence::record;
using evidence::Code;
using evidence::refuse;
using evidence::Result;

namespace {

bool underComponent(const std::optional<std::string>& component, const std::string& wanted) {
    if (!component) return false;
    return *component == wanted || component->starts_with(wanted + "/");
}

// The last time anything that speaks of a dimension or particular was decided or read. The
// records' own dates: the journal is not part of a snapshot.
std::string lastTouched(const RegisterIndex& index, const std::string& id) {
    std::string last;
    const auto later = [&last](const std::string& at) { last = std::max(last, at); };
    for (const Reading* r : index.readingsOf(id))
        if (r->on) later(*r->on);
    for (const Ruling* r : index.rulingsOf(id)) later(r->at);
    for (const Slip* s : RegisterIndex::on(index.reg.slips, id)) later(s->at);
    for (const AsBuilt* a : RegisterIndex::on(index.reg.asBuilt, id)) later(a->at);
    for (const Departure* d : RegisterIndex::on(index.reg.departures, id))
        if (d->at) later(*d->at);
    for (const Query* q : RegisterIndex::on(index.reg.queries, id)) {
        if (q->at) later(*q->at);
        for (const Answer& a : q->answers)
            if (a.at) later(*a.at);
    }
    for (const Signoff* s : RegisterIndex::on(index.reg.signoffs, id)) later(s->at);
    for (const Lowered* l : RegisterIndex::on(index.reg.lowered, id)) later(l->at);
    return last;
}

std::optional<std::string> sinceTime(const RegisterIndex& index, const std::string& since) {
    for (const Issued& issued : index.reg.issued)
        if (issued.id.text == since || index.code(issued.id.text).toStdString() == since)
            return issued.at;
    const bool looksLikeTime = since.size() >= 10 && since[4] == '-' && since[7] == '-';
    return looksLikeTime ? std::optional(since) : std::nullopt;
}

}  // namespace

Result<Selection> select(const RegisterIndex& index, const ReportFilter& filter) {
    Selection selection;
    QStringList words;
    selection.everything =
        !filter.on && !filter.component && !filter.grade && !filter.state && !filter.since;
    std::string onId;
    if (filter.on) {
        const QString wanted = shown(*filter.on);
        const auto named = [&](const std::string& id) {
            return id == *filter.on || index.code(id) == wanted;
        };
        for (const Dimension& d : index.reg.dimensions)
            if (named(d.id.text)) onId = d.id.text;
        for (const Particular& p : index.reg.particulars)
            if (onId.empty() && named(p.id.text)) onId = p.id.text;
        if (onId.empty())
            return refuse(Code::MissingTarget, "on",
                          "No dimension or particular is called " + *filter.on +
                              ": give its code (D12, P3) or its id.");
        words << QStringLiteral("only %1").arg(index.label(onId));
    }
    std::string stateId;
    if (filter.state) {
        for (const State& s : index.reg.states)
            if (s.id.text == *filter.state || s.label == *filter.state ||
                index.code(s.id.text).toStdString() == *filter.state)
                stateId = s.id.text;
        if (stateId.empty())
            return refuse(Code::MissingTarget, "state",
                          "No state of the original is called " + *filter.state +
                              ": give its label as it stands in the register.");
        words << QStringLiteral("state “%1”").arg(shown(index.state(stateId)->label));
    }
    std::string since;
    if (filter.since) {
        const auto time = sinceTime(index, *filter.since);
        if (!time)
            return refuse(Code::BadValue, "since",
                          "\"" + *filter.since +
                              "\" is neither a time (2026-05-01) nor an issued report (I2).");
        since = *time;
        words << QStringLiteral("touched since %1").arg(dateWords(since));
    }
    if (filter.grade) words << QStringLiteral("grade %1").arg(gradeSign(*filter.grade));
    if (filter.component) words << QStringLiteral("component %1").arg(shown(*filter.component));

    const auto fits = [&](const auto& record, Grade grade) {
        if (record.setAside) return false;
        if (!onId.empty() && record.id.text != onId) return false;
        if (filter.component && !underComponent(record.component, *filter.component)) return false;
        if (!stateId.empty() && !(record.state && record.state->text == stateId)) return false;
        if (filter.grade && grade != *filter.grade) return false;
        return since.empty() || lastTouched(index, record.id.text) >= since;
    };
    for (const Dimension& d : index.reg.dimensions) {
        const auto* result = index.result(d.id.text);
        if (fits(d, result == nullptr ? Grade::Blank : result->grade)) {
            selection.dimensions.push_back(&d);
            selection.m_ids.insert(d.id.text);
        }
    }
    for (const Particular& p : index.reg.particulars) {
        const auto* result = index.particularResult(p.id.text);
        if (fits(p, result == nullptr ? Grade::Blank : result->grade)) {
            selection.particulars.push_back(&p);
            selection.m_ids.insert(p.id.text);
        }
    }
    // "Nothing was touched since" is an answer; a component or a grade that nothing has is a slip.
    if (!selection.everything && selection.m_ids.empty() && since.empty())
        return refuse(
            Code::MissingTarget, filter.component ? "component" : "filter",
            "Nothing in the register fits: " + words.join(QStringLiteral("; ")).toStdString() +
                ". Give a component as its path in the register, such as Body/Roof, or "
                "leave a filter out.");
    selection.words = words.join(QStringLiteral("; "));
    return selection;
}

std::vector<ComponentGroup> byComponent(const Selection& selection) {
    std::vector<ComponentGroup> groups;
    std::map<QString, std::size_t> place;
    const auto groupOf = [&](const std::optional<std::string>& component) -> ComponentGroup& {
        const QString name =
            component ? shown(*component).replace(QStringLiteral("/"), QStringLiteral(" / "))
                      : QStringLiteral("Without a component");
        const auto [it, fresh] = place.emplace(name, groups.size());
        if (fresh) groups.push_back({name, {}, {}});
        return groups[it->second];
    };
    for (const Dimension* d : selection.dimensions) groupOf(d->component).dimensions.push_back(d);
    for (const Particular* p : selection.particulars)
        groupOf(p->component).particulars.push_back(p);
    return groups;
}

}  // namespace app::report
