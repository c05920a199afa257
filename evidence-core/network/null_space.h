#pragma once

#include "evidence-core/network/equations.h"

#include <vector>

namespace evidence::network {

/// Unknowns that hang together by rows which none of them satisfies alone.
struct OpenGroup {
    std::vector<std::size_t> unknowns;
    std::vector<std::vector<Slope>> rows;  ///< relative slopes by place in `unknowns`
};

struct NullSpace {
    std::vector<bool> still;        ///< by place: does not move in any direction that is open
    std::vector<std::size_t> free;  ///< places that, once fixed, leave all others fixed
};

/// By a rank-revealing QR; a large group first by substitution, which leaves few parameters for the
/// QR: any unknown becomes a parameter, what follows from the parameters is expressed by them, and
/// the rows left over say which parameters are no parameters.
[[nodiscard]] NullSpace nullSpaceOf(const OpenGroup& group);

}  // namespace evidence::network
