#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/report/document.h"
#include "app/report/register_index.h"
#include "app/session/what_leans.h"

#include <QLabel>
#include <QPlainTextEdit>

namespace app::desk::form {

namespace {

constexpr qsizetype kMostNamed = 5;

QString whatLosesEvidence(const QStringList& sizes) {
    if (sizes.isEmpty()) return FormSheet::tr("No size leans on it.");
    const auto names = sizes.mid(0, kMostNamed).join(QStringLiteral("; "));
    if (sizes.size() <= kMostNamed) return FormSheet::tr("What loses evidence: %1.").arg(names);
    return FormSheet::tr("What loses evidence: %1; and %2 more.")
        .arg(names)
        .arg(sizes.size() - kMostNamed);
}

}  // namespace

QDialog* setAsideForm(OpenRegister& open, const evidence::record::AnyId& record, QWidget* parent) {
    auto* sheet =
        new FormSheet(open, QStringLiteral("setAsideForm"), FormSheet::tr("Set aside"), parent);
    const auto held = open.snapshot();
    const evidence::judgement::Analysis none;
    sheet->setAbout(report::RegisterIndex(held->reg, none).label(record.text));

    auto* leans = sheet->addNote(QStringLiteral("leans"));
    QStringList sizes;
    for (const auto& name : session::sizesLeaningOn(record, held->reg))
        sizes << report::shown(name);
    leans->setText(FormSheet::tr("It stays on record, and reports list it.") + u' ' +
                   whatLosesEvidence(sizes));
    leans->setToolTip(sizes.join(u'\n'));
    auto* reason = sheet->addText(FormSheet::tr("Why"), QStringLiteral("reason"),
                                  FormSheet::tr("What shows that it cannot be relied on"));
    sheet->planWith([reason, record](const session::Context& context) {
        return session::planSetAside(context, record, reason->toPlainText().toStdString());
    });
    return sheet;
}

}  // namespace app::desk::form
