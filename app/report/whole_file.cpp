#include "app/report/whole_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <string>
#include <system_error>

namespace app::report {

namespace fs = std::filesystem;

WholeFile::WholeFile(const fs::path& out, std::string_view suffix)
    : m_path(out.parent_path() / ("." + out.filename().string() + std::string(suffix) + "." +
                                  std::to_string(::getpid()))) {}

WholeFile::~WholeFile() {
    std::error_code ignored;
    fs::remove(m_path, ignored);
}

void WholeFile::moveTo(const fs::path& out) const {
    const int file = ::open(m_path.c_str(), O_RDONLY | O_CLOEXEC);
    const bool synced = file >= 0 && ::fsync(file) == 0;
    const std::error_code why(errno, std::generic_category());
    if (file >= 0) ::close(file);
    if (!synced) throw fs::filesystem_error("cannot write the report", m_path, why);
    fs::rename(m_path, out);
}

}  // namespace app::report
