#include "evidence-core/trade/correction.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evidence::trade {

namespace {

using record::TableRowKind;

constexpr double kFibreSaturation = 28;  // per cent of moisture
constexpr double kDriest = 6;            // where the change coefficients hold, per cent
constexpr double kWettest = 14;
constexpr double kSteelExponent = 0.52;
constexpr double kZincExponent = 0.81;

tl::unexpected<Refusal> missing(std::string place, std::string help) {
    return refuse(Code::MissingKey, std::move(place), std::move(help));
}

std::string sourceWords(const Row& row) {
    return row.fromMemory && row.source.find("from memory") == std::string::npos
               ? row.source + " (from memory)"
               : row.source;
}

std::string withReason(const Row& row, const std::string& circumstances) {
    return fmt::format("Table row {}: {}, {}; {}.{}", row.id, row.name, row.measures,
                       sourceWords(row), circumstances.empty() ? "" : " " + circumstances);
}

struct Moistures {
    Known then;
    Known now;
};

Result<Moistures> moisturesOf(const Circumstances& given, double least, double most,
                              const char* beyond) {
    if (!given.moistureNow)
        return missing("moisture_now", "say how moist the wood is now, in per cent");
    if (!given.moistureThen)
        return missing("moisture_then", "say how moist the wood was when it was made, in per cent");
    for (const auto& [moisture, place] :
         {std::pair{given.moistureNow, "moisture_now"}, {given.moistureThen, "moisture_then"}})
        if (!(moisture->value >= least && moisture->value <= most))
            return refuse(Code::BadValue, place, beyond);
    return Moistures{*given.moistureThen, *given.moistureNow};
}

std::string moistureWords(const Moistures& m) {
    return fmt::format("Moisture {} % when made, {} % now.", m.then.value, m.now.value);
}

Result<WorkedCorrection> movementBy(const Row& row, const Circumstances& given) {
    const auto m = moisturesOf(given, kDriest, kWettest,
                               "these coefficients hold between 6 and 14 per cent: take a row of "
                               "wood shrinkage instead");
    if (!m) return tl::unexpected(m.error());
    const double c = row.canonical(row.value);
    const double change = m->then.value - m->now.value;
    const double u = std::hypot(change * row.canonical(row.u), c * m->then.u, c * m->now.u);
    return WorkedCorrection{"wood movement", 1 + c * change, std::nullopt, u,
                            withReason(row, moistureWords(*m))};
}

Result<WorkedCorrection> shrinkageBy(const Row& row, const Circumstances& given) {
    const auto m =
        moisturesOf(given, 0, 200, "moisture is between 0 per cent (oven-dry) and 200 per cent");
    if (!m) return tl::unexpected(m.error());
    const double s = row.canonical(row.value);
    const auto lost = [](const Known& moisture) {
        return std::max(0.0, kFibreSaturation - moisture.value) / kFibreSaturation;
    };
    const auto slope = [&](const Known& moisture) {
        return moisture.value < kFibreSaturation ? s / kFibreSaturation : 0.0;
    };
    const double then = 1 - s * lost(m->then);
    const double now = 1 - s * lost(m->now);
    const double factor = then / now;
    const double byRow = (-lost(m->then) + factor * lost(m->now)) / now * row.canonical(row.u);
    const double u = std::hypot(byRow, slope(m->then) / now * m->then.u,
                                factor * slope(m->now) / now * m->now.u);
    return WorkedCorrection{"wood shrinkage", factor, std::nullopt, u,
                            withReason(row, moistureWords(*m))};
}

Result<WorkedCorrection> contractionBy(const Row& row, const Circumstances& given) {
    if (!given.inHand)
        return missing("in_hand",
                       "say what was measured: the pattern, or a casting made with an "
                       "old part as its pattern");
    const double longer = 1 + row.canonical(row.value);
    const double u = row.canonical(row.u);
    if (*given.inHand == InHand::CopyCasting)
        return WorkedCorrection{"casting contraction", longer, std::nullopt, u,
                                withReason(row, "A casting made with an old part as its pattern.")};
    return WorkedCorrection{"casting contraction", 1 / longer, std::nullopt, u / (longer * longer),
                            withReason(row, "Measured on the pattern.")};
}

Result<int> facesOf(const Circumstances& given) {
    if (!given.faces) return missing("faces", "say how many faces lie open: 1 or 2");
    if (*given.faces != 1 && *given.faces != 2)
        return refuse(Code::BadValue, "faces", "a thickness has 1 or 2 open faces");
    return *given.faces;
}

Result<WorkedCorrection> lossBy(const Row& row, const Circumstances& given) {
    if (!given.years) return missing("years", "say for how many years it lay open");
    if (!(given.years->value > 0)) return refuse(Code::BadValue, "years", "more than 0 years");
    const auto faces = facesOf(given);
    if (!faces) return tl::unexpected(faces.error());
    const double b = row.system == "zinc" ? kZincExponent : kSteelExponent;
    const double grown = *faces * std::pow(given.years->value, b);
    const double loss = row.canonical(row.value) * grown;
    const double u =
        std::hypot(row.canonical(row.u) * grown, loss * b * given.years->u / given.years->value);
    return WorkedCorrection{"corrosion", std::nullopt, quantity::Inch::fromInches(loss), u,
                            withReason(row, fmt::format("{} years, {} open {}.", given.years->value,
                                                        *faces, *faces == 1 ? "face" : "faces"))};
}

Result<WorkedCorrection> coatingBy(const Row& row, const Circumstances& given) {
    const auto faces = facesOf(given);
    if (!faces) return tl::unexpected(faces.error());
    return WorkedCorrection{
        row.name, std::nullopt, quantity::Inch::fromInches(-*faces * row.canonical(row.value)),
        *faces * row.canonical(row.u),
        withReason(row, fmt::format("On {} {}.", *faces, *faces == 1 ? "face" : "faces"))};
}

Result<WorkedCorrection> expansionBy(const Row& row, const Circumstances& given) {
    if (!given.degreesNow) return missing("degrees_now", "say how warm it was when measured");
    if (!given.degreesThen)
        return missing("degrees_then", "say how warm it is meant to be, such as 68 degF");
    const double alpha = row.canonical(row.value);
    const double change = given.degreesThen->value - given.degreesNow->value;
    return WorkedCorrection{
        "heat", 1 + alpha * change, std::nullopt,
        std::hypot(change * row.canonical(row.u), alpha * given.degreesThen->u,
                   alpha * given.degreesNow->u),
        withReason(row, fmt::format("Measured at {} degF, meant at {} degF.",
                                    given.degreesNow->value, given.degreesThen->value))};
}

}  // namespace

Result<WorkedCorrection> correctionBy(const Row& row, const Circumstances& circumstances) {
    switch (row.kind) {
        case TableRowKind::WoodMovement:
            return movementBy(row, circumstances);
        case TableRowKind::WoodShrinkage:
            return shrinkageBy(row, circumstances);
        case TableRowKind::CastingContraction:
            return contractionBy(row, circumstances);
        case TableRowKind::SheetChange:
            return WorkedCorrection{"sheet shrinkage", 1 + row.canonical(row.value), std::nullopt,
                                    row.canonical(row.u), withReason(row, "")};
        case TableRowKind::SurfaceLoss:
            return lossBy(row, circumstances);
        case TableRowKind::Coating:
            return coatingBy(row, circumstances);
        case TableRowKind::Expansion:
            return expansionBy(row, circumstances);
        case TableRowKind::Length:
        case TableRowKind::Density:
            break;
    }
    return refuse(
        Code::WrongUse, "table_row",
        fmt::format("the row \"{}\" ({}) gives a size, not a correction", row.id, row.name));
}

}  // namespace evidence::trade
