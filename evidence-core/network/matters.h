#pragma once

#include "evidence-core/network/net.h"

#include <map>
#include <vector>

/// Private to network/: the dimensions whose doubt matters.
namespace evidence::network {

struct Matter {
    std::size_t dimension = 0;
    double tolerance = 0;  ///< wanted, ±, canonical unit
};

/// Critical dimensions and those wanted finer than the evidence gives, by part of the solution,
/// each list in content order.
[[nodiscard]] std::map<std::size_t, std::vector<Matter>> mattersByPart(const Net& net,
                                                                       const Solution& s);

}  // namespace evidence::network
