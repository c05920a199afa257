#pragma once

#include "evidence-core/judgement/analysis.h"

#include <nlohmann/json_fwd.hpp>

/// Private to exchange/: rows of the analysis that more than one answer prints.
namespace evidence::exchange {

[[nodiscard]] nlohmann::ordered_json dimensionJson(const judgement::DimensionResult& dimension);
[[nodiscard]] nlohmann::ordered_json particularJson(const judgement::ParticularResult& particular);
[[nodiscard]] nlohmann::ordered_json findingJson(const judgement::Finding& finding);

}  // namespace evidence::exchange
