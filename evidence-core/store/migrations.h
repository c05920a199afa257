#pragma once

#include <span>
#include <string_view>

namespace evidence::store {

/// The SQL of migrations/0001_…, 0002_… in order. A register's `user_version` is how many of them
/// it has been through.
[[nodiscard]] std::span<const std::string_view> migrations();

}  // namespace evidence::store
