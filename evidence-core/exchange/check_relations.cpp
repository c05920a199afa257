#include "evidence-core/exchange/register_check.h"
#include "evidence-core/network/formula.h"
#include "evidence-core/record/measure.h"

#include <fmt/format.h>

namespace evidence::exchange {

namespace {

/// The id of the dimension a name in a formula stands for.
std::optional<std::string> dimensionCoded(const record::Register& reg, std::string_view code) {
    for (const auto& dimension : reg.dimensions)
        if (dimension.code == code) return dimension.id.text;
    return std::nullopt;
}

bool refuseFormula(const CheckContext& context, const Refusal& refusal) {
    return refuseAt(
        context, "formula", refusal.code,
        refusal.place.empty() ? refusal.help : fmt::format("{}: {}", refusal.place, refusal.help));
}

}  // namespace

bool checkSense(const CheckContext& context, const record::Relation& relation) {
    if (!checkNumber(context, "u", relation.u, Least::NotNegative)) return false;
    const auto formula = network::parseFormula(
        relation.formula, [&](std::string_view code) { return dimensionCoded(context.reg, code); });
    if (!formula) return refuseFormula(context, formula.error());
    std::vector<quantity::Measure> measures;
    bool inferredIsNamed = true;
    if (relation.use) {
        if (const auto* infer = std::get_if<record::Infer>(&*relation.use)) {
            inferredIsNamed = false;
            for (const auto& name : formula->names)
                inferredIsNamed = inferredIsNamed || name == infer->infer.text;
        }
    }
    for (const auto& name : formula->names) {
        const auto* entry = context.index.find(name);
        measures.push_back(measureOf(context.reg.dimensions[entry->position].quantity));
    }
    const auto exponents = network::checkUnits(*formula, measures);
    if (!exponents) return refuseFormula(context, exponents.error());
    if (!inferredIsNamed)
        return refuseAt(context, "use", Code::MissingTarget,
                        "the dimension to infer does not stand in the formula");
    return true;
}

}  // namespace evidence::exchange
