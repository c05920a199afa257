#include "app/desk/analyst.h"
#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/desk/form/side_text.h"
#include "app/report/document.h"
#include "app/session/guess_worth.h"
#include "app/session/known_confines.h"

#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QTextBrowser>

namespace app::desk::form {

namespace {

void tellEvidence(SideText& text, const QString& heading,
                  const std::vector<session::KnownEvidence>& list) {
    if (list.empty()) return;
    text.heading(heading);
    for (const auto& one : list) text.line(one.words, report::shown(one.reason));
}

QString whatItSays(const session::KnownRelation& relation) {
    const auto size = report::shown(relation.size);
    switch (relation.says) {
        case session::RelationSays::Equal:
            return FormSheet::tr("gives %1").arg(size);
        case session::RelationSays::AtMost:
            return FormSheet::tr("leaves at most %1").arg(size);
        case session::RelationSays::AtLeast:
            return FormSheet::tr("needs at least %1").arg(size);
        case session::RelationSays::Nothing:
            break;
    }
    return FormSheet::tr("says nothing yet: others in it are not known either");
}

void tellRelations(SideText& text, const std::vector<session::KnownRelation>& relations) {
    if (relations.empty()) return;
    text.heading(FormSheet::tr("Relations that hold it"));
    for (const auto& relation : relations) {
        QString faint = whatItSays(relation);
        if (!relation.reason.empty())
            faint += QStringLiteral(" · ") + report::shown(relation.reason);
        text.line(relation.words, faint);
    }
}

QString textOf(const session::KnownConfines& known) {
    SideText text;
    text.heading(FormSheet::tr("As it stands"));
    text.size(known.size, known.grade);
    if (!known.gradeWhy.empty()) text.faint(report::shown(known.gradeWhy));
    tellRelations(text, known.relations);
    tellEvidence(text, FormSheet::tr("Limits on record"), known.limits);
    tellEvidence(text, FormSheet::tr("Other evidence"), known.otherEvidence);
    if (!known.analogous.empty()) {
        text.heading(FormSheet::tr("The same elsewhere"));
        text.sizes(known.analogous);
    }
    if (!known.neighbours.empty()) {
        text.heading(FormSheet::tr("Neighbours"));
        text.sizes(known.neighbours);
    }
    const bool nothing = known.relations.empty() && known.limits.empty() &&
                         known.analogous.empty() && known.neighbours.empty();
    if (nothing) text.faint(FormSheet::tr("Nothing on record confines it yet."));
    return text.html();
}

struct Fields {
    FormSheet::Pair bounds;
    QLineEdit* value = nullptr;
    QLabel* takenAs = nullptr;
    QLabel* floor = nullptr;
    QPlainTextEdit* floorReason = nullptr;
    QPlainTextEdit* reason = nullptr;
    QPlainTextEdit* considered = nullptr;
    QPlainTextEdit* wouldSettle = nullptr;
};

Fields addFields(FormSheet& sheet) {
    Fields fields;
    fields.bounds = sheet.addPair(FormSheet::tr("Between"), QStringLiteral("low"),
                                  FormSheet::tr("and"), QStringLiteral("high"));
    fields.value = sheet.addLine(FormSheet::tr("Taken as"), QStringLiteral("value"),
                                 FormSheet::tr("What it is taken to be, in words"));
    fields.takenAs = sheet.addNote(QStringLiteral("takenAs"));
    fields.floor = sheet.addNote(QStringLiteral("floor"));
    fields.floorReason = sheet.addText(
        FormSheet::tr("Why so close"), QStringLiteral("floorReason"),
        FormSheet::tr("What makes it known more closely than a guess may claim; may stay empty"));
    fields.reason = sheet.addText(FormSheet::tr("Why"), QStringLiteral("reason"),
                                  FormSheet::tr("What speaks for it"));
    fields.considered = sheet.addText(FormSheet::tr("Considered"), QStringLiteral("considered"),
                                      FormSheet::tr("What else was considered, and why not"));
    fields.wouldSettle =
        sheet.addText(FormSheet::tr("Would settle it"), QStringLiteral("wouldSettle"),
                      FormSheet::tr("The photograph, part or paper that would end the guess"));
    sheet.alsoAt("floor_reason", fields.floorReason);
    return fields;
}

void tellWorth(FormSheet& sheet, const Fields& fields, const session::GuessWorth& worth) {
    sheet.setFieldVisible(fields.takenAs, !worth.takenAs.empty());
    fields.takenAs->setText(FormSheet::tr("Taken as %1.").arg(report::shown(worth.takenAs)));
    const bool tooClose = !worth.floor.empty();
    sheet.setFieldVisible(fields.floor, tooClose);
    sheet.setFieldVisible(fields.floorReason, tooClose);
    fields.floor->setText(
        FormSheet::tr(
            "A guess of this size claims no less than %1 to either side, unless a reason says why "
            "it is known more closely.")
            .arg(report::shown(worth.floor)));
}

}  // namespace

QDialog* guessForm(OpenRegister& open, Analyst& analyst, const evidence::record::AnyId& on,
                   QWidget* parent) {
    auto* sheet = new FormSheet(open, QStringLiteral("guessForm"), FormSheet::tr("Guess"), parent);
    auto* known = sheet->known();
    const auto fields = addFields(*sheet);

    const auto tellKnown = [sheet, known, fields, &analyst, on] {
        const auto judged = analyst.judged();
        if (!judged)
            return known->setPlainText(FormSheet::tr("The evidence is being worked out …"));
        const auto confines = session::knownConfines(on, judged->snapshot->reg, judged->analysis);
        sheet->setAbout(report::shown(confines.name));
        for (auto* line : {fields.bounds.first, fields.bounds.second})
            line->setPlaceholderText(report::shown(confines.unit));
        known->setHtml(textOf(confines));
        sheet->setFieldVisible(fields.bounds.first, !confines.inWords);
        sheet->setFieldVisible(fields.value, confines.inWords);
    };
    QObject::connect(&analyst, &Analyst::judgedAnew, sheet, tellKnown);
    tellKnown();

    const auto followBounds = [sheet, fields, &open, on] {
        tellWorth(
            *sheet, fields,
            session::guessWorth(on, fields.bounds.first->text().toStdString(),
                                fields.bounds.second->text().toStdString(), open.snapshot()->reg));
    };
    for (auto* line : {fields.bounds.first, fields.bounds.second})
        QObject::connect(line, &QLineEdit::textChanged, sheet, followBounds);
    followBounds();

    sheet->planWith([fields, on](const session::Context& context) {
        session::GuessDraft draft;
        draft.of = on;
        draft.low = fields.bounds.first->text().toStdString();
        draft.high = fields.bounds.second->text().toStdString();
        draft.value = fields.value->text().toStdString();
        draft.reason = fields.reason->toPlainText().toStdString();
        draft.considered = fields.considered->toPlainText().toStdString();
        draft.wouldSettle = fields.wouldSettle->toPlainText().toStdString();
        if (!fields.floorReason->isHidden())
            draft.floorReason = fields.floorReason->toPlainText().toStdString();
        return session::planGuess(context, draft);
    });
    return sheet;
}

}  // namespace app::desk::form
