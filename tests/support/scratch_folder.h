#pragma once

#include <filesystem>
#include <string>

namespace test {

/// An empty folder that is removed with its contents at the end of the scope.
class ScratchFolder {
  public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return m_path / name;
    }

  private:
    std::filesystem::path m_path;
};

/// Writes `text` to `path`; returns `path`.
std::filesystem::path writeText(const std::filesystem::path& path, const std::string& text);

/// All of a file.
std::string readText(const std::filesystem::path& path);

}  // namespace test
