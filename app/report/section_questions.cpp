#include "app/report/sections.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

namespace {

void writeEnquiries(Writing& writing) {
    Document& document = writing.document;
    document.heading(2, QStringLiteral("Enquiries and searches"), QStringLiteral("enquiries"));
    const auto& enquiries = writing.index.reg.enquiries;
    if (enquiries.empty()) {
        document.paragraph(
            Text("No enquiry is on record. Where nothing was asked, nothing can be "
                 "said about what else may survive."));
        return;
    }
    document.paragraph(
        Text("Letters and searches for evidence, with what came of them. That nothing was found is "
             "an answer too, and stays on record."));
    Table table;
    table.columns = {{QStringLiteral("Asked"), 1.7, Align::Left},
                     {QStringLiteral("By, on"), 1.1, Align::Left},
                     {QStringLiteral("What was asked"), 2.5, Align::Left},
                     {QStringLiteral("Answer"), 2.3, Align::Left},
                     {QStringLiteral("Sources that came"), 1.3, Align::Left}};
    for (const Enquiry& e : enquiries) {
        Text asked(shown(e.asked));
        if (e.reference) asked.add(QStringLiteral("\n") + shown(*e.reference), Tone::Faint);
        Text answer;
        if (e.answer)
            answer.add(shown(*e.answer));
        else
            answer.add(QStringLiteral("no answer yet"), Tone::Red);
        if (e.answeredOn)
            answer.add(QStringLiteral(" (") + dateWords(*e.answeredOn) + u')', Tone::Faint);
        if (!e.answer && e.due)
            answer.add(QStringLiteral(", due ") + dateWords(*e.due), Tone::Faint);
        Text sources;
        for (const SourceId& id : e.sources) {
            if (!sources.empty()) sources.add(QStringLiteral(", "));
            sources.link(writing.index.code(id.text), writing.index.anchor(id.text));
        }
        if (sources.empty()) sources.add(QStringLiteral("none"), Tone::Faint);
        Row row;
        row.anchor = writing.index.anchor(e.id.text);
        row.cells = {
            asked,
            Text(writing.index.personName(e.by.text) + QStringLiteral(", ") + dateWords(e.on)),
            Text(shown(e.text)), answer, sources};
        table.rows.push_back(std::move(row));
    }
    document.add(std::move(table));
}

void writeQueries(Writing& writing) {
    Document& document = writing.document;
    const RegisterIndex& index = writing.index;
    document.heading(2, QStringLiteral("Reviewers’ queries"), QStringLiteral("queries"));
    bool any = false;
    for (const Query& q : index.reg.queries) {
        if (!writing.selection.everything && !writing.selection.holds(q.on.text)) continue;
        any = true;
        Text head;
        head.bold(index.code(q.id.text)).add(QStringLiteral(" on "));
        head.link(index.label(q.on.text), index.anchor(q.on.text));
        head.add(QStringLiteral(", ") + index.personName(q.by.text));
        if (q.at) head.add(QStringLiteral(", ") + dateWords(*q.at));
        const QueryState state = q.state.value_or(QueryState::Open);
        head.add(QStringLiteral(": "));
        head.bold(queryStateWords(state), state == QueryState::Open ? Tone::Red : Tone::Ink);
        document.add(Paragraph{head, ParagraphStyle::Body, index.anchor(q.id.text)});
        document.paragraph(Text(shown(q.text)), ParagraphStyle::Quote);
        for (const Answer& a : q.answers) {
            Text answer;
            answer.bold(QStringLiteral("Answer, ") + index.personName(a.by.text));
            if (a.at) answer.add(QStringLiteral(", ") + dateWords(*a.at));
            answer.add(QStringLiteral(": ") + shown(a.text));
            document.paragraph(answer, ParagraphStyle::Quote);
        }
        if (q.answers.empty())
            document.paragraph(Text().add(QStringLiteral("Not answered yet."), Tone::Red),
                               ParagraphStyle::Quote);
    }
    if (!any) document.paragraph(Text("No query is on record."));
}

}  // namespace

void writeQuestions(Writing& writing) {
    writing.document.heading(1, QStringLiteral("What was asked, and how it was answered"),
                             QStringLiteral("questions"));
    writeEnquiries(writing);
    writeQueries(writing);
}

}  // namespace app::report
