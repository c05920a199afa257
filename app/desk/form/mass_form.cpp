#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/desk/form/row_completer.h"
#include "app/report/document.h"
#include "app/session/actions.h"
#include "app/session/same_stock.h"
#include "app/session/table_offer.h"
#include "evidence-core/record/lookup.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>

namespace app::desk::form {

namespace {

namespace record = evidence::record;
namespace trade = evidence::trade;

struct Fields {
    QLineEdit* volume = nullptr;
    QLineEdit* material = nullptr;
    QLabel* density = nullptr;
    QComboBox* sameStock = nullptr;
    QPlainTextEdit* reason = nullptr;
};

Fields addFields(FormSheet& sheet, const record::Register& reg) {
    Fields fields;
    fields.volume = sheet.addLine(FormSheet::tr("Volume"), QStringLiteral("volume"),
                                  FormSheet::tr("D4, or D1*D2*D3, or 120 in3"));
    fields.material = sheet.addLine(FormSheet::tr("Made of"), QStringLiteral("table_row"),
                                    FormSheet::tr("A material of the tables, such as ash"));
    completeWithRows(fields.material, reg, {record::TableRowKind::Density});
    fields.density = sheet.addNote(QStringLiteral("density"));
    fields.sameStock = sheet.addChoice(FormSheet::tr("Out of"), QStringLiteral("same_stock"));
    fields.reason = sheet.addText(FormSheet::tr("Why"), QStringLiteral("reason"),
                                  FormSheet::tr("What shows that it is made of this"));
    return fields;
}

/// Tells what the tables say of the material, and which parts may be of the same board.
void follow(FormSheet& sheet, const Fields& fields, const record::Register& reg) {
    const trade::Tables tables(reg);
    const auto* row = session::rowPicked(tables, fields.material->text().toStdString());
    fields.sameStock->clear();
    fields.sameStock->addItem(FormSheet::tr("a board or casting of its own"), QString());
    if (row)
        for (const auto& part : session::partsOfStock(reg, *row))
            fields.sameStock->addItem(
                FormSheet::tr("the same as %1").arg(report::shown(part.words)),
                QString::fromStdString(part.relation.text));
    sheet.setFieldVisible(fields.sameStock, fields.sameStock->count() > 1);
    // The words first: the sheet makes room for what is shown.
    if (row) {
        const auto offer = session::offerOf({row, true, true});
        fields.density->setText(FormSheet::tr("Density %1. %2.")
                                    .arg(report::shown(offer.value), report::shown(offer.source)));
    }
    sheet.setFieldVisible(fields.density, row != nullptr);
}

session::MassDraft draftIn(const Fields& fields, const record::AnyId& on,
                           const record::Register& reg) {
    session::MassDraft draft;
    draft.of = on;
    draft.volume = fields.volume->text().toStdString();
    const trade::Tables tables(reg);
    if (const auto* row = session::rowPicked(tables, fields.material->text().toStdString()))
        draft.tableRow = row->id;
    if (const auto stock = fields.sameStock->currentData().toString(); !stock.isEmpty())
        draft.sameStock = record::RelationId{stock.toStdString()};
    draft.reason = fields.reason->toPlainText().toStdString();
    return draft;
}

}  // namespace

QDialog* massForm(OpenRegister& open, const evidence::record::AnyId& on, QWidget* parent) {
    auto* sheet =
        new FormSheet(open, QStringLiteral("massForm"), FormSheet::tr("Mass from volume"), parent);
    const auto held = open.snapshot();
    if (const auto* mass = record::find(held->reg, record::DimensionId{on.text}))
        sheet->setAbout(report::shown(mass->name));
    const auto fields = addFields(*sheet, held->reg);
    const auto followMaterial = [sheet, fields, &open] {
        follow(*sheet, fields, open.snapshot()->reg);
    };
    QObject::connect(fields.material, &QLineEdit::textChanged, sheet, followMaterial);
    followMaterial();
    sheet->planWith([fields, on](const session::Context& context) {
        return session::planMass(context, draftIn(fields, on, context.reg));
    });
    return sheet;
}

}  // namespace app::desk::form
