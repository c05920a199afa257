#include "app/session/shown.h"
#include "app/session/spread_shown.h"
#include "app/session/typed_reading.h"
#include "evidence-core/network/triage.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

namespace app::session {

namespace network = evidence::network;
namespace quantity = evidence::quantity;
namespace record = evidence::record;

ReadingWorth worthOf(const record::Reading& reading, const record::Register& reg) {
    const auto* dimension = record::find(reg, record::DimensionId{reading.of.text});
    if (!dimension) return {};
    // Sorted among all the others, since a sheet's finest figure sets the default of its figures.
    record::Register with = reg;
    with.readings.push_back(reading);
    with.readings.back().id = {"the reading being written"};
    const network::RegisterIndex index(with);
    const auto triage = network::triage(index, network::Origins(with.sources));
    if (!triage || triage->readings.empty()) return {};
    const auto& sorted = triage->readings.back();
    ReadingWorth worth;
    worth.leftOut = sorted.why;
    if (!sorted.value || !sorted.spread) return worth;
    worth.takenAs =
        shownWithSpread(sorted.value->value, *sorted.spread, record::measureOf(dimension->quantity),
                        displayOf(reg.archive, quantity::Typesetting::Typographic))
            .text();
    worth.byDefault = sorted.spread->byDefault;
    worth.floored = sorted.spread->floored;
    return worth;
}

}  // namespace app::session
