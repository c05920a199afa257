#include "evidence-core/network/worth.h"

#include "evidence-core/quantity/parse_quantity.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace evidence::network {

using quantity::Measure;
using quantity::Unit;
using record::Basis;

Measure measureOf(record::DimensionQuantity quantity) {
    switch (quantity) {
        case record::DimensionQuantity::Length:
        case record::DimensionQuantity::Diameter:
        case record::DimensionQuantity::Radius:
            return Measure::Length;
        case record::DimensionQuantity::Angle:
            return Measure::Angle;
        case record::DimensionQuantity::Area:
            return Measure::Area;
        case record::DimensionQuantity::Volume:
            return Measure::Volume;
        case record::DimensionQuantity::Mass:
            return Measure::Mass;
        case record::DimensionQuantity::Count:
        case record::DimensionQuantity::Ratio:
            return Measure::Number;
    }
    return Measure::Number;
}

Result<Unit> unitOf(const record::Dimension& dimension) {
    const Measure measure = measureOf(dimension.quantity);
    if (!dimension.unit) return quantity::canonicalUnit(measure);
    return quantity::unitNamed(*dimension.unit, measure);
}

namespace {

std::string placed(std::string_view place, std::string_view key) {
    return std::string(place) + "/" + std::string(key);
}

tl::unexpected<Refusal> under(Refusal refusal, std::string_view place, std::string_view key) {
    refusal.place = placed(place, key) + (refusal.place.empty() ? "" : ", " + refusal.place);
    return tl::unexpected<Refusal>(std::move(refusal));
}

}  // namespace

Result<WrittenValue> readWritten(const record::Written& written,
                                 const std::optional<std::string>& unit, Measure measure,
                                 Unit bareUnit, std::string_view place) {
    if (unit) {
        const auto named = quantity::unitNamed(*unit, measure);
        if (!named) return under(named.error(), place, "unit");
        bareUnit = *named;
    }
    WrittenValue out;
    if (const auto* number = std::get_if<record::Number>(&written)) {
        if (!std::isfinite(number->value))
            return refuse(Code::NotFinite, std::string(place), "Give a finite number.");
        out.unit = bareUnit;
        out.value = quantity::toCanonical(number->value, bareUnit);
        // A number the program made has no written decimals: it claims no rounding of its own.
        const double step = number->text.empty() ? 0.0 : quantity::resolutionOfNumber(number->text);
        out.resolution = std::abs(quantity::toCanonical(step, bareUnit));
        return out;
    }
    const auto parsed = quantity::parseQuantity(std::get<std::string>(written), measure, bareUnit);
    if (!parsed) {
        Refusal refusal = parsed.error();
        refusal.place = std::string(place) + (refusal.place.empty() ? "" : ", " + refusal.place);
        return tl::unexpected<Refusal>(std::move(refusal));
    }
    return WrittenValue{parsed->canonical, parsed->resolution, parsed->unit, parsed->approximate};
}

Basis effectiveBasis(Basis basis, const WrittenValue& value) {
    return basis == Basis::Figured && value.approximate ? Basis::Stated : basis;
}

Result<void> checkLength(const record::KnownLength& length, std::string_view place) {
    if (length.dimension) return {};
    if (!length.value)
        return refuse(Code::MissingKey, std::string(place),
                      "Give the length a value, or name the dimension it is.");
    const auto value = readWritten(*length.value, length.unit, Measure::Length, Unit::Inch,
                                   placed(place, "value"));
    if (!value) return tl::unexpected<Refusal>(value.error());
    SpreadQuery query;
    query.basis = length.basis;
    if (!query.basis && length.source) query.basis = Basis::Stated;
    query.u = length.u;
    query.halfWidth = length.halfWidth;
    query.shape = length.shape;
    query.roundedTo = length.roundedTo;
    query.floorReason = length.floorReason.has_value();
    const auto spread = spreadOf(*value, query, {}, place);
    if (!spread) return tl::unexpected<Refusal>(spread.error());
    return {};
}

Result<void> checkReading(const record::Reading& reading, const record::Dimension& dimension,
                          std::string_view place) {
    const auto unit = unitOf(dimension);
    if (!unit) return under(unit.error(), place, "of");
    const Measure measure = measureOf(dimension.quantity);
    for (const auto& [key, written] : {std::pair{"low", &reading.low}, {"high", &reading.high}}) {
        if (!*written) continue;
        const auto limit = readWritten(**written, reading.unit, measure, *unit, placed(place, key));
        if (!limit) return tl::unexpected<Refusal>(limit.error());
    }
    if (!reading.value) return {};
    const auto value =
        readWritten(*reading.value, reading.unit, measure, *unit, placed(place, "value"));
    if (!value) return tl::unexpected<Refusal>(value.error());
    SpreadQuery query;
    query.basis = effectiveBasis(reading.basis, *value);
    query.measure = measure;
    query.ratio = dimension.quantity == record::DimensionQuantity::Ratio;
    query.u = reading.u;
    query.halfWidth = reading.halfWidth;
    query.shape = reading.shape;
    query.roundedTo = reading.roundedTo;
    query.dof = reading.dof;
    query.floorReason = reading.floorReason.has_value();
    const auto spread = spreadOf(*value, query, {}, place);
    if (!spread) return tl::unexpected<Refusal>(spread.error());
    return {};
}

}  // namespace evidence::network
