#include "evidence-core/network/fit.h"

#include <algorithm>
#include <map>

namespace evidence::network {

bool Fit::has(std::size_t unknown) const {
    return estimability.estimable[unknown] && partOf[unknown] && parts[*partOf[unknown]].converged;
}

double Fit::covariance(const std::vector<Slope>& a, const std::vector<Slope>& b) const {
    std::map<std::size_t, std::pair<SparseVector, SparseVector>> forms;  // by part
    const auto sort = [&](const std::vector<Slope>& slopes, auto pick) {
        for (const auto& s : slopes) {
            if (!columnOf[s.unknown] || !parts[*partOf[s.unknown]].influence) continue;
            SparseVector& form = pick(forms[*partOf[s.unknown]]);
            form.emplace_back(*columnOf[s.unknown], s.slope);
        }
    };
    sort(a, [](auto& pair) -> SparseVector& { return pair.first; });
    sort(b, [](auto& pair) -> SparseVector& { return pair.second; });
    double sum = 0;
    for (const auto& [part, form] : forms)
        sum += parts[part].influence->covariance(form.first, form.second);
    return sum;
}

RowMask actingRows(const Equations& eq, const Structure& structure, const RowMask& allowed) {
    RowMask acting(eq.rows.size(), false);
    for (std::size_t r = 0; r < eq.rows.size(); ++r)
        acting[r] = allowed[r] && eq.rows[r].role == RowRole::Adjust;
    for (const RowRole role : {RowRole::Infer, RowRole::Backup}) {
        const auto otherwise = structure.estimability(acting).estimable;
        for (std::size_t r = 0; r < eq.rows.size(); ++r) {
            const Row& row = eq.rows[r];
            if (!allowed[r] || row.role != role || !row.target) continue;
            const auto unknown = eq.ofDimension[*row.target];
            acting[r] = unknown && !otherwise[*unknown];
        }
    }
    return acting;
}

Fit fit(const Equations& eq, const Structure& structure, RowMask allowed,
        const Eigen::VectorXd& start) {
    Fit out;
    Adjuster adjuster(eq);
    while (true) {
        const auto former = std::move(out.contradicted);
        out = Fit{};
        out.contradicted = former;
        out.acting = actingRows(eq, structure, allowed);
        out.estimability = structure.estimability(out.acting);
        out.partOf.resize(eq.unknowns.size());
        out.columnOf.resize(eq.unknowns.size());
        out.x = start;
        const auto& free = out.estimability.free;
        for (auto& part : connectedParts(eq, out.acting)) {
            std::vector<std::size_t> columns;
            for (const std::size_t i : part.unknowns) {
                out.partOf[i] = out.parts.size();
                if (std::binary_search(free.begin(), free.end(), i)) continue;
                out.columnOf[i] = static_cast<Eigen::Index>(columns.size());
                columns.push_back(i);
            }
            out.parts.push_back(adjuster.run(columns, part.rows, out.x));
            const auto& adjusted = out.parts.back();
            out.contradicted.insert(out.contradicted.end(), adjusted.contradicted.begin(),
                                    adjusted.contradicted.end());
            out.members.push_back(std::move(part.unknowns));
        }
        if (out.contradicted.size() == former.size()) return out;
        for (const std::size_t r : out.contradicted) allowed[r] = false;
    }
}

}  // namespace evidence::network
