#pragma once

#include <filesystem>
#include <string_view>

namespace app::report {

/// A file beside `out` that becomes `out` when it is whole, and is removed when it does not.
class WholeFile {
  public:
    WholeFile(const std::filesystem::path& out, std::string_view suffix);
    ~WholeFile();
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }
    /// Syncs it to the disk and gives it its name.
    /// Throws std::filesystem::filesystem_error where the system fails.
    void moveTo(const std::filesystem::path& out) const;

  private:
    std::filesystem::path m_path;
};

}  // namespace app::report
