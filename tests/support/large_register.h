#pragma once

#include "evidence-core/record/register.h"

#include <cstdint>

/// Large registers for benchmarks and load tests, in inches; the same for the same numbers.
namespace testsupport {

struct LargeRegister {
    int dimensions = 1000;
    /// Lengths that hang together as one assembly: sheets, sums, a shared error of their own.
    int perAssembly = 50;
    /// Assemblies joined into one connected part by relations and known lengths; 0: all of them.
    int assembliesPerPart = 0;
    std::uint64_t seed = 1;
};

/// Four readings a dimension (two written, two scaled through different sheets), two sheets an
/// assembly, one of them scaled by a dimension of the neighbour; sums that close exactly,
/// symmetries with an uncertainty (one in 125 dimensions equals one anywhere before it), a common
/// shrinkage, guesses for every twentieth dimension, and a wanted tolerance for every tenth.
evidence::record::Register largeRegister(const LargeRegister& shape);

}  // namespace testsupport
