#pragma once

#include "imaging/refusal.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace imaging::raster {

struct Kind {
    std::string mediaType;               ///< by content
    std::optional<std::string> namedAs;  ///< media type of the file's extension where it differs
    std::uint64_t bytes = 0;
};

/// Media type of a file by its first bytes, whatever its name. MissingFile where it cannot be
/// opened.
[[nodiscard]] Result<Kind> recognise(const std::filesystem::path& file);

/// Why imaging does not read this kind; none for TIFF, JPEG and PNG.
[[nodiscard]] std::optional<Refusal> notReadHere(const Kind& kind, const std::string& place);

}  // namespace imaging::raster
