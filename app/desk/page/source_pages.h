#pragma once

#include "app/session/chosen.h"
#include "evidence-core/record/source.h"

#include <vector>

namespace app::desk::page {

/// All pages of a source, file after file: what "page n of m" counts. A file whose pages were not
/// counted has one.
[[nodiscard]] std::vector<session::PageOfFile> pagesOf(const evidence::record::Source& source);

/// The place of a page among the pages of its source; −1 where it is none of them.
[[nodiscard]] int placeOf(const session::PageOfFile& page,
                          const std::vector<session::PageOfFile>& pages);

}  // namespace app::desk::page
