#pragma once

#include "evidence-core/judgement/context.h"

#include <string>
#include <vector>

/// Private to judgement/finding/: what the members of a conflict are about.
namespace evidence::judgement {

struct About {
    std::vector<record::AnyId> on;  ///< dimensions first, then the members
    std::vector<record::AnyId> dimensions;
    std::string subject;  ///< names of the dimensions; empty where there is none
    double factor = 1;    ///< canonical = shown × factor
    std::string unit = "in";
};

[[nodiscard]] About aboutMembers(const Context& context, const network::Conflict& conflict);

/// The dimensions of a relation, in the register's order.
[[nodiscard]] std::vector<record::AnyId> dimensionsOf(const Context& context,
                                                      const network::RelationSolution& relation);

}  // namespace evidence::judgement
