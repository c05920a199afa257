#pragma once

#include <array>
#include <cstdint>

namespace evidence::statistics {

/// Four words that depend on nothing but the counter and the key: the n-th random number of a
/// stream can be asked for by itself, so draws are the same on every machine, in any order and with
/// any number of threads. Source: Salmon, Moraes, Dror and Shaw, Parallel random numbers: as easy
/// as 1, 2, 3 (2011), Philox4x32 with ten rounds.
using PhiloxBlock = std::array<std::uint32_t, 4>;
using PhiloxKey = std::array<std::uint32_t, 2>;
[[nodiscard]] PhiloxBlock philox(PhiloxBlock counter, PhiloxKey key);

}  // namespace evidence::statistics
