#pragma once

#include "evidence-core/quantity/interval.h"
#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string_view>

/// What a written value is worth: its number in canonical units and its uncertainty, with the
/// defaults of domain.md ("Defaults where nobody gave an uncertainty", "Steps of numbers").
namespace evidence::network {

/// Distribution of an error, for intervals. Its u is always a standard uncertainty.
using ErrorShape = quantity::Shape;

/// A value as written, in canonical units.
struct WrittenValue {
    double value = 0;
    double resolution = 0;  ///< step it was written to
    /// Unit that its `u`, `half_width`, `rounded_to` and `add` are in.
    quantity::Unit unit = quantity::Unit::One;
    bool approximate = false;  ///< "about" stood before it
};

/// What a quantity measures.
[[nodiscard]] quantity::Measure measureOf(record::DimensionQuantity quantity);

/// The unit of a dimension: its own, else the canonical one. Errors: BadUnit.
[[nodiscard]] Result<quantity::Unit> unitOf(const record::Dimension& dimension);

/// Reads a value: a JSON number in the `unit` key's unit, else `bareUnit`; a string as people write
/// it. Errors: BadValue, BadUnit, NotFinite; `place` stands before the reader's own place.
[[nodiscard]] Result<WrittenValue> readWritten(const record::Written& written,
                                               const std::optional<std::string>& unit,
                                               quantity::Measure measure, quantity::Unit bareUnit,
                                               std::string_view place);

/// Uncertainty of a value.
struct Spread {
    double u = 0;  ///< standard, canonical unit
    ErrorShape shape = ErrorShape::Normal;
    bool byDefault = false;  ///< nobody gave one: the default of its basis
    bool floored = false;    ///< smaller than the floor of its basis, which is used instead

    friend bool operator==(const Spread&, const Spread&) = default;
};

/// What was said about the uncertainty of a value, and what its defaults depend on.
struct SpreadQuery {
    std::optional<record::Basis> basis;  ///< absent: guessed
    quantity::Measure measure = quantity::Measure::Length;
    bool ratio = false;  ///< of a pure number: a ratio, not a count
    std::optional<double> u;
    std::optional<double> halfWidth;
    std::optional<record::Shape> shape;
    std::optional<double> roundedTo;
    std::optional<int> dof;
    std::optional<double> figuredStep;  ///< finest step used on its sheet, canonical units
    std::string_view instrument;
    bool floorReason = false;  ///< a reason for a spread below the floor is on record
};

/// Standard uncertainty of `value`: the given one (u, else half-width by its shape, else half of
/// `rounded_to`, rectangular), else the basis's default; floors of guesses and analogies; repeats
/// by their degrees of freedom, u·√(ν/(ν−2)) for ν ≥ 3 (JCGM 101:2008, 6.4.9), fewer combined with
/// the default. Errors: MissingKey where the basis has no default (`interpolated`, `inferred`),
/// BadValue for a negative one.
[[nodiscard]] Result<Spread> spreadOf(const WrittenValue& value, const SpreadQuery& query,
                                      const record::Settings& settings, std::string_view place);

/// Checks that a reading of a dimension, or a reference's length, can be used as written: what
/// importers and forms call before a record reaches the store. `place` is the record's, such as
/// `/readings/3` or `/frames/0/references/1/length`. Errors: as above.
[[nodiscard]] Result<void> checkReading(const record::Reading& reading,
                                        const record::Dimension& dimension, std::string_view place);
[[nodiscard]] Result<void> checkLength(const record::KnownLength& length, std::string_view place);

/// Whether something between "about" and the basis makes it `stated` (an approximate figure is).
[[nodiscard]] record::Basis effectiveBasis(record::Basis basis, const WrittenValue& value);

}  // namespace evidence::network
