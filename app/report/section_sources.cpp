#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <set>

namespace app::report {

using namespace evidence::record;

namespace {

// Sources that the records shown rest on: their readings', the known lengths of their scales, and
// all of one family. With everything shown, every source.
std::set<std::string> sourcesShown(const Writing& writing) {
    const RegisterIndex& index = writing.index;
    std::set<std::string> ids;
    if (writing.selection.everything) {
        for (const Source& s : index.reg.sources) ids.insert(s.id.text);
        return ids;
    }
    std::set<int> groups;
    const auto take = [&](const Source* source) {
        if (source != nullptr) groups.insert(index.originGroup(source->id.text));
    };
    for (const Reading& r : index.reg.readings) {
        if (!writing.selection.holds(r.of.text)) continue;
        take(index.sourceOfReading(r));
        for (const Correction& c : r.corrections)
            if (c.source) take(index.source(c.source->text));
        if (!r.frame) continue;
        const Frame* frame = index.frame(r.frame->text);
        if (frame == nullptr) continue;
        take(index.sourceOfFile(frame->file.text));
        for (const Reference& reference : frame->references)
            if (reference.length.source) take(index.source(reference.length.source->text));
        for (const KnownPoint& point : frame->points)
            if (point.source) take(index.source(point.source->text));
    }
    for (const Source& s : index.reg.sources)
        if (groups.contains(index.originGroup(s.id.text))) ids.insert(s.id.text);
    return ids;
}

Text familyWords(const RegisterIndex& index, const Source& source) {
    Text words;
    for (const Descent& descent : source.descends) {
        if (!words.empty()) words.add(QStringLiteral("; "));
        words.add(descentWords(descent.as) + u' ');
        words.link(index.code(descent.from.text), index.anchor(descent.from.text));
        if (descent.reason) words.add(QStringLiteral(" (") + shown(*descent.reason) + u')');
    }
    if (source.replaces) {
        if (!words.empty()) words.add(QStringLiteral("; "));
        words.add(QStringLiteral("replaces "));
        words.link(index.code(source.replaces->text), index.anchor(source.replaces->text));
    }
    if (source.hadOurData.value_or(false)) {
        if (!words.empty()) words.add(QStringLiteral("; "));
        words.add(QStringLiteral("had our own figures: not independent of us"), Tone::Red);
    }
    return words;
}

Text fileWords(const Writing& writing, const File& file) {
    Text words;
    words.add(file.originalName ? shown(*file.originalName) : shown(file.path));
    QStringList about;
    if (file.mediaType) about << shown(*file.mediaType);
    if (file.bytes)
        about << QStringLiteral("%1 bytes").arg(QString::number(qlonglong(*file.bytes)));
    if (file.pages && *file.pages > 1)
        about << QStringLiteral("%1 pages").arg(QString::number(*file.pages));
    if (!about.isEmpty())
        words.add(QStringLiteral(" (") + about.join(QStringLiteral(", ")) + u')', Tone::Faint);
    for (const auto* finding : writing.index.findingsOn(file.id.text))
        words.add(QStringLiteral(" ") + shown(finding->text), Tone::Red);
    words.add(QStringLiteral("\nSHA-256 "))
        .digest(file.sha256 ? shown(*file.sha256) : QStringLiteral("not known"));
    return words;
}

void writeSource(Writing& writing, const Source& source) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.blocks.emplace_back(
        Heading{3,
                index.code(source.id.text) + QStringLiteral("  ") + shown(source.title),
                index.anchor(source.id.text),
                {},
                Text(kindWords(source.kind) +
                     QStringLiteral(", origin %1").arg(index.originGroup(source.id.text))),
                false});
    Facts facts;
    Text judged(authorityWords(source.authority.value_or(Authority::Modern)));
    judged.add(QStringLiteral("; ") + standingWords(source.standing.value_or(Standing::Unknown)));
    if (source.firstHand && !*source.firstHand) judged.add(QStringLiteral("; not at first hand"));
    if (source.mirrored.value_or(false)) judged.add(QStringLiteral("; mirrored"));
    facts.add(QStringLiteral("Judged as"), judged);
    if (source.creator) facts.add(QStringLiteral("By"), Text(shown(*source.creator)));
    Text date;
    if (source.date) date.add(dateWords(*source.date));
    if (source.dateText)
        date.add(QStringLiteral(" (on it: “") + shown(*source.dateText) + QStringLiteral("”)"));
    facts.add(QStringLiteral("Date"), date);
    Text held;
    if (source.holder) held.add(shown(*source.holder));
    if (source.callNumber)
        held.add((held.empty() ? QString() : QStringLiteral(", ")) + shown(*source.callNumber));
    facts.add(QStringLiteral("Held by"), held);
    Text rights;
    if (source.rights) rights.add(shown(*source.rights) + QStringLiteral("; "));
    rights.add(source.mayPrint.value_or(false)
                   ? QStringLiteral("may be printed in a report")
                   : QStringLiteral("not cleared for printing: outlines only"));
    facts.add(QStringLiteral("Rights"), rights);
    Text medium;
    if (source.medium) medium.add(shown(*source.medium));
    if (source.originalSize)
        medium.add(
            (medium.empty() ? QString() : QStringLiteral(", ")) +
            QStringLiteral("%1 × %2 in")
                .arg(rounded((*source.originalSize)[0], 4), rounded((*source.originalSize)[1], 4)));
    facts.add(QStringLiteral("Medium"), medium);
    if (source.condition) facts.add(QStringLiteral("Condition"), Text(shown(*source.condition)));
    Text states;
    for (const StateId& id : source.states)
        if (const State* state = index.state(id.text))
            states.add((states.empty() ? QString() : QStringLiteral(", ")) + shown(state->label));
    facts.add(QStringLiteral("Shows the state"), states);
    facts.add(QStringLiteral("Family"), familyWords(index, source));
    if (source.notes) facts.add(QStringLiteral("Notes"), Text(shown(*source.notes)));
    if (source.setAside)
        facts.add(QStringLiteral("Set aside"), Text().add(shown(*source.setAside), Tone::Red));
    for (const File& file : source.files)
        facts.add(QStringLiteral("File"), fileWords(writing, file));
    if (source.files.empty())
        facts.add(QStringLiteral("File"),
                  Text().add(QStringLiteral("no picture of it is held"), Tone::Faint));
    document.add(std::move(facts));
}

// How many pictures the reader does not see, for want of leave to print them.
void writeWithheld(Document& document, const RegisterIndex& index,
                   const std::set<std::string>& ids) {
    int pictured = 0;
    Text withheld;
    int n = 0;
    for (const Source& source : index.reg.sources) {
        if (!ids.contains(source.id.text) || source.files.empty()) continue;
        ++pictured;
        if (source.mayPrint.value_or(false)) continue;
        withheld.add(n++ == 0 ? QString() : QStringLiteral(", "));
        withheld.link(index.code(source.id.text), index.anchor(source.id.text));
    }
    if (n == 0) return;
    Text words(QStringLiteral("Pictures of %1 of %2 sources are not cleared for printing: ")
                   .arg(QString::number(n), QString::number(pictured)));
    words.append(withheld).add(QStringLiteral(
        ". Marks on them are shown as outlines; the sources are named all the same."));
    document.paragraph(words, ParagraphStyle::Note);
}

}  // namespace

