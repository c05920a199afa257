#include "imaging/frame/tracked.h"

#include <algorithm>

namespace imaging::frame {

double Tracked::derivative(int index) const {
    const auto it = std::lower_bound(by.begin(), by.end(), index,
                                     [](const auto& term, int i) { return term.first < i; });
    return it != by.end() && it->first == index ? it->second : 0;
}

Tracked chained(double value, const std::vector<std::pair<double, const Tracked*>>& parts) {
    Tracked result{value, {}};
    for (const auto& [factor, part] : parts) {
        if (factor == 0) {
            continue;
        }
        for (const auto& [index, slope] : part->by) {
            result.by.emplace_back(index, factor * slope);
        }
    }
    std::sort(result.by.begin(), result.by.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    std::size_t kept = 0;
    for (std::size_t i = 0; i < result.by.size(); ++i) {
        if (kept > 0 && result.by[kept - 1].first == result.by[i].first) {
            result.by[kept - 1].second += result.by[i].second;
        } else {
            result.by[kept++] = result.by[i];
        }
    }
    result.by.resize(kept);
    return result;
}

Tracked operator+(const Tracked& a, const Tracked& b) {
    return chained(a.value + b.value, {{1, &a}, {1, &b}});
}

Tracked operator-(const Tracked& a, const Tracked& b) {
    return chained(a.value - b.value, {{1, &a}, {-1, &b}});
}

Tracked operator*(const Tracked& a, const Tracked& b) {
    return chained(a.value * b.value, {{b.value, &a}, {a.value, &b}});
}

Tracked operator*(double factor, const Tracked& a) {
    return chained(factor * a.value, {{factor, &a}});
}

}  // namespace imaging::frame
