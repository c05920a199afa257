#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace app::command {

/// One setting of the user from `lostlines/settings.ini` in the XDG config folder, section [user];
/// absent where there is none. Keys: `by` (who acts).
[[nodiscard]] std::optional<std::string> userSetting(std::string_view key);

}  // namespace app::command
