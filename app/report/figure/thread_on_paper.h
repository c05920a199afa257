#pragma once

#include "evidence-core/judgement/thread.h"

#include <cstddef>

namespace app::report::figure {

/// A thread cut to what a printed page can hold legibly. Marks and excerpts are left out (their
/// pictures stand beside the thread): what fed them feeds what they fed. Where a stage has more
/// than `most` nodes (at least 2), those that carry least are gathered in one, "12 more"; the nodes
/// that lead straight to the value are gathered last.
[[nodiscard]] evidence::judgement::Thread threadOnPaper(const evidence::judgement::Thread& thread,
                                                        std::size_t most);

}  // namespace app::report::figure
