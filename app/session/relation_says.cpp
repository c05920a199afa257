#include "app/session/relation_says.h"

#include "app/session/result_of.h"
#include "app/session/shown.h"
#include "evidence-core/network/formula.h"
#include "evidence-core/network/register_index.h"
#include "evidence-core/record/measure.h"

#include <algorithm>
#include <cmath>

namespace app::session {

namespace judgement = evidence::judgement;
namespace network = evidence::network;
namespace quantity = evidence::quantity;
namespace record = evidence::record;

namespace {

constexpr int kMostSteps = 40;
constexpr double kSettled = 1e-10;

/// The formula's dimensions at their present values, in its order, canonical units.
struct Values {
    std::vector<double> value;
    std::vector<double> halfWidth;
    std::size_t asked = 0;
};

struct Solved {
    double value = 0;
    double halfWidth = 0;
    double slope = 0;  ///< of left − right
};

std::optional<Values> presentValues(const network::Formula& formula,
                                    const record::Dimension& dimension,
                                    const network::RegisterIndex& index,
                                    const judgement::Analysis& analysis) {
    Values values;
    double sum = 0;
    for (const auto& name : formula.names) {
        const auto* result = resultOfDimension(analysis, name);
        const bool asked = name == dimension.id.text;
        if (asked) values.asked = values.value.size();
        const bool known = result && result->value && result->low95 && result->high95;
        if (!known && !asked) return std::nullopt;
        const auto unit = record::unitOf(index.reg().dimensions[*index.dimension(name)]);
        values.value.push_back(known ? quantity::toCanonical(*result->value, unit) : 0.0);
        values.halfWidth.push_back(
            known ? quantity::toCanonical((*result->high95 - *result->low95) / 2, unit) : 0.0);
        sum += values.value.back();
    }
    // Without a value of its own the search starts among the others.
    if (values.value[values.asked] == 0.0)
        values.value[values.asked] =
            sum == 0.0 ? 1.0 : sum / static_cast<double>(formula.names.size());
    return values;
}

std::optional<Solved> solved(const network::Formula& formula, Values values) {
    double& x = values.value[values.asked];
    for (int step = 0; step < kMostSteps; ++step) {
        const auto jet = network::evaluate(formula, values.value);
        if (!jet) return std::nullopt;
        const double slope = jet->gradient[values.asked];
        const double move = jet->value / slope;
        if (!std::isfinite(move)) return std::nullopt;
        x -= move;
        if (std::abs(move) > kSettled * std::max(1.0, std::abs(x))) continue;
        Solved out{x, 0, slope};
        for (std::size_t i = 0; i < values.value.size(); ++i)
            if (i != values.asked)
                out.halfWidth += std::abs(jet->gradient[i] / slope) * values.halfWidth[i];
        return out;
    }
    return std::nullopt;
}

RelationSays sense(network::RelationSign sign, double slope) {
    switch (sign) {
        case network::RelationSign::Equal:
            return RelationSays::Equal;
        case network::RelationSign::AtMost:
            return slope > 0 ? RelationSays::AtMost : RelationSays::AtLeast;
        case network::RelationSign::AtLeast:
            return slope > 0 ? RelationSays::AtLeast : RelationSays::AtMost;
    }
    return RelationSays::Nothing;
}

}  // namespace

std::optional<RelationTold> whatRelationSays(const record::Relation& relation,
                                             const record::Dimension& dimension,
                                             const record::Register& reg,
                                             const judgement::Analysis& analysis) {
    const network::RegisterIndex index(reg);
    const auto formula = network::parseFormula(
        relation.formula, [&](std::string_view code) -> std::optional<std::string> {
            const auto at = index.dimensionNamed(code);
            return at ? std::optional(reg.dimensions[*at].id.text) : std::nullopt;
        });
    if (!formula || std::ranges::count(formula->names, dimension.id.text) == 0) return std::nullopt;

    RelationTold told;
    told.words = network::readable(*formula, [&](std::string_view id) {
        return reg.dimensions[*index.dimension(std::string(id))].name;
    });
    for (const auto& name : formula->names)
        if (name != dimension.id.text) told.others.push_back({name});
    const auto values = presentValues(*formula, dimension, index, analysis);
    const auto solution = values ? solved(*formula, *values) : std::nullopt;
    if (!solution) return told;
    told.says = sense(formula->relationSign, solution->slope);
    told.size = quantity::plusMinus(solution->value - solution->halfWidth, solution->value,
                                    solution->value + solution->halfWidth,
                                    record::measureOf(dimension.quantity),
                                    displayOf(reg.archive, quantity::Typesetting::Typographic));
    return told;
}

}  // namespace app::session
