#include "evidence-core/statistics/philox.h"

namespace evidence::statistics {
namespace {

constexpr std::uint64_t kMultiplier0 = 0xD2511F53u;
constexpr std::uint64_t kMultiplier1 = 0xCD9E8D57u;
constexpr std::uint32_t kWeyl0 = 0x9E3779B9u;
constexpr std::uint32_t kWeyl1 = 0xBB67AE85u;
constexpr int kRounds = 10;

std::uint32_t high(std::uint64_t x) {
    return static_cast<std::uint32_t>(x >> 32u);
}
std::uint32_t low(std::uint64_t x) {
    return static_cast<std::uint32_t>(x & 0xFFFFFFFFu);
}

}  // namespace

PhiloxBlock philox(PhiloxBlock counter, PhiloxKey key) {
    for (int round = 0; round < kRounds; ++round) {
        const std::uint64_t p0 = kMultiplier0 * counter[0];
        const std::uint64_t p1 = kMultiplier1 * counter[2];
        counter = {high(p1) ^ counter[1] ^ key[0], low(p1), high(p0) ^ counter[3] ^ key[1],
                   low(p0)};
        key[0] += kWeyl0;
        key[1] += kWeyl1;
    }
    return counter;
}

}  // namespace evidence::statistics