void writeSources(Writing& writing) {
    const RegisterIndex& index = writing.index;
    Document& document = writing.document;
    document.blocks.emplace_back(
        Heading{1, QStringLiteral("Sources"), QStringLiteral("sources"), {}, {}, true});
    const std::set<std::string> ids = sourcesShown(writing);
    if (ids.empty()) {
        document.paragraph(Text("No source is on record."));
        return;
    }
    document.paragraph(
        Text("Grouped by origin. Sources joined by descent (a tracing, a copy, a print from the "
             "same negative) share one origin and count as one witness."));
    writeWithheld(document, index, ids);
    std::set<int> done;
    std::vector<const Source*> alone;
    for (const Source& source : index.reg.sources) {
        const int group = index.originGroup(source.id.text);
        if (!ids.contains(source.id.text) || !done.insert(group).second) continue;
        const auto members = index.group(group);
        if (members.size() == 1) {
            alone.push_back(&source);
            continue;
        }
        document.heading(2,
                         QStringLiteral("Origin %1: %2 sources, one witness")
                             .arg(QString::number(group), QString::number(members.size())),
                         QStringLiteral("origin-%1").arg(group));
        for (const Source* member : members) writeSource(writing, *member);
    }
    if (alone.empty()) return;
    document.heading(2, QStringLiteral("Sources that are an origin of their own"),
                     QStringLiteral("origins-alone"));
    for (const Source* source : alone) writeSource(writing, *source);
}

}  // namespace app::report
