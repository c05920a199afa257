#include "app/session/guess_worth.h"

#include "app/session/shown.h"
#include "app/session/spread_shown.h"
#include "evidence-core/network/worth.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

namespace app::session {

namespace network = evidence::network;
namespace quantity = evidence::quantity;
namespace record = evidence::record;

GuessWorth guessWorth(const record::AnyId& of, const std::string& low, const std::string& high,
                      const record::Register& reg) {
    const auto* dimension = record::find(reg, record::DimensionId{of.text});
    if (!dimension) return {};
    const auto measure = record::measureOf(dimension->quantity);
    const auto unit = record::unitOf(*dimension);
    const auto from = quantity::parseQuantity(low, measure, unit);
    const auto to = quantity::parseQuantity(high, measure, unit);
    if (!from || !to || !(from->canonical < to->canonical)) return {};

    network::WrittenValue middle;
    middle.value = (from->canonical + to->canonical) / 2;
    middle.unit = quantity::canonicalUnit(measure);
    network::SpreadQuery query;
    query.basis = record::Basis::Guessed;
    query.measure = measure;
    query.ratio = dimension->quantity == record::DimensionQuantity::Ratio;
    query.halfWidth = quantity::fromCanonical((to->canonical - from->canonical) / 2, middle.unit);
    const auto spread =
        network::spreadOf(middle, query, reg.archive.settings.value_or(record::Settings{}), "");
    if (!spread) return {};
    const auto display = displayOf(reg.archive, quantity::Typesetting::Typographic);
    GuessWorth worth;
    worth.takenAs = shownWithSpread(middle.value, *spread, measure, display).text();
    if (spread->floored)
        worth.floor = quantity::uText(rectangularHalfWidth(*spread), measure, display);
    return worth;
}

}  // namespace app::session
