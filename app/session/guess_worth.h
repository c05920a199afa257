#pragma once

#include "evidence-core/record/register.h"

#include <string>

namespace app::session {

/// What a guess would be worth, told while its bounds are being typed.
struct GuessWorth {
    std::string takenAs;  ///< "3 1/2″ ± 0.48 in": the middle, ± half of the 95 % interval
    /// Half-width that a guess of this size may claim without a reason; empty where the bounds lie
    /// no closer.
    std::string floor;
};

/// Nothing is told until both bounds can be read and stand in order. The floors are those of the
/// register's settings.
[[nodiscard]] GuessWorth guessWorth(const evidence::record::AnyId& of, const std::string& low,
                                    const std::string& high, const evidence::record::Register& reg);

}  // namespace app::session
