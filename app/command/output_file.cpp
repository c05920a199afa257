#include "app/command/output_file.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <system_error>

namespace app::command {

namespace fs = std::filesystem;

evidence::Result<void> mayWrite(const fs::path& out, Existing existing) {
    if (existing == Existing::Keep && fs::exists(out))
        return evidence::refuse(
            evidence::Code::WrongUse, out.string(),
            "this is there already and is kept; add --replace or give another name.");
    return {};
}

void writeWhole(const fs::path& out, std::string_view text) {
    const fs::path part = out.string() + fmt::format(".part{}", ::getpid());
    {
        std::ofstream stream(part, std::ios::binary);
        stream.write(text.data(), static_cast<std::streamsize>(text.size()));
        stream.flush();
        if (!stream) {
            const std::error_code reason(errno, std::generic_category());
            std::error_code ignored;
            fs::remove(part, ignored);
            throw fs::filesystem_error("cannot write", out, reason);
        }
    }
    fs::rename(part, out);
}

}  // namespace app::command
