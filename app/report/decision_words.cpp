#include "app/report/decision_words.h"

#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;
using namespace evidence::judgement;

namespace {

QString whoWhen(const RegisterIndex& index, const std::string& person, const std::string& at) {
    return index.personName(person) + QStringLiteral(", ") + dateWords(at);
}

}  // namespace

void writeRulings(Writing& writing, const std::string& id, const Dimension* dimension) {
    const RegisterIndex& index = writing.index;
    const auto rulings = index.rulingsOf(id);
    Facts facts;
    bool current = true;
    for (const Ruling* ruling : rulings) {
        Text words;
        words.bold(writtenWords(ruling->value, ruling->unit, dimension));
        if (ruling->tolerance && dimension != nullptr)
            words.add(QStringLiteral(", ") + allowWords(*ruling->tolerance, unitOf(*dimension)));
        words.add(QStringLiteral(". ") + shown(ruling->reason));
        words.add(QStringLiteral(" (") + whoWhen(index, ruling->by.text, ruling->at) + u')',
                  Tone::Faint);
        facts.add(current ? QStringLiteral("Ruling") : QStringLiteral("Earlier ruling"), words);
        for (const Alternative& other : ruling->alternatives) {
            Text rejected(writtenWords(other.value, other.unit, dimension));
            if (other.reason) rejected.add(QStringLiteral(": ") + shown(*other.reason));
            facts.add(QStringLiteral("… considered"), rejected);
        }
        if (ruling->evidence && ruling->evidence->value && dimension != nullptr) {
            Text then(QStringLiteral("the evidence then said %1%2")
                          .arg(figureFor(*ruling->evidence->value, ruling->evidence->u.value_or(0)),
                               u' ' + unitSign(unitOf(*dimension))));
            if (ruling->evidence->grade)
                then.add(QStringLiteral(", grade ") + gradeLetter(*ruling->evidence->grade));
            facts.add(QStringLiteral("… made when"), then);
        }
        current = false;
    }
    if (rulings.empty())
        facts.add(QStringLiteral("Ruling"), Text().add(QStringLiteral("none yet"), Tone::Faint));
    writing.document.add(std::move(facts));
}

Facts departureFacts(const RegisterIndex& index, const Departure& x) {
    const Dimension* dimension = index.dimension(x.on.text);
    Facts facts;
    Text change;
    if (x.from) change.add(writtenWords(*x.from, x.unit, dimension) + QStringLiteral(" → "));
    change.bold(writtenWords(x.to, x.unit, dimension));
    facts.add(QStringLiteral("Change"), change);
    Text why(whyWords(x.why));
    why.add(QStringLiteral(": ") + shown(x.reason));
    facts.add(QStringLiteral("Why"), why);
    if (x.rule || x.authority) {
        Text rule;
        if (x.rule) rule.add(shown(*x.rule));
        if (x.authority)
            rule.add((rule.empty() ? QString() : QStringLiteral(", ")) + shown(*x.authority));
        facts.add(QStringLiteral("Rule"), rule);
    }
    if (x.effect) facts.add(QStringLiteral("Effect"), Text(shown(*x.effect)));
    if (x.reversible)
        facts.add(QStringLiteral("Can it be undone"), Text(*x.reversible ? "yes" : "no"));
    Text touches;
    for (const AnyId& id : x.affects) {
        if (!touches.empty()) touches.add(QStringLiteral(", "));
        touches.link(index.label(id.text), index.anchor(id.text));
    }
    facts.add(QStringLiteral("Also touches"), touches);
    Text approved;
    for (const Approval& a : x.approvals) {
        if (!approved.empty()) approved.add(QStringLiteral("; "));
        approved.add(QStringLiteral("%1 for %2")
                         .arg(index.personName(a.by.text), a.as == ApprovalSide::History
                                                               ? QStringLiteral("history")
                                                               : QStringLiteral("engineering")));
        if (a.at) approved.add(QStringLiteral(", ") + dateWords(*a.at));
    }
    if (approved.empty()) approved.add(QStringLiteral("by nobody yet"), Tone::Red);
    facts.add(QStringLiteral("Approved"), approved);
    if (x.by || x.at) {
        Text who;
        if (x.by) who.add(index.personName(x.by->text));
        if (x.at) who.add((who.empty() ? QString() : QStringLiteral(", ")) + dateWords(*x.at));
        facts.add(QStringLiteral("Recorded by"), who);
    }
    return facts;
}

void writeDeparturesOf(Writing& writing, const std::string& id, const Dimension* dimension) {
    const RegisterIndex& index = writing.index;
    Facts facts;
    for (const Departure* x : RegisterIndex::on(index.reg.departures, id)) {
        Text words;
        words.bold(QStringLiteral("the build has ") + writtenWords(x->to, x->unit, dimension));
        words.add(QStringLiteral(" for ") + whyWords(x->why) + QStringLiteral(": ") +
                  shown(x->reason) + u' ');
        words.link(QStringLiteral("(") + index.code(x->id.text) + u')', index.anchor(x->id.text));
        facts.add(QStringLiteral("Departure"), words);
    }
    if (!facts.rows.empty()) writing.document.add(std::move(facts));
}

