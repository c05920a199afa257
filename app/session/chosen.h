#pragma once

#include "evidence-core/record/register.h"

namespace app::session {

/// One page of one file: what the page view shows.
struct PageOfFile {
    evidence::record::FileId file;
    int page = 1;

    friend bool operator==(const PageOfFile&, const PageOfFile&) = default;
};

/// All that belongs to what was chosen; empty ids where nothing does.
struct Chosen {
    evidence::record::AnyId record;  ///< what was chosen itself
    evidence::record::AnyId size;    ///< the dimension or particular
    evidence::record::MarkId mark;
    evidence::record::SourceId source;
    PageOfFile page;

    friend bool operator==(const Chosen&, const Chosen&) = default;
};

/// All about `record`: of a size the mark of its first reading that counts and has one, with its
/// page and source (else the source of its first reading); of a mark the size it measures; of a
/// reading its size; of a scale its page and first reference mark; of a source its first file.
/// An id that the register does not know gives `record` alone.
[[nodiscard]] Chosen allAbout(const evidence::record::AnyId& record,
                              const evidence::record::Register& reg);

/// Whether a record can be set aside: a reading, mark, scale, relation, shared error, source,
/// dimension or particular that is not set aside already.
[[nodiscard]] bool canBeSetAside(const evidence::record::AnyId& record,
                                 const evidence::record::Register& reg);

}  // namespace app::session
