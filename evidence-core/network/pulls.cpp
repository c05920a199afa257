#include "evidence-core/network/pulls.h"

#include <cmath>

namespace evidence::network {

Pulls pullsOn(const Net& net, const Adjustment& part, Eigen::Index column) {
    Pulls out;
    const auto add = [&](std::size_t leaf, double u, ErrorShape shape) {
        if (!(u > 0)) return;
        out.variance[leaf] += u * u;
        out.components.push_back({u, shape});
    };
    for (std::size_t k = 0; k < part.rows.size(); ++k) {
        const Row& row = net.eq.rows[part.rows[k]];
        const double pull = std::abs(part.pull(column, static_cast<Eigen::Index>(k)));
        add(row.leaf, pull * row.ownU, row.ownShape);
        for (const auto& s : part.at[k].slopes) {
            if (!net.eq.isFolded[s.unknown]) continue;
            const auto& error = net.eq.unknowns[s.unknown];
            add(error.leaf, pull * std::abs(s.slope) * error.u, error.shape);
        }
    }
    return out;
}

}  // namespace evidence::network
