#pragma once

#include "evidence-core/record/register.h"

#include <string>

namespace evidence::exchange {

/// The register as one exchange document: UTF-8 with two spaces of indent, keys and tables in the
/// contract's order, numbers as they were written. Same register, same bytes. Files of which the
/// hash is known get the path `originals/<sha256>.<ext>`.
[[nodiscard]] std::string writeDocument(const record::Register& reg);

/// Where the bytes of a file lie in an archive folder: `originals/<sha256>.<ext>`, the extension
/// being that of its original name or path in lower-case letters and digits, left out where it has
/// none. Needs a hash.
[[nodiscard]] std::string originalsPath(const record::File& file);

}  // namespace evidence::exchange
