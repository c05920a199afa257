#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/report/document.h"
#include "app/session/print_of_page.h"
#include "evidence-core/record/lookup.h"

#include <QLabel>
#include <QLineEdit>

namespace app::desk::form {

namespace {

/// A claim is shown, never taken over: scanners and programs write what they like.
QString claimWords(const OpenRegister& open, const evidence::record::FileId& file, int page) {
    const auto held = open.snapshot();
    const auto* record = evidence::record::find(held->reg, file);
    const auto path = record ? open.originalOf(*record) : std::filesystem::path();
    QStringList claims;
    if (!path.empty())
        for (const auto& claim : session::resolutionClaims(path, page))
            claims << report::shown(claim);
    if (claims.isEmpty()) return FormSheet::tr("The file claims no resolution.");
    return FormSheet::tr("The file claims %1. Type what you rely on.")
        .arg(claims.join(QStringLiteral("; ")));
}

}  // namespace

QDialog* printedScaleForm(OpenRegister& open, const evidence::record::FileId& file, int page,
                          QWidget* parent) {
    auto* sheet = new FormSheet(open, QStringLiteral("printedScaleForm"),
                                FormSheet::tr("Scale by print"), parent);
    const auto held = open.snapshot();
    sheet->setAbout(report::shown(session::pageName({file, page}, held->reg)));

    auto* dpi = sheet->addLine(FormSheet::tr("Pixels per inch"), QStringLiteral("dpi"),
                               FormSheet::tr("Of the scan, such as 400"));
    sheet->addNote(QStringLiteral("claims"))->setText(claimWords(open, file, page));
    auto* drawnScale = sheet->addLine(FormSheet::tr("Drawn at"), QStringLiteral("drawnScale"),
                                      FormSheet::tr("As the drawing says, such as 1:24"));
    auto* within = sheet->addLine(FormSheet::tr("Shrunk, u in %"), QStringLiteral("within"),
                                  FormSheet::tr("Standard uncertainty; empty: the default"));
    auto* note = sheet->addNote(QStringLiteral("shrinkage"));
    note->setText(
        FormSheet::tr("Paper shrinks and swells: what the sheet may have come and gone by is part "
                      "of every size measured with this scale. Without a "
                      "figure here the default is %1 %.")
            .arg(session::defaultShrinkagePercent(held->reg)));
    sheet->alsoAt("print/dpi", dpi);
    sheet->alsoAt("print/drawn_scale", drawnScale);
    sheet->alsoAt("print/u_relative", within);

    sheet->planWith(
        [dpi, drawnScale, within, file,
         page](const session::Context& context) -> evidence::Result<evidence::record::ChangeSet> {
            const auto print =
                session::printTyped(dpi->text().toStdString(), drawnScale->text().toStdString(),
                                    within->text().toStdString());
            if (!print) return tl::unexpected(print.error());
            return session::planPrintedScale(context, {file, page, *print});
        });
    return sheet;
}

}  // namespace app::desk::form
