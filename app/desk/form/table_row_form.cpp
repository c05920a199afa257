#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/report/document.h"
#include "app/session/actions.h"
#include "app/session/typed_table_row.h"
#include "evidence-core/trade/row_unit.h"

#include <QComboBox>
#include <QLineEdit>

namespace app::desk::form {

namespace {

namespace record = evidence::record;
using record::TableRowKind;

struct Fields {
    QComboBox* kind = nullptr;
    QLineEdit* name = nullptr;
    QLineEdit* measures = nullptr;
    QLineEdit* value = nullptr;
    QComboBox* unit = nullptr;
    QLineEdit* u = nullptr;
    QLineEdit* era = nullptr;
    QLineEdit* region = nullptr;
    QComboBox* source = nullptr;
    QLineEdit* note = nullptr;
};

QString kindWords(TableRowKind kind) {
    switch (kind) {
        case TableRowKind::Length:
            return FormSheet::tr("a known thing's size");
        case TableRowKind::Density:
            return FormSheet::tr("what a material weighs");
        case TableRowKind::WoodMovement:
            return FormSheet::tr("how a wood moves with moisture");
        case TableRowKind::WoodShrinkage:
            return FormSheet::tr("how a wood shrinks in drying");
        case TableRowKind::CastingContraction:
            return FormSheet::tr("how a casting contracts");
        case TableRowKind::SheetChange:
            return FormSheet::tr("how a sheet or film shrinks");
        case TableRowKind::SurfaceLoss:
            return FormSheet::tr("how a surface corrodes");
        case TableRowKind::Coating:
            return FormSheet::tr("how thick a coating is");
        case TableRowKind::Expansion:
            return FormSheet::tr("how a material grows with heat");
    }
    return {};
}

TableRowKind kindIn(const Fields& fields) {
    return static_cast<TableRowKind>(fields.kind->currentData().toInt());
}

void offerUnits(const Fields& fields) {
    fields.unit->clear();
    for (const auto unit : evidence::trade::unitNamesFor(kindIn(fields)))
        fields.unit->addItem(report::shown(std::string(unit)));
}

Fields addFields(FormSheet& sheet, const record::Register& reg) {
    Fields fields;
    fields.kind = sheet.addChoice(FormSheet::tr("It says"), QStringLiteral("kind"));
    for (const auto& [name, kind] : record::Names<TableRowKind>::all)
        fields.kind->addItem(kindWords(kind), static_cast<int>(kind));
    fields.name = sheet.addLine(FormSheet::tr("Name"), QStringLiteral("name"),
                                FormSheet::tr("Of the thing or the material"));
    fields.measures = sheet.addLine(FormSheet::tr("Measured"), QStringLiteral("measures"),
                                    FormSheet::tr("From where to where, such as flange to flange"));
    fields.value = sheet.addLine(FormSheet::tr("Value"), QStringLiteral("value"));
    fields.unit = sheet.addChoice(FormSheet::tr("Unit"), QStringLiteral("unit"));
    offerUnits(fields);
    fields.u = sheet.addLine(FormSheet::tr("u"), QStringLiteral("u"),
                             FormSheet::tr("Standard uncertainty of one example, in that unit"));
    fields.era = sheet.addLine(FormSheet::tr("Time"), QStringLiteral("era"),
                               FormSheet::tr("Such as 1909/1935; may stay empty"));
    fields.region = sheet.addLine(FormSheet::tr("Place"), QStringLiteral("region"),
                                  FormSheet::tr("Such as England; may stay empty"));
    fields.source = sheet.addChoice(FormSheet::tr("Source"), QStringLiteral("source"));
    fields.source->addItem(FormSheet::tr("choose who says so"), QString());
    for (const auto& source : reg.sources)
        if (!source.setAside)
            fields.source->addItem(
                (report::shown(source.code) + u' ' + report::shown(source.title)).trimmed(),
                QString::fromStdString(source.id.text));
    fields.note = sheet.addLine(FormSheet::tr("Note"), QStringLiteral("note"));
    return fields;
}

session::TypedTableRow typedIn(const Fields& fields) {
    session::TypedTableRow typed;
    typed.kind = kindIn(fields);
    typed.name = fields.name->text().toStdString();
    typed.measures = fields.measures->text().toStdString();
    typed.value = fields.value->text().toStdString();
    typed.unit = fields.unit->currentText().toStdString();
    typed.u = fields.u->text().toStdString();
    typed.era = fields.era->text().toStdString();
    typed.region = fields.region->text().toStdString();
    typed.note = fields.note->text().toStdString();
    typed.source = record::SourceId{fields.source->currentData().toString().toStdString()};
    return typed;
}

}  // namespace

QDialog* tableRowForm(OpenRegister& open, QWidget* parent) {
    auto* sheet =
        new FormSheet(open, QStringLiteral("tableRowForm"), FormSheet::tr("New table row"), parent);
    sheet->setAbout(
        FormSheet::tr("A row of your own stands before those of the program, wherever "
                      "a known thing or a material is entered."));
    const auto fields = addFields(*sheet, open.snapshot()->reg);
    QObject::connect(fields.kind, &QComboBox::currentIndexChanged, sheet,
                     [fields] { offerUnits(fields); });
    sheet->planWith(
        [fields](const session::Context& context) -> evidence::Result<record::ChangeSet> {
            auto row = session::tableRowOf(typedIn(fields));
            if (!row) return tl::unexpected(row.error());
            return session::planTableRow(context, *std::move(row));
        });
    return sheet;
}

}  // namespace app::desk::form
