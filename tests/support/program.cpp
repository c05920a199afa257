#include "tests/support/program.h"

#include "tests/support/scratch_folder.h"

#include <sys/wait.h>

#include <cstdlib>

namespace test {

namespace {

/// `word` as one word of the shell, whatever it holds.
std::string shellWord(const std::string& word) {
    std::string quoted = "'";
    for (const char c : word) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return quoted + "'";
}

}  // namespace

Ran runProgram(const std::string& program, const std::vector<std::string>& arguments,
               const std::filesystem::path& folder) {
    const ScratchFolder scratch;
    std::string command =
        "cd " + shellWord(folder.string()) + " && env HOME=" + shellWord(scratch.path().string()) +
        " XDG_CONFIG_HOME= XDG_STATE_HOME= XDG_RUNTIME_DIR= DISPLAY= WAYLAND_DISPLAY=" +
        " SOURCE_DATE_EPOCH=1767225600 " + shellWord(program);
    for (const auto& argument : arguments) command += " " + shellWord(argument);
    const auto out = scratch / "out";
    const auto err = scratch / "err";
    command += " >" + shellWord(out.string()) + " 2>" + shellWord(err.string()) + " </dev/null";
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, readText(out), readText(err)};
}

Ran runLostlines(const std::vector<std::string>& arguments, const std::filesystem::path& folder) {
    return runProgram(LOSTLINES_PROGRAM, arguments, folder);
}

}  // namespace test
