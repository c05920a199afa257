#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <vector>

namespace app::session {

/// How a typed uncertainty is meant.
enum class SpreadGiven { DefaultOfBasis, Standard, HalfWidth, RoundedTo };

/// A reading as a form holds it: all texts as typed, blank where nothing was.
struct TypedReading {
    evidence::record::AnyId of;
    evidence::record::Basis basis = evidence::record::Basis::Figured;
    std::optional<evidence::record::SourceId> source;
    std::string value;
    std::string low;
    std::string high;
    SpreadGiven spreadGiven = SpreadGiven::DefaultOfBasis;
    std::string spread;
    std::optional<evidence::record::Feature> feature;
    std::string instrument;
    std::string excerpt;
    std::string reason;
    std::string tableRow;       ///< which row the words of `value` ("16 gauge") mean; may be blank
    std::string correction;     ///< a correcting row as picked, see `pickedWords`
    std::string circumstances;  ///< what that row asks for, see `circumstancesTyped`
};

/// The record that it makes, for `planReading`; fields that its basis does not ask for are left
/// out. A bare uncertainty is in the unit of the value. A value in trade words becomes the size and
/// the spread of its table row; the words stay as the excerpt. Errors: those of `typedAmount`, at
/// "spread"; MissingKey there where an uncertainty was promised and none was typed; MissingKey at
/// "table_row", with the question, where the words leave open which row is meant; MissingTarget
/// there and at "correction" for a row that is not in the tables; those of `circumstancesTyped` and
/// `correctionFromTable` at "circumstances".
[[nodiscard]] evidence::Result<evidence::record::Reading> readingOf(
    const TypedReading& typed, const evidence::record::Register& reg);

/// Which fields a reading needs.
struct ReadingFields {
    bool value = true;
    bool limits = false;
    bool spread = true;    ///< an uncertainty of the value
    bool feature = false;  ///< of a part: original, altered, uncertain
    bool instrument = false;
    bool correction = false;  ///< of a length
};
[[nodiscard]] ReadingFields fieldsOf(const TypedReading& typed,
                                     const evidence::record::Register& reg);

/// The bases that a person writes down, in the order of domain.md: all that a reading may have, but
/// for those with a way of their own (scaled on the page, guessed).
[[nodiscard]] const std::vector<evidence::record::Basis>& basesWrittenDown();

/// What the reading would be worth on this register.
struct ReadingWorth {
    std::string takenAs;  ///< "3'-7 5/16″ ± 0.030 in"; empty where it has no value that counts
    bool byDefault = false;  ///< ± is the default of its basis
    bool floored = false;    ///< ± was less than its basis may claim; the least is used
    std::string leftOut;     ///< why it would not count; empty where it does
};
[[nodiscard]] ReadingWorth worthOf(const evidence::record::Reading& reading,
                                   const evidence::record::Register& reg);

}  // namespace app::session
