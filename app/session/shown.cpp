#include "app/session/shown.h"

#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/measure.h"

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;

quantity::Display displayOf(const record::ArchiveInfo& archive, quantity::Typesetting type) {
    quantity::Display display;
    display.type = type;
    display.smallestFraction = archive.smallestFraction.value_or(32);
    switch (archive.displayUnit.value_or(record::DisplayUnit::Inch)) {
        case record::DisplayUnit::Inch:
            display.lengthUnit = quantity::Unit::Inch;
            display.style = quantity::LengthStyle::FeetInches;
            break;
        case record::DisplayUnit::Millimetre:
            display.lengthUnit = quantity::Unit::Millimetre;
            break;
        case record::DisplayUnit::Centimetre:
            display.lengthUnit = quantity::Unit::Centimetre;
            break;
    }
    return display;
}

quantity::ShownValue shown(const evidence::judgement::DimensionResult& result,
                           const record::Dimension& dimension, const record::ArchiveInfo& archive,
                           quantity::Typesetting type) {
    if (!result.value || !result.low95 || !result.high95) return {"not known", "", "", ""};
    const auto unit = record::unitOf(dimension);
    return quantity::shownValue(quantity::toCanonical(*result.low95, unit),
                                quantity::toCanonical(*result.value, unit),
                                quantity::toCanonical(*result.high95, unit),
                                record::measureOf(dimension.quantity), displayOf(archive, type));
}

}  // namespace app::session
