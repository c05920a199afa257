#include "app/report/reading_words.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeSetAside(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.heading(1, QStringLiteral("What was set aside, and why"), QStringLiteral("set-aside"));
    document.paragraph(
        Text("Nothing that was evidence is deleted. What is set aside no longer counts, and stays "
             "here with its reason."));
    Table table;
    table.columns = {{QStringLiteral("What"), 3.4, Align::Left},
                     {QStringLiteral("It said"), 2, Align::Left},
                     {QStringLiteral("Why it was set aside"), 4, Align::Left}};
    const auto add = [&](const Text& what, const QString& said, const std::string& why) {
        table.rows.push_back({{what, Text(said), Text(shown(why))}, {}, false});
    };
    const bool everything = writing.selection.everything;
    if (everything) {
        for (const Source& s : index.reg.sources)
            if (s.setAside) add(sourceWords(index, s), QStringLiteral("source"), *s.setAside);
        for (const Frame& f : index.reg.frames) {
            if (f.setAside) add(Text(index.label(f.id.text)), QStringLiteral("scale"), *f.setAside);
            for (std::size_t i = 0; i < f.references.size(); ++i)
                if (f.references[i].setAside)
                    add(Text(index.label(f.id.text + "/" + std::to_string(i))),
                        QStringLiteral("known length"), *f.references[i].setAside);
        }
        for (const Mark& m : index.reg.marks)
            if (m.setAside) add(Text(index.label(m.id.text)), QStringLiteral("mark"), *m.setAside);
        for (const Relation& l : index.reg.relations)
            if (l.setAside)
                add(Text(index.code(l.id.text) + QStringLiteral("  ") +
                         formulaWords(index, l.formula)),
                    QStringLiteral("relation"), *l.setAside);
        for (const SharedError& e : index.reg.sharedErrors)
            if (e.setAside) add(Text(shown(e.label)), QStringLiteral("shared error"), *e.setAside);
        for (const Dimension& d : index.reg.dimensions)
            if (d.setAside)
                add(Text(index.label(d.id.text)), QStringLiteral("dimension"), *d.setAside);
        for (const Particular& p : index.reg.particulars)
            if (p.setAside)
                add(Text(index.label(p.id.text)), QStringLiteral("particular"), *p.setAside);
    }
    for (const Reading& r : index.reg.readings) {
        if (!r.setAside || (!everything && !writing.selection.holds(r.of.text))) continue;
        Text what = readingTitle(index, r);
        what.add(QStringLiteral(", of "));
        what.link(index.label(r.of.text), index.anchor(r.of.text));
        add(what, r.value ? writtenWords(*r.value, r.unit, index.dimension(r.of.text)) : QString(),
            *r.setAside);
    }
    if (table.rows.empty())
        document.paragraph(Text("Nothing was set aside."));
    else
        document.add(std::move(table));
}

}  // namespace app::report
