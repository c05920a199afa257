#pragma once

#include "app/report/document.h"
#include "app/report/register_index.h"
#include "app/report/report.h"
#include "app/report/selection.h"
#include "app/report/sheet_crop.h"

/// The sections of the reports: each builder says one thing, in its own source file
/// (`section_front.cpp`, `section_sources.cpp` …), and adds nothing where there is nothing to say,
/// unless that is itself an answer.
namespace app::report {

/// What every section builder needs.
struct Writing {
    const RegisterIndex& index;
    const ReportRequest& request;
    const Selection& selection;
    SheetCrops& crops;
    Document& document;
};

void writeFront(Writing& writing);       ///< object, moment, "modern re-creation", digest, date
void writeSummary(Writing& writing);     ///< shares by count, length and mass; what is open
void writeSubject(Writing& writing);     ///< purpose, significance, what survives, states
void writeHowToRead(Writing& writing);   ///< grades, ±, words
void writeQuestions(Writing& writing);   ///< enquiries and reviewers' queries, with the answers
void writeSources(Writing& writing);     ///< evaluation, origins, rights, digests
void writeScales(Writing& writing);      ///< how pixels became inches
void writeDimensions(Writing& writing);  ///< part by part
void writeParticulars(Writing& writing);
void writeGuesses(Writing& writing);    ///< where conjecture begins
void writeBorrowed(Writing& writing);   ///< from relatives
void writeConflicts(Writing& writing);  ///< conflicts and everything else that was found
void writeRelations(Writing& writing);
void writeDepartures(Writing& writing);
void writeMade(Writing& writing);  ///< handed to the shop, and as built
void writeSetAside(Writing& writing);
void writeSeekNext(Writing& writing);
void writeMethod(Writing& writing);  ///< in plain words, with the defaults and settings used
void writeBack(Writing& writing);    ///< labels, custody, people, reports, digests, glossary

/// One dimension or particular, as it stands in the parts list and, alone, under `--on`.
void writeDimension(Writing& writing, const evidence::record::Dimension& dimension);
void writeParticular(Writing& writing, const evidence::record::Particular& particular);

/// The shop's documents.
void writeShopSheets(Writing& writing);
void writeSlip(Writing& writing);

}  // namespace app::report
