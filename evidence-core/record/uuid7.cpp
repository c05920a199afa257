#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

#include <random>

namespace evidence::record {

std::string uuid7(std::chrono::milliseconds sinceEpoch, std::uint64_t randomHigh,
                  std::uint64_t randomLow) {
    const auto time = static_cast<std::uint64_t>(sinceEpoch.count()) & 0xFFFF'FFFF'FFFFU;
    const std::uint64_t randA = randomHigh & 0xFFFU;
    const std::uint64_t variantAndRandB = (randomLow & 0x3FFF'FFFF'FFFF'FFFFU) | (1ULL << 63U);
    return fmt::format("{:08x}-{:04x}-7{:03x}-{:04x}-{:012x}", time >> 16U, time & 0xFFFFU, randA,
                       variantAndRandB >> 48U, variantAndRandB & 0xFFFF'FFFF'FFFFU);
}

std::string uuid7(std::chrono::milliseconds sinceEpoch,
                  const std::function<std::uint64_t()>& random) {
    const std::uint64_t high = random();
    return uuid7(sinceEpoch, high, random());
}

std::string newUuid7() {
    std::random_device device;
    const auto random = [&] { return (std::uint64_t{device()} << 32U) | std::uint64_t{device()}; };
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    return uuid7(std::chrono::duration_cast<std::chrono::milliseconds>(now), random);
}

}  // namespace evidence::record
