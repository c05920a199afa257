#pragma once

#include "evidence-core/network/origin.h"
#include "evidence-core/network/register_index.h"
#include "evidence-core/record/reading.h"

#include <optional>

/// Classes of leaves (domain.md, table of bases, and "Settled details": Classes).
namespace evidence::network {

/// The class of a basis with its source; absent: sets no ceiling (`geometry`). A source without a
/// basis counts as `stated`; neither: guessed.
[[nodiscard]] std::optional<record::Grade> strengthOf(const std::optional<record::Basis>& basis,
                                                      const std::optional<record::SourceId>& source,
                                                      const Origins& origins);

/// The class of a reading: as above, with the feature of a gauged part, a rebuild's parts, evidence
/// that only returns our own numbers (O), and evidence certainly from another design state (C at
/// best). `source` is the reading's, or that of its mark's file.
[[nodiscard]] std::optional<record::Grade> strengthOf(const record::Reading& reading,
                                                      const std::optional<record::SourceId>& source,
                                                      const record::Dimension& dimension,
                                                      const RegisterIndex& index,
                                                      const Origins& origins);

/// The worse of two classes; an absent one never is the worse.
[[nodiscard]] std::optional<record::Grade> worse(const std::optional<record::Grade>& a,
                                                 const std::optional<record::Grade>& b);

}  // namespace evidence::network
