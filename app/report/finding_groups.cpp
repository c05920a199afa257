#include "app/report/finding_groups.h"

#include "app/report/reading_words.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace app::report {

using namespace evidence::record;
using namespace evidence::judgement;

namespace {

constexpr std::size_t kRare = 3;  // as many of a kind are told in full

using Found = std::vector<const Finding*>;

// What is the matter with all of a kind, before the table that says with which.
QString kindMeaning(const std::string& kind) {
    static const std::map<std::string, const char*> kWords{
        {"ruling-stale", "The evidence of these sizes has changed since they were ruled."},
        {"tolerance-finer", "These sizes are wanted closer than they are known."},
        {"echo",
         "These readings come from copies of a source that is read too: they are shown, and not "
         "counted twice."},
        {"default-correction",
         "The doubt of these readings is the usual one for their kind, not a measured one, and it "
         "decides the grade."},
        {"altered-part",
         "These were gauged where the part is altered, or where nobody can say that it is "
         "original."},
        {"other-state", "These readings speak of another state of the original."},
        {"beyond-reference",
         "These were measured far beyond the longest known length of their scale; a small error "
         "there grows with the distance."},
        {"long-chain", "These are many steps away from the nearest mark or text."},
        {"no-reason", "These were set without a reason."},
        {"released-early", "These went to the shop before anybody had ruled on them."}};
    const auto it = kWords.find(kind);
    return it == kWords.end() ? QString() : QString::fromUtf8(it->second);
}

// The sentences at the beginning that all of them share.
QString commonSentences(const Found& findings) {
    QString common = shown(findings.front()->settle);
    for (const Finding* f : findings) {
        const QString other = shown(f->settle);
        while (!common.isEmpty() && !other.startsWith(common)) {
            const auto end = common.lastIndexOf(QStringLiteral(". "));
            common = end < 0 ? QString() : common.left(end + 1);
        }
    }
    return common;
}

std::optional<double> number(const Finding& finding, const char* name) {
    for (const auto& [n, value] : finding.numbers)
        if (n == name) return value;
    return std::nullopt;
}

const Reading* readingAt(const RegisterIndex& index, const Finding& f, std::size_t i) {
    return i < f.on.size() ? index.reading(f.on[i].text) : nullptr;
}

Text othersWords(const RegisterIndex& index, const Finding& f) {
    Text words;
    for (std::size_t i = 1; i < f.on.size() && i < 5; ++i) {
        if (i > 1) words.add(QStringLiteral(", "));
        if (const Reading* reading = index.reading(f.on[i].text))
            words.append(readingShort(index, *reading));
        else
            words.link(index.label(f.on[i].text), index.anchor(f.on[i].text));
    }
    return words;
}

Text echoCell(const RegisterIndex& index, const Finding& f, const QString& sign) {
    Text words;
    if (const Reading* echo = readingAt(index, f, 1)) words.append(readingShort(index, *echo));
    if (const Reading* leader = readingAt(index, f, 2))
        words.add(QStringLiteral(" of ")).append(readingShort(index, *leader));
    if (const auto difference = number(f, "difference"))
        words.add(
            *difference == 0
                ? QStringLiteral(": the same")
                : QStringLiteral(": %1 %2 apart").arg(rounded(std::abs(*difference), 2), sign));
    return words;
}

Text staleCell(const RegisterIndex& index, const Finding& f, const Dimension& d) {
    const auto rulings = index.rulingsOf(d.id.text);
    Text words;
    if (!rulings.empty())
        words.add(QStringLiteral("ruled ") +
                  writtenWords(rulings.front()->value, rulings.front()->unit, &d));
    const auto then = number(f, "value_then");
    if (then)
        words.add(QStringLiteral(", when the evidence said %1 %2")
                      .arg(rounded(*then, 5), unitSign(unitOf(d))));
    return words;
}

// The readings whose doubt nobody gave.
Text defaultsCell(const RegisterIndex& index, const Dimension& d) {
    Text words;
    for (const Reading* r : index.readingsOf(d.id.text)) {
        if (r->setAside || r->u || r->halfWidth || r->roundedTo || r->basis == Basis::Limit)
            continue;
        if (!words.empty()) words.add(QStringLiteral("; "));
        words.append(readingShort(index, *r)).add(u' ' + basisWords(r->basis));
    }
    return words;
}

Text whatCell(const RegisterIndex& index, const Finding& f) {
    const Dimension* d = index.dimension(f.on.front().text);
    const QString sign = d == nullptr ? QString() : unitSign(unitOf(*d));
    if (f.kind == "echo") return echoCell(index, f, sign);
    if (d != nullptr && f.kind == "ruling-stale") return staleCell(index, f, *d);
    if (d != nullptr && f.kind == "default-correction") return defaultsCell(index, *d);
    if (f.kind == "tolerance-finer") {
        const auto wanted = number(f, "tolerance");
        const auto known = number(f, "half_width95");
        if (d != nullptr && wanted && known)
            return Text(QStringLiteral("%1, and known within ± %2 %3")
                            .arg(allowWords(*wanted, unitOf(*d)), rounded(*known, 2), sign));
    }
    return othersWords(index, f);
}

std::vector<Text> valueCells(const RegisterIndex& index, const std::string& id) {
    const QString dash = QStringLiteral("–");
    if (const Dimension* d = index.dimension(id)) {
        const auto* result = index.result(id);
        const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, *d);
        return {Text(interval ? withDoubt(*interval, customaryUnit(measureOf(d->quantity))) : dash),
                Text(result == nullptr ? dash : gradeSign(result->grade))};
    }
    if (const auto* fact = index.particularResult(id))
        return {Text(fact->value ? shown(*fact->value) : dash), Text(gradeSign(fact->grade))};
    return {Text(dash), Text(dash)};
}

