#pragma once

#include <cstdint>
#include <random>

namespace sample {

/// Seeded chance for the sample. One object per purpose, so that adding a draw to one picture does
/// not change the others. Normal deviates come from our own transform because the standard library
/// leaves the algorithm of `std::normal_distribution` open, and the same seed must give the same
/// bytes.
class Chance {
  public:
    Chance(std::uint64_t seed, std::uint64_t purpose);

    /// Rectangular between low and high.
    [[nodiscard]] double between(double low, double high);
    /// Normal with the given mean and standard deviation (Box and Muller 1958).
    [[nodiscard]] double normal(double mean, double deviation);
    /// A fresh 64-bit number, to seed generators that take one.
    [[nodiscard]] std::uint64_t next() { return m_engine(); }

  private:
    std::mt19937_64 m_engine;
};

/// Deterministic noise of a lattice point, rectangular in [0, 1): the grain of painted surfaces.
[[nodiscard]] double latticeNoise(std::int64_t i, std::int64_t j, std::uint32_t salt);

}  // namespace sample
