#include "sample-archive/chance.h"

#include <cmath>
#include <numbers>

namespace sample {

namespace {

std::uint64_t mixed(std::uint64_t value) {
    value += 0x9e3779b97f4a7c15ULL;
    value = (value ^ (value >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    value = (value ^ (value >> 27U)) * 0x94d049bb133111ebULL;
    return value ^ (value >> 31U);
}

}  // namespace

Chance::Chance(std::uint64_t seed, std::uint64_t purpose)
    : m_engine(mixed(seed ^ mixed(purpose))) {}

double Chance::between(double low, double high) {
    const double unit = static_cast<double>(m_engine() >> 11U) * 0x1.0p-53;
    return low + (high - low) * unit;
}

double Chance::normal(double mean, double deviation) {
    const double first = 1.0 - between(0.0, 1.0);
    const double second = between(0.0, 1.0);
    return mean + deviation * std::sqrt(-2.0 * std::log(first)) *
                      std::cos(2.0 * std::numbers::pi * second);
}

double latticeNoise(std::int64_t i, std::int64_t j, std::uint32_t salt) {
    const auto key = static_cast<std::uint64_t>(i) * 0x8da6b343ULL ^
                     static_cast<std::uint64_t>(j) * 0xd8163841ULL ^
                     static_cast<std::uint64_t>(salt) * 0xcb1ab31fULL;
    return static_cast<double>(mixed(key) >> 40U) * 0x1.0p-24;
}

}  // namespace sample
