#include "app/report/sections.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

void writeSubject(Writing& writing) {
    Document& document = writing.document;
    const ArchiveInfo& archive = writing.index.reg.archive;
    document.heading(1, QStringLiteral("The object and the purpose"), QStringLiteral("subject"));
    const Statement statement = archive.statement.value_or(Statement{});
    const auto say = [&](const char* label, const std::optional<std::string>& words,
                         const char* missing) {
        document.paragraph(Text(label), ParagraphStyle::Label);
        if (words)
            document.paragraph(Text(shown(*words)));
        else
            document.paragraph(Text().add(QString::fromUtf8(missing), Tone::Faint));
    };
    say("Purpose", statement.purpose, "The register states no purpose.");
    say("Significance: why this is worth rebuilding", statement.significance,
        "The register states no significance.");
    say("What survives of the original", statement.survives,
        "The register does not say what survives.");
    if (!writing.index.reg.states.empty()) {
        document.paragraph(Text("States of the original, in the order of time"),
                           ParagraphStyle::Label);
        List states;
        for (const State& state : writing.index.reg.states)
            states.items.emplace_back(stateWords(state));
        document.add(std::move(states));
    }
    std::vector<const Source*> parts;
    for (const Source& source : writing.index.reg.sources)
        if (source.kind == SourceKind::Part) parts.push_back(&source);
    if (parts.empty()) return;
    document.paragraph(Text("Surviving parts"), ParagraphStyle::Label);
    Table table;
    table.columns = {{QStringLiteral("Part"), 2.4, Align::Left},
                     {QStringLiteral("Condition"), 2, Align::Left},
                     {QStringLiteral("Where it is"), 1.6, Align::Left},
                     {QStringLiteral("How it is kept"), 1.6, Align::Left}};
    for (const Source* part : parts)
        table.rows.push_back({{sourceWords(writing.index, *part), Text(shown(part->condition)),
                               Text(shown(part->location)), Text(shown(part->keptHow))},
                              {},
                              false});
    document.add(withoutEmptyColumns(table));
}

}  // namespace app::report
