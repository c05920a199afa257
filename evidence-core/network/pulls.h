#pragma once

#include "evidence-core/network/net.h"
#include "evidence-core/quantity/interval.h"

#include <map>
#include <vector>

/// Private to network/: what moves an adjusted unknown.
namespace evidence::network {

/// All that pulls one unknown: by leaf, and as independent components of its error.
struct Pulls {
    std::map<std::size_t, double> variance;  ///< by leaf
    std::vector<quantity::Component> components;
};

/// `column` is the unknown's in `part`, which must have its full detail.
[[nodiscard]] Pulls pullsOn(const Net& net, const Adjustment& part, Eigen::Index column);

}  // namespace evidence::network
