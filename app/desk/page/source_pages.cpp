#include "app/desk/page/source_pages.h"

#include <algorithm>

namespace app::desk::page {

std::vector<session::PageOfFile> pagesOf(const evidence::record::Source& source) {
    std::vector<session::PageOfFile> pages;
    for (const auto& file : source.files)
        for (int page = 1; page <= std::max(1, file.pages.value_or(1)); ++page)
            pages.push_back({file.id, page});
    return pages;
}

int placeOf(const session::PageOfFile& page, const std::vector<session::PageOfFile>& pages) {
    const auto found = std::ranges::find(pages, page);
    return found == pages.end() ? -1 : static_cast<int>(found - pages.begin());
}

}  // namespace app::desk::page
