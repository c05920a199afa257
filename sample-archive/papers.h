#pragma once

#include <filesystem>

namespace sample {

/// The text sources as PDF with real text and fixed dates, so that the same seed gives the same
/// bytes. Each throws std::runtime_error when the disk refuses.
void writeLedger(const std::filesystem::path& path);     ///< source 10, two pages
void writeNewspaper(const std::filesystem::path& path);  ///< source 11
void writeCatalogue(const std::filesystem::path& path);  ///< source 13, plate-maker
void writeLinePlan(const std::filesystem::path& path);   ///< source 13, statute gauge
void writeHandbook(const std::filesystem::path& path);   ///< source 13, weights of timber

}  // namespace sample
