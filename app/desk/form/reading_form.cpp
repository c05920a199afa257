#include "app/desk/analyst.h"
#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/desk/form/row_completer.h"
#include "app/report/document.h"
#include "app/report/wording.h"
#include "app/session/evidence_now.h"
#include "app/session/from_table.h"
#include "app/session/table_offer.h"
#include "app/session/typed_reading.h"
#include "evidence-core/record/lookup.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>

namespace app::desk::form {

namespace {

namespace record = evidence::record;
using session::SpreadGiven;

struct Fields {
    QComboBox* basis = nullptr;
    QLabel* basisMeans = nullptr;
    QComboBox* source = nullptr;
    QLineEdit* value = nullptr;
    QComboBox* meaning = nullptr;
    FormSheet::Pair limits;
    QComboBox* spreadGiven = nullptr;
    QLineEdit* spread = nullptr;
    QLabel* takenAs = nullptr;
    QComboBox* feature = nullptr;
    QLineEdit* instrument = nullptr;
    QLineEdit* correction = nullptr;
    QLineEdit* circumstances = nullptr;
    QPlainTextEdit* excerpt = nullptr;
    QPlainTextEdit* reason = nullptr;
};

/// A choice's data is the position of what it stands for.
template <class Kind>
void offer(QComboBox* choice, const QString& words, Kind kind) {
    choice->addItem(words, static_cast<int>(kind));
}
template <class Kind>
Kind chosen(const QComboBox* choice) {
    return static_cast<Kind>(choice->currentData().toInt());
}

void offerSources(QComboBox* choice, const record::Register& reg) {
    choice->addItem(FormSheet::tr("no source on record"), QString());
    for (const auto& source : reg.sources) {
        if (source.setAside) continue;
        choice->addItem(report::shown(source.code).isEmpty()
                            ? report::shown(source.title)
                            : report::shown(source.code) + u' ' + report::shown(source.title),
                        QString::fromStdString(source.id.text));
    }
}

void offerSpreads(QComboBox* choice) {
    offer(choice, FormSheet::tr("the default of the basis"), SpreadGiven::DefaultOfBasis);
    offer(choice, FormSheet::tr("within, to either side"), SpreadGiven::HalfWidth);
    offer(choice, FormSheet::tr("rounded to steps of"), SpreadGiven::RoundedTo);
    offer(choice, FormSheet::tr("standard uncertainty u"), SpreadGiven::Standard);
}

Fields addFields(FormSheet& sheet, const record::Register& reg) {
    Fields fields;
    fields.basis = sheet.addChoice(FormSheet::tr("Basis"), QStringLiteral("basis"));
    for (const auto basis : session::basesWrittenDown())
        offer(fields.basis, report::basisWords(basis), basis);
    fields.basisMeans = sheet.addNote(QStringLiteral("basisMeans"));
    fields.source = sheet.addChoice(FormSheet::tr("Source"), QStringLiteral("source"));
    offerSources(fields.source, reg);
    fields.feature = sheet.addChoice(FormSheet::tr("The part is"), QStringLiteral("feature"));
    offer(fields.feature, FormSheet::tr("perhaps original"), record::Feature::Uncertain);
    offer(fields.feature, FormSheet::tr("original here"), record::Feature::Original);
    offer(fields.feature, FormSheet::tr("altered here"), record::Feature::Altered);
    fields.value = sheet.addLine(FormSheet::tr("Value"), QStringLiteral("value"),
                                 FormSheet::tr("As it stands there"));
    fields.meaning = sheet.addChoice(FormSheet::tr("Which"), QStringLiteral("table_row"));
    fields.limits = sheet.addPair(FormSheet::tr("No less than"), QStringLiteral("low"),
                                  FormSheet::tr("no more than"), QStringLiteral("high"));
    fields.spreadGiven =
        sheet.addChoice(FormSheet::tr("Uncertainty"), QStringLiteral("spreadGiven"));
    offerSpreads(fields.spreadGiven);
    fields.spread = sheet.addLine({}, QStringLiteral("spread"));
    fields.takenAs = sheet.addNote(QStringLiteral("takenAs"));
    fields.instrument = sheet.addLine(FormSheet::tr("Instrument"), QStringLiteral("instrument"),
                                      FormSheet::tr("steel rule, caliper, tape …"));
    fields.correction =
        sheet.addLine(FormSheet::tr("Corrected for"), QStringLiteral("correction"),
                      FormSheet::tr("A material or a sheet of the tables; may stay empty"));
    completeWithRows(fields.correction, reg, session::correctingKinds());
    fields.circumstances = sheet.addLine(FormSheet::tr("By"), QStringLiteral("circumstances"));
    fields.excerpt = sheet.addText(FormSheet::tr("Excerpt"), QStringLiteral("excerpt"),
                                   FormSheet::tr("The words around it, as they stand"));
    fields.reason = sheet.addText(FormSheet::tr("Why"), QStringLiteral("reason"),
                                  FormSheet::tr("Why it speaks of this"));
    for (const char* place : {"u", "half_width", "rounded_to"}) sheet.alsoAt(place, fields.spread);
    sheet.alsoAt("unit", fields.value);
    return fields;
}

session::TypedReading typedIn(const Fields& fields, const record::AnyId& of) {
    session::TypedReading typed;
    typed.of = of;
    typed.basis = chosen<record::Basis>(fields.basis);
    if (const auto source = fields.source->currentData().toString(); !source.isEmpty())
        typed.source = record::SourceId{source.toStdString()};
    typed.value = fields.value->text().toStdString();
    typed.low = fields.limits.first->text().toStdString();
    typed.high = fields.limits.second->text().toStdString();
    typed.spreadGiven = chosen<SpreadGiven>(fields.spreadGiven);
    typed.spread = fields.spread->text().toStdString();
    typed.feature = chosen<record::Feature>(fields.feature);
    typed.instrument = fields.instrument->text().toStdString();
    typed.tableRow = fields.meaning->currentData().toString().toStdString();
    typed.correction = fields.correction->text().toStdString();
    typed.circumstances = fields.circumstances->text().toStdString();
    typed.excerpt = fields.excerpt->toPlainText().toStdString();
    typed.reason = fields.reason->toPlainText().toStdString();
    return typed;
}

QString wordsFor(const session::ReadingWorth& worth) {
    const auto size = report::shown(worth.takenAs);
    QString words;
    if (worth.floored)
        words = FormSheet::tr("Taken as %1: the least doubt that this basis may claim.").arg(size);
    else if (worth.byDefault)
        words = FormSheet::tr("Taken as %1, by the default of the basis.").arg(size);
    else if (!size.isEmpty())
        words = FormSheet::tr("Taken as %1.").arg(size);
    if (!worth.leftOut.empty())
        words += FormSheet::tr(" It would not count: %1.").arg(report::shown(worth.leftOut));
    return words.trimmed();
}

/// Asks which row the words of the value mean, where they leave that open.
void askMeaning(FormSheet& sheet, const Fields& fields, const record::AnyId& of,
                const record::Register& reg) {
    const auto typed = typedIn(fields, of);
    fields.meaning->clear();
    const bool asks = session::fieldsOf(typed, reg).correction;
    const auto asked =
        asks ? session::sizeAsked(evidence::trade::Tables(reg), reg, typed.value, typed.source)
             : session::SizeAsked{};
    if (!asked.offers.empty() && !asked.row) {
        fields.meaning->addItem(FormSheet::tr("choose which was meant"), QString());
        for (const auto& offer : asked.offers)
            fields.meaning->addItem(report::shown(session::candidateWords(offer)),
                                    QString::fromStdString(offer.row));
    }
    sheet.setFieldVisible(fields.meaning, fields.meaning->count() > 0);
}

/// Shows what the chosen correction asks for.
void followCorrection(FormSheet& sheet, const Fields& fields, bool wanted,
                      const record::Register& reg) {
    const evidence::trade::Tables tables(reg);
    const auto* row = session::rowPicked(tables, fields.correction->text().toStdString());
    const auto asks = row ? session::circumstancesWanted(row->kind) : std::string();
    fields.circumstances->setPlaceholderText(report::shown(asks));
    sheet.setFieldVisible(fields.correction, wanted);
    sheet.setFieldVisible(fields.circumstances, wanted && !asks.empty());
}

/// Shows the fields that the basis asks for, and what the reading would be worth.
void follow(FormSheet& sheet, const Fields& fields, const record::AnyId& of,
            const record::Register& reg) {
    const auto typed = typedIn(fields, of);
    const auto wanted = session::fieldsOf(typed, reg);
    fields.basisMeans->setText(report::basisSentence(typed.basis));
    sheet.setFieldVisible(fields.value, wanted.value);
    sheet.setFieldVisible(fields.limits.first, wanted.limits);
    sheet.setFieldVisible(fields.spreadGiven, wanted.spread);
    sheet.setFieldVisible(fields.spread,
                          wanted.spread && typed.spreadGiven != SpreadGiven::DefaultOfBasis);
    sheet.setFieldVisible(fields.feature, wanted.feature);
    sheet.setFieldVisible(fields.instrument, wanted.instrument);
    followCorrection(sheet, fields, wanted.correction, reg);
    const auto reading = session::readingOf(typed, reg);
    const auto words = reading ? wordsFor(session::worthOf(*reading, reg)) : QString();
    fields.takenAs->setText(words);
    sheet.setFieldVisible(fields.takenAs, !words.isEmpty());
}

}  // namespace

QDialog* readingForm(OpenRegister& open, Analyst& analyst, const evidence::record::AnyId& on,
                     QWidget* parent) {
    auto* sheet =
        new FormSheet(open, QStringLiteral("readingForm"), FormSheet::tr("Add a reading"), parent);
    const auto fields = addFields(*sheet, open.snapshot()->reg);

    const auto tellAbout = [sheet, &open, &analyst, on] {
        const auto judged = analyst.judged();
        const auto now = session::evidenceNow(
            on, open.snapshot()->reg, judged ? judged->analysis : evidence::judgement::Analysis{});
        sheet->setAbout(
            FormSheet::tr("%1, now %2").arg(report::shown(now.name), report::shown(now.size)));
    };
    QObject::connect(&analyst, &Analyst::judgedAnew, sheet, tellAbout);
    tellAbout();

    const auto followFields = [sheet, fields, &open, on] {
        follow(*sheet, fields, on, open.snapshot()->reg);
    };
    for (auto* choice : {fields.basis, fields.source, fields.spreadGiven, fields.feature})
        QObject::connect(choice, &QComboBox::currentIndexChanged, sheet, followFields);
    const auto ask = [sheet, fields, &open, on] {
        askMeaning(*sheet, fields, on, open.snapshot()->reg);
    };
    QObject::connect(fields.value, &QLineEdit::textChanged, sheet, ask);
    QObject::connect(fields.basis, &QComboBox::currentIndexChanged, sheet, ask);
    QObject::connect(fields.meaning, &QComboBox::activated, sheet, followFields);
    for (auto* line :
         {fields.value, fields.spread, fields.instrument, fields.correction, fields.circumstances})
        QObject::connect(line, &QLineEdit::textChanged, sheet, followFields);
    ask();
    followFields();

    sheet->planWith(
        [fields,
         on](const session::Context& context) -> evidence::Result<evidence::record::ChangeSet> {
            auto reading = session::readingOf(typedIn(fields, on), context.reg);
            if (!reading) return tl::unexpected(reading.error());
            return session::planReading(context, *std::move(reading));
        });
    return sheet;
}

}  // namespace app::desk::form
