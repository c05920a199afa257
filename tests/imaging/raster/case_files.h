#pragma once

#include <filesystem>
#include <string>

namespace imaging::raster::test {

inline std::filesystem::path caseFile(const std::string& name) {
    return std::filesystem::path(LOSTLINES_TEST_DATA) / "cases" / name;
}

inline std::filesystem::path imageFile(const std::string& name) {
    return std::filesystem::path(LOSTLINES_TEST_DATA) / "images" / name;
}

}  // namespace imaging::raster::test
