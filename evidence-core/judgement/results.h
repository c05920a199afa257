#pragma once

#include "evidence-core/judgement/context.h"
#include "evidence-core/judgement/grade.h"
#include "evidence-core/refusal.h"

#include <span>
#include <string>
#include <vector>

/// Private to judgement/: the network's answer in the units and the order of the analysis.
namespace evidence::judgement {

[[nodiscard]] NetworkResult networkResult(const network::Solution& solution);
[[nodiscard]] std::vector<PartResult> partResults(const Context& context,
                                                  std::span<const std::size_t> order);
[[nodiscard]] DimensionResult dimensionResult(const Context& context, std::size_t i,
                                              const Graded& graded);
[[nodiscard]] std::vector<RelationResult> relationResults(const Context& context);
[[nodiscard]] std::vector<FrameResult> frameResults(const Context& context);
[[nodiscard]] std::vector<HurtsMost> hurtsMost(const Context& context);
[[nodiscard]] std::vector<SeekNext> seekNext(const Context& context,
                                             std::span<const std::size_t> order);
/// Covariances of all pairs of the wanted dimensions (codes or ids), each with itself too.
/// Errors: MissingTarget.
[[nodiscard]] Result<std::vector<Covariance>> covariances(const Context& context,
                                                          std::span<const std::string> wanted);

}  // namespace evidence::judgement
