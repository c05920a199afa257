#include "app/session/known_page.h"

#include "evidence-core/record/lookup.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;

evidence::Result<std::string> knownPage(const record::Register& reg, const record::FileId& file,
                                        int page, const std::string& prefix) {
    const auto* known = record::find(reg, file);
    if (!known)
        return refuse(Code::MissingTarget, prefix + "file",
                      fmt::format("there is no file \"{}\" in the register", file.text));
    if (page < 1 || (known->pages && page > *known->pages))
        return refuse(Code::BadValue, prefix + "page",
                      known->pages
                          ? fmt::format("this file has pages 1 to {}; there is no page {}",
                                        *known->pages, page)
                          : fmt::format("pages are counted from 1; there is no page {}", page));
    const auto* source = record::sourceOf(reg, file);
    return fmt::format("page {} of {}", page, source->code.value_or(source->title));
}

}  // namespace app::session
