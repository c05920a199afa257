#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <optional>
#include <string>

/// Leaves: everything that brings information to the network and so has a class (domain.md,
/// "Leaves"). A size stands as high as the best class from whose leaves alone it can be computed.
namespace evidence::network {

/// What kind of thing a leaf is, and how its id is made.
enum class LeafKind {
    Reading,      ///< `r1`
    Limit,        ///< `r1`: a reading of limits that acts as a rectangular reading
    Reference,    ///< `g1/0`: a known length of a frame (shared ones carry the first id by content)
    Print,        ///< `g1/print`
    Mark,         ///< `m1`: pixels of a mark that is used more than once
    OffPlane,     ///< `r1/off_plane`
    Correction,   ///< `r1/corrections/0`
    SharedError,  ///< `e1`
    Relation,     ///< `l1`
    Workmanship,  ///< `workmanship/<article>/<dimension>`: a setting, never taken away
    Placing,      ///< `placing/<origin>/<dimension or reference>`: a default, never taken away
};

/// One leaf.
struct Leaf {
    std::string id;
    LeafKind kind = LeafKind::Reading;
    std::optional<record::Basis> basis;     ///< as written; absent where nobody gave one
    std::optional<record::Grade> strength;  ///< H … O; absent: sets no ceiling (`geometry`)
    std::optional<record::SourceId> source;
    /// Root that stands for all sources joined by descent or `replaces`; absent without a source.
    std::optional<record::SourceId> origin;
    bool byDefault = false;  ///< its uncertainty is the default of its basis
    bool floored = false;    ///< a guess whose spread was raised to the floor

    friend bool operator==(const Leaf&, const Leaf&) = default;
};

}  // namespace evidence::network
