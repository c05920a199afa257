#include "tests/checks/fit.h"

#include "tests/evidence-core/network/net_sketch.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

namespace checks {

using namespace evidence;

Fit fitted(const std::vector<double>& observed, std::size_t parameters,
           const std::function<std::string(std::size_t)>& predicted,
           const std::vector<double>& start) {
    // 1e9 times the start: against observations its weight is below rounding.
    constexpr double kNoWeight = 1e9;
    testsupport::NetSketch b;
    for (std::size_t i = 0; i < parameters; ++i) {
        const auto d = b.dimension(record::DimensionQuantity::Ratio);
        if (!start.empty())
            b.reading(d, start[i], kNoWeight * std::max(1.0, std::abs(start[i])), b.source());
    }
    for (std::size_t i = 0; i < observed.size(); ++i)
        b.relation(fmt::format("{} = {}", observed[i], predicted(i)), 1, record::Basis::Measured);
    Fit fit;
    const auto solution = network::solve(b.reg);
    if (!solution) {
        ADD_FAILURE() << solution.error().place << ": " << solution.error().help;
        return fit;
    }
    fit.estimable = true;
    for (const auto& d : solution->dimensions) {
        if (!d.value || !d.u) fit.estimable = false;
        if (fit.why.empty()) fit.why = d.why;
    }
    if (!fit.estimable) return fit;
    fit.sumOfSquares = solution->chi2;
    fit.deviation = std::sqrt(solution->chi2 / static_cast<double>(observed.size() - parameters));
    for (const auto& d : solution->dimensions) {
        fit.parameters.push_back(*d.value);
        fit.deviations.push_back(*d.u * fit.deviation);
    }
    return fit;
}

}  // namespace checks
