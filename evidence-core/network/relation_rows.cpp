#include "evidence-core/network/equation_builder.h"
#include "evidence-core/network/strength.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

/// Rows of relations: 0 = left − right (+ shared errors), with the relation's u.
namespace evidence::network {

namespace {

struct RelationModel {
    Formula formula;
    std::vector<std::size_t> unknowns;  ///< by name
    std::vector<Slope> relative;        ///< multiply the left side
    std::vector<Slope> absolute;

    [[nodiscard]] Prediction predict(const Eigen::VectorXd& x) const {
        Prediction out;
        std::vector<double> values;
        values.reserve(unknowns.size());
        for (const std::size_t i : unknowns) values.push_back(x(static_cast<Eigen::Index>(i)));
        const auto jet = evaluate(formula, values);
        out.defined = jet.has_value() && std::isfinite(jet->value);
        out.value = out.defined ? jet->value : 0;
        for (std::size_t k = 0; k < unknowns.size(); ++k) {
            const double slope = out.defined ? jet->gradient[k] : 0;
            if (!std::isfinite(slope)) out.defined = false;
            // Two codes may name one dimension: its slopes add.
            const auto same =
                std::find_if(out.slopes.begin(), out.slopes.end(),
                             [&](const Slope& s) { return s.unknown == unknowns[k]; });
            if (same == out.slopes.end())
                out.slopes.push_back({unknowns[k], std::isfinite(slope) ? slope : 0});
            else
                same->slope += std::isfinite(slope) ? slope : 0;
        }
        if (!relative.empty()) {
            const double size = leftSize(values);
            for (const auto& e : relative) {
                out.value += e.slope * size * x(static_cast<Eigen::Index>(e.unknown));
                out.slopes.push_back({e.unknown, e.slope * size});
            }
        }
        for (const auto& e : absolute) {
            out.value += e.slope * x(static_cast<Eigen::Index>(e.unknown));
            out.slopes.push_back(e);
        }
        return out;
    }

    /// The left side alone: the formula with its right side replaced by nought.
    [[nodiscard]] double leftSize(const std::vector<double>& values) const {
        Formula left = formula;
        left.right = left.nodes.size();
        FormulaNode zero;
        zero.operation = Operation::Number;
        left.nodes.push_back(zero);
        const auto jet = evaluate(left, values);
        return jet ? jet->value : 0;
    }
};

tl::unexpected<Refusal> inFormula(Refusal refusal, std::size_t relation) {
    refusal.place = fmt::format("/relations/{}/formula", relation) +
                    (refusal.place.empty() ? "" : ", " + refusal.place);
    return tl::unexpected<Refusal>(std::move(refusal));
}

}  // namespace

Result<void> EquationBuilder::addRelation(std::size_t l) {
    const auto& relation = m_reg.relations[l];
    auto formula =
        parseFormula(relation.formula, [&](std::string_view code) -> std::optional<std::string> {
            const auto d = m_index.dimensionNamed(code);
            return d ? std::optional(m_reg.dimensions[*d].id.text) : std::nullopt;
        });
    if (!formula) return inFormula(formula.error(), l);
    std::vector<quantity::Measure> measures;
    for (const auto& name : formula->names)
        measures.push_back(m_triage.dimensions[*m_index.dimension(name)].measure);
    if (const auto units = checkUnits(*formula, measures); !units)
        return inFormula(units.error(), l);
    if (relation.u && !(*relation.u >= 0 && std::isfinite(*relation.u)))
        return refuse(Code::BadValue, fmt::format("/relations/{}/u", l),
                      "An uncertainty is a number of 0 or more.");
    m_eq.relationSign[l] = formula->relationSign;

    RelationModel model;
    std::string key;
    for (const auto& name : formula->names) {
        const std::size_t d = *m_index.dimension(name);
        m_eq.relationDimensions[l].push_back(d);
        key += m_triage.dimensions[d].key + "\x1e";
        if (!m_eq.ofDimension[d])
            m_eq.relationWhy[l] = "one of its dimensions is set aside";
        else
            model.unknowns.push_back(*m_eq.ofDimension[d]);
    }
    const auto* source = m_index.source(relation.source);
    if (relation.setAside)
        m_eq.relationWhy[l] = "set aside";
    else if (source != nullptr && source->setAside)
        m_eq.relationWhy[l] = "its source is set aside";
    else if (formula->names.empty())
        m_eq.relationWhy[l] = "it names no dimension";
    if (!m_eq.relationWhy[l].empty()) return {};

    Row row;
    row.kind = RowKind::Relation;
    row.record = l;
    auto basis = relation.basis;
    if (!basis && !relation.source) basis = record::Basis::Assumed;
    row.leaf = leaf(leafOf(LeafKind::Relation, relation.id.text, basis, relation.source));
    row.ownU = relation.u.value_or(0);
    row.sign = formula->relationSign;
    const auto use = relation.use.value_or(record::RelationUse{record::Use::Adjust});
    if (formula->relationSign != RelationSign::Equal) {
        row.role = RowRole::Check;
    } else if (const auto* plain = std::get_if<record::Use>(&use)) {
        row.role = *plain == record::Use::Check ? RowRole::Check : RowRole::Adjust;
    } else {
        const auto d = m_index.dimension(std::get<record::Infer>(use).infer.text);
        const auto& names = m_eq.relationDimensions[l];
        if (!d || std::find(names.begin(), names.end(), *d) == names.end())
            return refuse(Code::MissingTarget, fmt::format("/relations/{}/use/infer", l),
                          "Name a dimension that stands in the formula.");
        row.role = RowRole::Infer;
        row.target = d;
    }
    SizeErrors errors = sharedErrors(relation.id.text);
    model.relative = std::move(errors.relative);
    model.absolute = std::move(errors.absolute);
    model.formula = *std::move(formula);
    row.predict = [model = std::move(model)](const Eigen::VectorXd& x) { return model.predict(x); };
    row.key = fmt::format("relation\x1f{}\x1f{}\x1f{}", key, relation.reason.value_or(""),
                          relation.id.text);
    m_eq.rows.push_back(std::move(row));
    return {};
}

}  // namespace evidence::network
