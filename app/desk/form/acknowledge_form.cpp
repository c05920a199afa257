#include "app/desk/analyst.h"
#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/report/document.h"
#include "app/report/wording.h"

#include <QLabel>
#include <QPlainTextEdit>

#include <optional>

namespace app::desk::form {

namespace {

using evidence::judgement::Finding;

/// A copy of the finding that the user saw: a later analysis may list them in another order, or may
/// no longer have it.
std::optional<Finding> findingIn(const Analyst& analyst, std::size_t at) {
    const auto judged = analyst.judged();
    if (!judged || at >= judged->analysis.findings.size()) return std::nullopt;
    return judged->analysis.findings[at];
}

void describe(FormSheet& sheet, const Finding& found) {
    sheet.setAbout(report::findingName(found.kind));
    auto* text = sheet.addNote(QStringLiteral("finding"));
    text->setProperty("pencil", QStringLiteral("red"));
    text->setText(report::shown(found.text));
    sheet.addNote(QStringLiteral("settle"))->setText(report::shown(found.settle));
}

}  // namespace

QDialog* acknowledgeForm(OpenRegister& open, Analyst& analyst, std::size_t finding,
                         QWidget* parent) {
    auto* sheet = new FormSheet(open, QStringLiteral("acknowledgeForm"),
                                FormSheet::tr("Acknowledge"), parent);
    const auto found = findingIn(analyst, finding);
    if (found) describe(*sheet, *found);
    auto* reason = sheet->addText(FormSheet::tr("Why it may stand"), QStringLiteral("reason"));
    sheet->addNote(QStringLiteral("lapses"))
        ->setText(FormSheet::tr("The finding comes back when its evidence changes."));
    sheet->planWith(
        [reason,
         found](const session::Context& context) -> evidence::Result<evidence::record::ChangeSet> {
            if (!found)
                return evidence::refuse(evidence::Code::Stale, "finding",
                                        "The finding is gone, for its evidence has changed.");
            return session::planAcknowledge(context, found->kind, found->on, found->digest,
                                            reason->toPlainText().toStdString());
        });
    return sheet;
}

}  // namespace app::desk::form
