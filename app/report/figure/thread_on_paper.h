#pragma once

#include "evidence-core/judgement/thread.h"

#include <cstddef>

namespace app::report::figure {

/// A thread with at most `most` nodes (at least 2) in each stage: those that carry least are
/// gathered in one, "12 more", whose id ends in `/more-` and the stage; the nodes that lead
/// straight to the value are gathered last.
[[nodiscard]] evidence::judgement::Thread gatheredThread(const evidence::judgement::Thread& thread,
                                                         std::size_t most);

/// A thread cut to what a printed page can hold legibly. Marks and excerpts are left out (their
/// pictures stand beside the thread): what fed them feeds what they fed. The rest is gathered.
[[nodiscard]] evidence::judgement::Thread threadOnPaper(const evidence::judgement::Thread& thread,
                                                        std::size_t most);

}  // namespace app::report::figure