void writeWhatFollowed(Writing& writing, const std::string& id, const Dimension* dimension) {
    const RegisterIndex& index = writing.index;
    Facts facts;
    for (const Slip* s : RegisterIndex::on(index.reg.slips, id)) {
        Text words(writtenWords(s->value, s->unit, dimension));
        if (s->tolerance && dimension != nullptr)
            words.add(QStringLiteral(", ") + allowWords(*s->tolerance, unitOf(*dimension)));
        if (s->grade) words.add(QStringLiteral(", grade then ") + gradeLetter(*s->grade));
        if (s->note) words.add(QStringLiteral("; ") + shown(*s->note));
        words.add(QStringLiteral(" (") + whoWhen(index, s->by.text, s->at), Tone::Faint);
        if (s->allowedBy)
            words.add(QStringLiteral(", allowed by ") + index.personName(s->allowedBy->text),
                      Tone::Faint);
        words.add(QStringLiteral(")"), Tone::Faint);
        facts.add(QStringLiteral("Handed to the shop"), words);
    }
    for (const AsBuilt* a : RegisterIndex::on(index.reg.asBuilt, id)) {
        Text words(writtenWords(a->value, a->unit, dimension));
        if (a->u) words.add(QStringLiteral(", u = %1").arg(rounded(*a->u, 2)));
        if (a->note) words.add(QStringLiteral("; ") + shown(*a->note));
        words.add(QStringLiteral(" (") + whoWhen(index, a->by.text, a->at) + u')', Tone::Faint);
        facts.add(QStringLiteral("As built"), words);
    }
    for (const Lowered* l : RegisterIndex::on(index.reg.lowered, id))
        facts.add(QStringLiteral("Grade set lower"),
                  Text(QStringLiteral("to %1: %2 (%3)")
                           .arg(gradeLetter(l->grade), shown(l->reason),
                                whoWhen(index, l->by.text, l->at))));
    for (const Signoff* s : RegisterIndex::on(index.reg.signoffs, id)) {
        const bool contested = s->verdict == Verdict::Contested;
        Text words;
        words.add(contested ? QStringLiteral("contested") : QStringLiteral("seen"),
                  contested ? Tone::Red : Tone::Ink);
        words.add(QStringLiteral(" by ") + whoWhen(index, s->by.text, s->at));
        if (s->grade) words.add(QStringLiteral(", grade then ") + gradeLetter(*s->grade));
        if (s->text) words.add(QStringLiteral(": ") + shown(*s->text));
        facts.add(QStringLiteral("Sign-off"), words);
    }
    for (const Query* q : RegisterIndex::on(index.reg.queries, id)) {
        Text words;
        words.link(index.code(q->id.text), index.anchor(q->id.text));
        words.add(QStringLiteral(" “") + shown(q->text) + QStringLiteral("” ") +
                  index.personName(q->by.text));
        for (const Answer& a : q->answers)
            words.add(QStringLiteral(" — “") + shown(a.text) + QStringLiteral("” ") +
                      index.personName(a.by.text));
        const QueryState state = q->state.value_or(QueryState::Open);
        words.add(QStringLiteral(" (") + queryStateWords(state) + u')',
                  state == QueryState::Open ? Tone::Red : Tone::Faint);
        facts.add(QStringLiteral("Query"), words);
    }
    if (!facts.rows.empty()) writing.document.add(std::move(facts));
}

void writeFindingsOn(Writing& writing, const std::string& id) {
    QStringList small;
    for (const Finding* f : writing.index.findingsOn(id)) {
        // What the entry shows anyway: the echo in its table, departure and query in their lines,
        // the guess among the facts.
        if (f->kind == "echo" || f->kind == "departure" || f->kind == "open-query") continue;
        if (f->kind == "rests-on-guess" && f->severity != Severity::High) continue;
        if (f->severity == Severity::Low || f->severity == Severity::Note) {
            if (!small.contains(findingName(f->kind))) small << findingName(f->kind);
            continue;
        }
        const bool red = f->severity == Severity::High && !f->acknowledged;
        Text words;
        words.bold(findingName(f->kind) + QStringLiteral(". "), red ? Tone::Red : Tone::Ink);
        words.add(shown(f->text));
        if (!f->settle.empty()) words.add(QStringLiteral(" To settle it: ") + shown(f->settle));
        if (f->acknowledged) {
            words.add(QStringLiteral(" Acknowledged"));
            for (const Acknowledgement& a : writing.index.reg.acknowledgements)
                if (a.finding.kind == f->kind && a.finding.on == f->on)
                    words.add(QStringLiteral(" by %1: %2")
                                  .arg(writing.index.personName(a.by.text), shown(a.reason)));
            words.add(QStringLiteral("."));
        }
        writing.document.paragraph(words, ParagraphStyle::Note);
    }
    if (small.isEmpty()) return;
    Facts facts;
    facts.add(QStringLiteral("Worth knowing"), Text(small.join(QStringLiteral(" · "))));
    writing.document.add(std::move(facts));
}

}  // namespace app::report
