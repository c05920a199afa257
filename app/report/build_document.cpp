#include "app/report/build_document.h"

#include "app/report/sections.h"
#include "app/report/wording.h"

#include <vector>

namespace app::report {

namespace {

using Section = void (*)(Writing&);

void writeAlone(Writing& writing) {
    for (const auto* p : writing.selection.particulars) writeParticular(writing, *p);
    for (const auto* d : writing.selection.dimensions) writeDimension(writing, *d);
}

std::vector<Section> sectionsOf(const ReportRequest& request) {
    switch (request.kind) {
        case Kind::Provenance:
            if (request.filter.on)
                return {writeFront,  writeAlone,   writeHowToRead,
                        writeScales, writeSources, writeMethod};
            return {writeFront,    writeSummary,   writeSubject,    writeHowToRead, writeQuestions,
                    writeGuesses,  writeConflicts, writeDepartures, writeBorrowed,  writeMade,
                    writeSetAside, writeSeekNext,  writeDimensions, writeRelations, writeScales,
                    writeSources,  writeMethod,    writeBack};
        case Kind::Short:
            return {writeFront,   writeSummary,    writeSubject,  writeHowToRead,
                    writeGuesses, writeDepartures, writeBorrowed, writeBack};
        case Kind::Shop:
            return {writeFront, writeShopSheets};
        case Kind::Slip:
            return {writeSlip};
        case Kind::Departures:
            return {writeFront, writeDepartures};
        case Kind::Guesses:
            break;
    }
    return {writeFront, writeGuesses, writeBorrowed};
}

}  // namespace

Document buildDocument(const RegisterIndex& index, const Selection& selection,
                       const ReportRequest& request, SheetCrops& crops) {
    Document document;
    const auto& archive = index.reg.archive;
    document.title = shown(archive.title);
    if (archive.subject) document.subject = shown(*archive.subject);
    QStringList compilers;
    for (const auto& person : index.reg.people)
        if (person.role == evidence::record::Role::Compiler) compilers << shown(person.name);
    document.author = compilers.join(QStringLiteral(", "));
    document.at = request.at;
    document.runningHead =
        shown(archive.title).simplified() + QStringLiteral(" · ") + dateWords(request.at);
    document.footNote = plusMinusNote();
    Writing writing{index, request, selection, crops, document};
    for (const Section section : sectionsOf(request)) section(writing);
    return document;
}

}  // namespace app::report
