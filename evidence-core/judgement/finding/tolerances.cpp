#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

void findTolerances(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (std::size_t i = 0; i < c.solution.dimensions.size(); ++i) {
        const auto& d = c.solution.dimensions[i];
        const auto& dimension = c.record(d);
        if (d.setAside || !d.uncut95 || !dimension.tolerance) continue;
        const auto& unit = c.units[i];
        const double halfWidth = unit.shown(d.uncut95->high - d.uncut95->low) / 2;
        if (!(halfWidth > *dimension.tolerance / 2)) continue;
        findings.push_back(made(
            "tolerance-finer", {record::any(d.id)},
            fmt::format("{} is wanted within {} either way, and the evidence gives it only "
                        "within {}.",
                        nameOf(dimension), sizeText(*dimension.tolerance, std::nullopt, unit.name),
                        amountText(halfWidth, unit.name)),
            judged.grades[i].grade == record::Grade::InHand
                ? "A closer gauging of it, or a joint that allows for more."
                : "Better evidence, or a joint that allows for more. " + judged.grades[i].raiseBy,
            {{"half_width95", halfWidth}, {"tolerance", *dimension.tolerance}}));
    }
}

}  // namespace evidence::judgement
