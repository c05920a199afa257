#include "app/desk/analyst.h"
#include "app/desk/form/alternative_rows.h"
#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/desk/form/side_text.h"
#include "app/desk/thread/interval_view.h"
#include "app/report/document.h"
#include "app/report/reading_plot.h"
#include "app/report/wording.h"
#include "app/session/evidence_now.h"
#include "app/session/tolerance_typed.h"

#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QTextBrowser>

namespace app::desk::form {

namespace {

QString standingOf(const session::EvidenceLine& line) {
    if (line.setAside) return FormSheet::tr("set aside");
    if (line.echo) return FormSheet::tr("an echo of another reading; carries nothing");
    QString words;
    if (!line.share.empty())
        words = FormSheet::tr("%1 of the doubt").arg(report::shown(line.share));
    if (line.guess)
        words += (words.isEmpty() ? QString() : QStringLiteral(" · ")) + FormSheet::tr("a guess");
    return words;
}

void tellLines(SideText& text, const QString& heading,
               const std::vector<session::EvidenceLine>& lines) {
    if (lines.empty()) return;
    text.heading(heading);
    for (const auto& line : lines) text.line(line.words, standingOf(line));
}

QString textOf(const session::EvidenceNow& now) {
    SideText text;
    text.heading(FormSheet::tr("The evidence now"));
    text.size(now.size, now.grade);
    if (!now.gradeWhy.empty()) text.faint(report::shown(now.gradeWhy));
    for (const auto& sentence : now.findings) text.red(report::shown(sentence));
    if (now.ruled) {
        text.heading(FormSheet::tr("Ruled so far"));
        text.line(*now.ruled);
    }
    tellLines(text, FormSheet::tr("Its readings"), now.readings);
    tellLines(text, FormSheet::tr("What it rests on"), now.restsOn);
    if (!now.raiseBy.empty()) {
        text.heading(FormSheet::tr("What would raise the grade"));
        text.line(now.raiseBy);
    }
    return text.html();
}

struct Fields {
    thread::IntervalView* plot = nullptr;
    QLineEdit* value = nullptr;
    QPlainTextEdit* reason = nullptr;
    AlternativeRows* alternatives = nullptr;
    QLineEdit* tolerance = nullptr;
    QLabel* caution = nullptr;
};

Fields addFields(FormSheet& sheet) {
    Fields fields;
    fields.plot = new thread::IntervalView;
    fields.plot->setObjectName(QStringLiteral("plot"));
    fields.plot->hide();
    sheet.addUnderKnown(fields.plot);
    fields.value = sheet.addLine(FormSheet::tr("Build value"), QStringLiteral("value"));
    fields.tolerance = sheet.addLine(FormSheet::tr("Allow ±"), QStringLiteral("tolerance"),
                                     FormSheet::tr("What the shop may be off by; may stay empty"));
    fields.reason =
        sheet.addText(FormSheet::tr("Why"), QStringLiteral("reason"),
                      FormSheet::tr("Why this value is built, in words a reviewer can follow"));
    fields.alternatives = new AlternativeRows;
    sheet.addField(FormSheet::tr("Considered"), fields.alternatives);
    fields.caution = sheet.addNote(QStringLiteral("caution"));
    fields.caution->setText(report::cautionWords());
    return fields;
}

/// The readings over each other; a particular has none to draw.
void tellPlot(const Fields& fields, const Judged& judged, const evidence::record::AnyId& on) {
    const report::RegisterIndex index(judged.snapshot->reg, judged.analysis);
    const auto* dimension = index.dimension(on.text);
    auto plot = dimension ? report::readingPlot(index, *dimension) : report::figure::IntervalPlot();
    fields.plot->setVisible(!plot.readings.empty());
    fields.plot->show(std::move(plot));
}

void tell(FormSheet& sheet, const Fields& fields, const session::EvidenceNow& now) {
    sheet.setAbout(report::shown(now.name));
    sheet.known()->setHtml(textOf(now));
    sheet.setFieldVisible(fields.caution, now.critical);
    // What the user has typed stays.
    if (!fields.value->isModified()) fields.value->setText(report::shown(now.buildValue));
    sheet.setFieldVisible(fields.tolerance, now.isSize);
    if (!now.wantedTolerance.empty())
        fields.tolerance->setPlaceholderText(
            FormSheet::tr("The size is wanted within %1; may stay empty")
                .arg(report::shown(now.wantedTolerance)));
}

}  // namespace

QDialog* rulingForm(OpenRegister& open, Analyst& analyst, const evidence::record::AnyId& on,
                    QWidget* parent) {
    auto* sheet = new FormSheet(open, QStringLiteral("rulingForm"), FormSheet::tr("Rule"), parent);
    sheet->known()->setPlainText(FormSheet::tr("The evidence is being worked out …"));
    const auto fields = addFields(*sheet);
    sheet->setFieldVisible(fields.caution, false);

    const auto tellNow = [sheet, fields, &analyst, on] {
        const auto judged = analyst.judged();
        if (!judged) return;
        tell(*sheet, fields, session::evidenceNow(on, judged->snapshot->reg, judged->analysis));
        tellPlot(fields, *judged, on);
    };
    QObject::connect(&analyst, &Analyst::judgedAnew, sheet, tellNow);
    tellNow();

    sheet->planWith([fields, &open, &analyst, on](const session::Context& context)
                        -> evidence::Result<evidence::record::ChangeSet> {
        const auto judged = analyst.judged();
        const auto evidence =
            session::evidenceToKeep(on, *open.snapshot(), judged ? judged->snapshot.get() : nullptr,
                                    judged ? judged->analysis : evidence::judgement::Analysis{});
        if (!evidence) return tl::unexpected(evidence.error());
        const auto tolerance =
            session::toleranceTyped(fields.tolerance->text().toStdString(), on, context.reg);
        if (!tolerance) return tl::unexpected(tolerance.error());
        session::RulingDraft draft;
        draft.on = on;
        draft.value = fields.value->text().trimmed().toStdString();
        draft.reason = fields.reason->toPlainText().toStdString();
        draft.alternatives = fields.alternatives->written();
        draft.tolerance = *tolerance;
        draft.evidence = *evidence;
        return session::planRuling(context, draft);
    });
    return sheet;
}

}  // namespace app::desk::form