Row valueRow(const RegisterIndex& index, const std::string& id, const Text& what) {
    Row row;
    row.cells.push_back(Text().link(index.label(id), index.anchor(id)));
    for (Text& cell : valueCells(index, id)) row.cells.push_back(std::move(cell));
    row.cells.push_back(what);
    return row;
}

Table valueTable(const QString& what) {
    Table table;
    table.columns = {{QStringLiteral("Size or fact"), 3, Align::Left},
                     {QStringLiteral("Value"), 1.5, Align::Left},
                     {QStringLiteral("Grade"), 0.6, Align::Left},
                     {what, 4, Align::Left}};
    return table;
}

Text witnessWords(const RegisterIndex& index, const std::string& id, const std::string& origin,
                  bool oneReading) {
    Text words;
    if (const Source* source = index.source(origin)) {
        words.link(index.code(origin), index.anchor(origin));
        if (source->callNumber) words.add(u' ' + shown(*source->callNumber));
    }
    if (!oneReading) return words;
    words.add(words.empty() ? QStringLiteral("one reading: ") : QStringLiteral(", one reading: "));
    const auto readings = index.readingsOf(id);
    if (!readings.empty()) words.add(basisWords(readings.front()->basis));
    return words;
}

void writeKind(Writing& writing, const Found& findings) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    const std::string& kind = findings.front()->kind;
    document.paragraph(Text(QStringLiteral("%1 (%2)").arg(findingName(kind)).arg(findings.size())),
                       ParagraphStyle::Label);
    QStringList lead{kindMeaning(kind)};
    const QString settle = commonSentences(findings);
    if (!settle.isEmpty()) lead << QStringLiteral("To settle them: ") + settle;
    lead.removeAll(QString());
    document.paragraph(Text(lead.join(u' ')));
    Table table = valueTable(QStringLiteral("What it is about"));
    for (const Finding* f : findings) {
        Text what = whatCell(index, *f);
        if (f->acknowledged) what.add(QStringLiteral(" (acknowledged)"), Tone::Faint);
        table.rows.push_back(valueRow(index, f->on.front().text, what));
    }
    document.add(std::move(table));
}

}  // namespace

Text findingWords(const RegisterIndex& index, const Finding& f) {
    Text words;
    words.bold(findingName(f.kind) + QStringLiteral(". "),
               f.severity == Severity::High && !f.acknowledged ? Tone::Red : Tone::Ink);
    words.add(shown(f.text));
    if (!f.settle.empty()) words.add(QStringLiteral(" To settle it: ") + shown(f.settle));
    std::size_t n = 0;
    for (const AnyId& id : f.on) {
        if (++n > 6) {
            words.add(QStringLiteral(" …"));
            break;
        }
        words.add(n == 1 ? QStringLiteral(" [") : QStringLiteral(", "));
        words.link(index.code(id.text), index.anchor(id.text));
    }
    if (n > 0) words.add(QStringLiteral("]"));
    for (const Acknowledgement& a : index.reg.acknowledgements)
        if (f.acknowledged && a.finding.kind == f.kind && a.finding.on == f.on)
            words.add(QStringLiteral(" May stand, says %1, %2: %3")
                          .arg(index.personName(a.by.text), dateWords(a.at), shown(a.reason)));
    return words;
}

void writeFindings(Writing& writing, const Found& findings) {
    std::vector<std::string> order;
    std::map<std::string, Found> byKind;
    for (const Finding* f : findings) {
        if (byKind[f->kind].empty()) order.push_back(f->kind);
        byKind[f->kind].push_back(f);
    }
    List rare;
    for (const std::string& kind : order)
        for (const Finding* f : byKind[kind])
            if (byKind[kind].size() <= kRare || f->on.empty())
                rare.items.push_back(findingWords(writing.index, *f));
    if (!rare.items.empty()) writing.document.add(std::move(rare));
    for (const std::string& kind : order) {
        Found frequent = byKind[kind];
        std::erase_if(frequent, [](const Finding* f) { return f->on.empty(); });
        if (frequent.size() > kRare) writeKind(writing, frequent);
    }
}

void writeOneWitness(Writing& writing, const Found& findings) {
    const RegisterIndex& index = writing.index;
    if (findings.empty()) return;
    std::set<std::string> oneReading;
    std::map<std::string, std::string> originOf;
    std::vector<std::string> ids;  // in the order of the findings
    for (const Finding* f : findings) {
        if (f->on.empty()) continue;
        const std::string& id = f->on.front().text;
        if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
        if (f->kind == "single-reading") oneReading.insert(id);
        if (f->kind == "single-origin" && f->on.size() > 1) originOf[id] = f->on[1].text;
    }
    // By witness, in the register's order; those that nobody witnesses last.
    const auto place = [&](const std::string& id) {
        const auto& sources = index.reg.sources;
        return std::find_if(sources.begin(), sources.end(),
                            [&](const Source& s) { return s.id.text == originOf[id]; }) -
               sources.begin();
    };
    std::stable_sort(ids.begin(), ids.end(), [&](const std::string& a, const std::string& b) {
        return place(a) < place(b);
    });
    Document& document = writing.document;
    document.heading(2, QStringLiteral("One witness only"), QStringLiteral("one-witness"));
    document.paragraph(
        Text("These stand or fall with one origin, or have one reading and nothing that would show "
             "a mistake in it. A source that does not descend from it would help most; copies and "
             "redrawings do not count."));
    Table table = valueTable(QStringLiteral("Witness"));
    for (const std::string& id : ids) {
        table.rows.push_back(
            valueRow(index, id, witnessWords(index, id, originOf[id], oneReading.contains(id))));
    }
    document.add(std::move(table));
}

}  // namespace app::report
