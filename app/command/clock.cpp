#include "app/command/verb.h"

#include <fmt/chrono.h>

#include <charconv>
#include <chrono>
#include <cstdlib>
#include <cstring>

namespace app::command {

std::string timeNow() {
    auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    // reproducible-builds.org: SOURCE_DATE_EPOCH is a count of seconds since 1970 in UTC.
    if (const char* fixed = std::getenv("SOURCE_DATE_EPOCH")) {
        long long seconds = 0;
        const auto* end = fixed + std::strlen(fixed);
        if (std::from_chars(fixed, end, seconds).ptr == end && end != fixed)
            now = std::chrono::sys_seconds{std::chrono::seconds{seconds}};
    }
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}",
                       fmt::gmtime(std::chrono::system_clock::to_time_t(now)));
}

}  // namespace app::command
