#pragma once

#include "app/report/document.h"
#include "app/report/register_index.h"

#include <string>

/// What the shop is told of one dimension or particular: on a slip, and on the shop sheets.
namespace app::report {

struct BuildValue {
    enum class From { Departure, Ruling, Evidence, Nothing };
    From from = From::Nothing;
    QString make;    ///< as the shop reads it: "3′-7 5⁄16″", "605 lb", "oak"
    QString beside;  ///< the same in decimals and in metric; empty where there is no such thing
    QString said;    ///< "departure from the original (safety)", "ruled by Ada Brook, 1 May 2026"
};

/// The departure's value, else the ruled one, else what the evidence says today.
[[nodiscard]] BuildValue buildValue(const RegisterIndex& index, const std::string& id);

/// "allow ± 1⁄16 in": of the ruling in force, else as wanted; empty where nobody stated any.
[[nodiscard]] QString allowance(const RegisterIndex& index, const std::string& id);

/// How far the size is our own choice, in one sentence for the bench; empty where it is not.
[[nodiscard]] QString leansOnGuess(const RegisterIndex& index, const std::string& id);

/// Names of the findings on it that are still open, the worst first; notes left out.
[[nodiscard]] Text openPoints(const RegisterIndex& index, const std::string& id);

}  // namespace app::report
