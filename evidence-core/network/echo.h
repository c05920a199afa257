#pragma once

#include "evidence-core/network/origin.h"
#include "evidence-core/network/triage.h"

#include <vector>

namespace evidence::network {

/// Tells which readings of one dimension only repeat another of the same origin (domain.md: leader
/// nearest the root, then the better class, then the smaller own u, then by content), and sets
/// their `use` and `echoOf`. Readings in `onCircle` (by index in `triage.readings`) lead only where
/// no other of their origin can. May be called again: former echoes are judged anew.
void tellEchoes(Triage& triage, const Origins& origins, const std::vector<bool>& onCircle);

}  // namespace evidence::network
