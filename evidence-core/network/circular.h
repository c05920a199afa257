#pragma once

#include "evidence-core/network/solution.h"
#include "evidence-core/network/structure.h"

#include <vector>

namespace evidence::network {

/// Evidence that leads back to itself: cores of unknowns that each have evidence, at least as many
/// equations as unknowns, references on every frame among them, and yet no datum (domain.md,
/// "Settled details": circular). What hangs on a core, or has too few equations, is not in it.
struct Core {
    std::vector<std::size_t> unknowns;
    std::vector<std::size_t> rows;
};
[[nodiscard]] std::vector<Core> circularCores(const Equations& eq, const Structure& structure,
                                              const RowMask& use,
                                              const std::vector<bool>& estimable);

/// A core for people: its dimensions and frames, one shortest loop through it, and its links.
[[nodiscard]] Circle described(const Core& core, const Equations& eq, const RegisterIndex& index);

}  // namespace evidence::network
