#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace test {

/// What a program did: its exit status and all it wrote.
struct Ran {
    int status = -1;
    std::string out;
    std::string err;
};

/// Runs any program with `arguments`, in `folder`, with a HOME of its own, no display and
/// SOURCE_DATE_EPOCH fixed. Waits for its end.
Ran runProgram(const std::string& program, const std::vector<std::string>& arguments,
               const std::filesystem::path& folder = std::filesystem::temp_directory_path());

/// The same with the `lostlines` executable of this build.
Ran runLostlines(const std::vector<std::string>& arguments,
                 const std::filesystem::path& folder = std::filesystem::temp_directory_path());

}  // namespace test
