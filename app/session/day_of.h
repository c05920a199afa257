#pragma once

#include <string>
#include <string_view>

namespace app::session {

/// The day of an RFC 3339 time, as an EDTF date: "2026-05-01".
[[nodiscard]] inline std::string dayOf(std::string_view time) {
    constexpr std::size_t kDate = 10;
    return std::string(time.substr(0, kDate));
}

}  // namespace app::session
