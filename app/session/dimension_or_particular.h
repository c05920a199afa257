#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <string>

namespace app::session {

/// What a reading, a guess or a ruling is about: one of the two is there.
struct DimensionOrParticular {
    const evidence::record::Dimension* dimension = nullptr;
    const evidence::record::Particular* particular = nullptr;

    /// Its code, else its name: "D12".
    [[nodiscard]] std::string called() const;
};

/// Error: MissingTarget at `place` where `id` is neither; WrongUse where it is set aside.
[[nodiscard]] evidence::Result<DimensionOrParticular> dimensionOrParticular(
    const evidence::record::Register& reg, const evidence::record::AnyId& id, std::string place);

}  // namespace app::session
