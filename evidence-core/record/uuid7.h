#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <string>

namespace evidence::record {

/// A UUID version 7 (RFC 9562, 5.7): 48 bits of Unix time in milliseconds, then 74 random bits, as
/// 36 lower-case characters. Both are given, so that tests and reproducible output can fix them.
[[nodiscard]] std::string uuid7(std::chrono::milliseconds sinceEpoch, std::uint64_t randomHigh,
                                std::uint64_t randomLow);

/// As above with 64 bits of `random` drawn twice.
[[nodiscard]] std::string uuid7(std::chrono::milliseconds sinceEpoch,
                                const std::function<std::uint64_t()>& random);

/// A new id for now, from the system's clock and random source.
[[nodiscard]] std::string newUuid7();

}  // namespace evidence::record
