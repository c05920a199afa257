#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <string>

namespace app::session {

/// A page of a file of the register, as people call it: "page 2 of S3".
/// Errors: MissingTarget at `prefix` + "file"; BadValue at `prefix` + "page" where the file has no
/// such page.
[[nodiscard]] evidence::Result<std::string> knownPage(const evidence::record::Register& reg,
                                                      const evidence::record::FileId& file,
                                                      int page, const std::string& prefix);

}  // namespace app::session
