#pragma once

#include "evidence-core/network/worth.h"
#include "evidence-core/record/register.h"

#include <optional>

/// Errors that a measured size brings beside its marks' and its scale's (domain.md, "What is being
/// measured" and the table of defaults).
namespace evidence::network {

/// Draughtsman's placing of the two line ends of a length on a drawing with a known drawn scale, in
/// inches of the original: each end is rectangular on the paper, their difference triangular.
/// Nothing where the source is no drawing or nobody said its scale. `source` is of the frame's
/// file.
[[nodiscard]] std::optional<Spread> placingOf(const record::Frame& frame,
                                              const record::Source* source,
                                              const record::Settings& settings);

/// Standard deviation in inches of one made article from a dimension as designed: that of the
/// longest component path in the settings which holds the dimension, else the archive's, else 0.
[[nodiscard]] double workmanshipOf(const record::ArchiveInfo& archive,
                                   const std::optional<std::string>& component);

}  // namespace evidence::network
