#include "app/desk/analyst.h"
#include "app/desk/form/form_sheet.h"
#include "app/desk/form/forms.h"
#include "app/report/document.h"
#include "app/report/wording.h"
#include "app/session/components.h"
#include "app/session/typed_dimension.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>

namespace app::desk::form {

namespace {

namespace record = evidence::record;

struct Fields {
    QLineEdit* name = nullptr;
    QComboBox* component = nullptr;
    QComboBox* quantity = nullptr;
    QComboBox* unit = nullptr;
    QLineEdit* tolerance = nullptr;
    QCheckBox* critical = nullptr;
};

record::DimensionQuantity quantityIn(const Fields& fields) {
    return static_cast<record::DimensionQuantity>(fields.quantity->currentData().toInt());
}

void offerUnits(const Fields& fields) {
    fields.unit->clear();
    for (const auto& unit : session::unitsFor(quantityIn(fields)))
        fields.unit->addItem(QString::fromStdString(unit));
}

Fields addFields(FormSheet& sheet, const record::Register& reg) {
    Fields fields;
    fields.name = sheet.addLine(FormSheet::tr("Name"), QStringLiteral("name"),
                                FormSheet::tr("What a person at the part would call it"));
    fields.component = sheet.addChoice(FormSheet::tr("Component"), QStringLiteral("component"));
    fields.component->setEditable(true);
    fields.component->lineEdit()->setPlaceholderText(
        FormSheet::tr("The part it belongs to, such as Body/Roof"));
    for (const auto& path : session::componentsOf(reg))
        fields.component->addItem(report::shown(path));
    fields.component->setCurrentIndex(-1);
    fields.quantity = sheet.addChoice(FormSheet::tr("Quantity"), QStringLiteral("quantity"));
    for (const auto& [name, quantity] : record::Names<record::DimensionQuantity>::all)
        fields.quantity->addItem(report::quantityWords(quantity), static_cast<int>(quantity));
    fields.unit = sheet.addChoice(FormSheet::tr("Unit"), QStringLiteral("unit"));
    offerUnits(fields);
    fields.tolerance = sheet.addLine(FormSheet::tr("Wanted to ±"), QStringLiteral("tolerance"),
                                     FormSheet::tr("How closely it must be known; may stay empty"));
    fields.critical =
        sheet.addCheck(FormSheet::tr("Safety depends on it"), QStringLiteral("critical"));
    return fields;
}

}  // namespace

QDialog* dimensionForm(OpenRegister& open, Analyst&, QWidget* parent) {
    auto* sheet = new FormSheet(open, QStringLiteral("dimensionForm"),
                                FormSheet::tr("New dimension"), parent);
    const auto fields = addFields(*sheet, open.snapshot()->reg);
    QObject::connect(fields.quantity, &QComboBox::currentIndexChanged, sheet,
                     [fields] { offerUnits(fields); });
    sheet->planWith(
        [fields](const session::Context& context) -> evidence::Result<evidence::record::ChangeSet> {
            session::TypedDimension typed;
            typed.name = fields.name->text().toStdString();
            typed.component = fields.component->currentText().toStdString();
            typed.quantity = quantityIn(fields);
            typed.unit = fields.unit->currentText().toStdString();
            typed.tolerance = fields.tolerance->text().toStdString();
            typed.critical = fields.critical->isChecked();
            const auto draft = session::draftOf(typed);
            if (!draft) return tl::unexpected(draft.error());
            return session::planDimension(context, *draft);
        });
    return sheet;
}

}  // namespace app::desk::form
