#include "app/desk/analyst.h"
#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/report/document.h"
#include "app/report/wording.h"

#include <QLabel>
#include <QPlainTextEdit>

namespace app::desk::form {

QDialog* acknowledgeForm(OpenRegister& open, Analyst& analyst, std::size_t finding,
                         QWidget* parent) {
    const auto judged = analyst.judged();
    Q_ASSERT(judged && finding < judged->analysis.findings.size());
    // Of the analysis that the user saw: a later one may list the findings in another order.
    const auto found = judged->analysis.findings[finding];

    auto* sheet = new FormSheet(open, QStringLiteral("acknowledgeForm"),
                                FormSheet::tr("Acknowledge"), parent);
    sheet->setAbout(report::findingName(found.kind));
    auto* text = sheet->addNote(QStringLiteral("finding"));
    text->setProperty("pencil", QStringLiteral("red"));
    text->setText(report::shown(found.text));
    auto* settle = sheet->addNote(QStringLiteral("settle"));
    settle->setText(report::shown(found.settle));
    auto* reason = sheet->addText(FormSheet::tr("Why it may stand"), QStringLiteral("reason"));
    auto* lapses = sheet->addNote(QStringLiteral("lapses"));
    lapses->setText(FormSheet::tr("The finding comes back when its evidence changes."));
    sheet->planWith([reason, found](const session::Context& context) {
        return session::planAcknowledge(context, found.kind, found.on, found.digest,
                                        reason->toPlainText().toStdString());
    });
    return sheet;
}

}  // namespace app::desk::form
