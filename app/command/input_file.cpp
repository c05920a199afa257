#include "app/command/input_file.h"

#include <fstream>
#include <sstream>

namespace app::command {

evidence::Result<std::string> readWhole(const std::filesystem::path& file) {
    std::error_code ignored;
    std::ifstream stream(file, std::ios::binary);
    if (!std::filesystem::is_regular_file(file, ignored) || !stream)
        return evidence::refuse(evidence::Code::MissingFile, file.string(),
                                "this file is not there or cannot be read; check its name.");
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

}  // namespace app::command
