#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <optional>
#include <string>
#include <vector>

namespace evidence::judgement {

/// What a node of a thread is; columns of a drawing run in this order, left to right.
enum class ThreadStage { Source, Mark, Scale, Reading, Relation, Value };

/// One node of a thread: a source, a mark or excerpt, a scale, a reading, a relation or a value.
struct ThreadNode {
    std::string id;  ///< the record's id; references as `g1/0`
    ThreadStage stage = ThreadStage::Source;
    std::string title;   ///< in plain words: "Broadside photograph, Corran Museum 14/3"
    std::string detail;  ///< figures and words: "3'-7 5/16\" ± 1/8, scaled"
    record::Grade strength = record::Grade::Blank;  ///< class of the leaf
    bool guess = false;
    bool echo = false;
    bool setAside = false;
};

/// A flow from one node to another; `share` is its part of the value's variance (0 … 1).
struct ThreadLink {
    std::size_t from = 0;
    std::size_t to = 0;
    double share = 0;
};

/// All that one value hangs on, from sources to size. Evidence of other sizes that carries under 1
/// % of the doubt each is gathered in one node, "…/smaller".
struct Thread {
    std::string on;  ///< the dimension or particular
    std::vector<ThreadNode> nodes;
    std::vector<ThreadLink> links;
};

/// Errors: none; an id that names neither a dimension nor a particular gives an empty thread.
[[nodiscard]] Thread threadOf(const record::AnyId& on, const record::Register& reg,
                              const Analysis& analysis);

}  // namespace evidence::judgement
