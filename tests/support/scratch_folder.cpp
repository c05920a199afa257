#include "tests/support/scratch_folder.h"

#include <unistd.h>

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace test {

namespace fs = std::filesystem;

ScratchFolder::ScratchFolder() {
    std::string name = (fs::temp_directory_path() / "lostlines-test-XXXXXX").string();
    if (!::mkdtemp(name.data())) throw std::runtime_error("no scratch folder in " + name);
    m_path = name;
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    fs::remove_all(m_path, ignored);
}

fs::path writeText(const fs::path& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
    return path;
}

std::string readText(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

}  // namespace test
