#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <optional>
#include <string>
#include <vector>

namespace evidence::judgement {

/// One moment of a register with what was known then.
struct Moment {
    const record::Register& reg;
    const Analysis& analysis;
};

/// A dimension that is not what it was. Values in the dimension's unit as it is later.
struct Move {
    record::DimensionId dimension;
    std::string code;
    std::optional<double> from;
    std::optional<double> to;
    std::optional<double> spread;  ///< half of the former 95 % interval
};

struct GradeChange {
    record::AnyId on;
    std::string code;
    record::Grade from = record::Grade::Blank;
    record::Grade to = record::Grade::Blank;
};

/// What changed between two moments of one register.
struct Comparison {
    std::vector<Move> moved;  ///< beyond half the former 95 % interval, or known only at one moment
    std::vector<GradeChange> grades;         ///< dimensions and particulars
    std::vector<record::SlipId> slips;       ///< out at the later moment, on what moved
    std::vector<record::AsBuiltId> asBuilt;  ///< made, on what moved
    std::vector<record::AnyId> added;        ///< dimensions and particulars new since
};

/// Lists are in the later register's order.
[[nodiscard]] Comparison compare(const Moment& before, const Moment& after);

}  // namespace evidence::judgement
