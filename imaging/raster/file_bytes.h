#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace imaging::raster {

/// All bytes of a file. Throws std::system_error where the system fails to read it.
[[nodiscard]] std::vector<std::uint8_t> fileBytes(const std::filesystem::path& file);

/// SHA-256 of the file's bytes as found, 64 lower-case hexadecimal digits (FIPS 180-4).
/// Throws std::system_error where the system fails to read it.
[[nodiscard]] std::string fileDigest(const std::filesystem::path& file);

}  // namespace imaging::raster
