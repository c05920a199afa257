#pragma once

#include "evidence-core/quantity/unit.h"
#include "evidence-core/refusal.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Formulas of relations: `D1 = D2 + 2*D3`, `D4 <= D5 * sin(30 deg)`.
namespace evidence::network {

enum class RelationSign { Equal, AtMost, AtLeast };

enum class Operation {
    Number,
    Name,
    Pi,
    Negate,
    Add,
    Subtract,
    Multiply,
    Divide,
    Power,
    Sqrt,
    Sin,
    Cos,
    Tan,
    Asin,
    Acos,
    Atan,
    Atan2,
    Min,
    Max,
    Abs,
};

/// One place in a formula. Operands stand before it in Formula::nodes.
struct FormulaNode {
    Operation operation = Operation::Number;
    double number = 0.0;                 ///< Number: as written
    std::optional<quantity::Unit> unit;  ///< Number: unit written behind it
    std::size_t name = 0;                ///< Name: index into Formula::names
    std::vector<std::size_t> operands;
    std::size_t character = 1;  ///< where it was written, from 1
};

/// A relation's formula, bound to ids. Immutable after parsing; copied freely.
struct Formula {
    std::vector<FormulaNode> nodes;
    std::size_t left = 0;
    std::size_t right = 0;
    RelationSign relationSign = RelationSign::Equal;
    std::vector<std::string> names;  ///< ids of the dimensions, by first use, each once
};

/// Gives the id of the dimension a code stands for; none: no such code.
using NameResolver = std::function<std::optional<std::string>(std::string_view code)>;

/// Reads `left sign right` with + - * / ^ ( ), sqrt sin cos tan asin acos atan atan2 min max abs
/// pi, the signs = <= >=, decimal numbers, and units behind numbers (`3 in`, `30 deg`). A name is a
/// code (letters, figures, _ and .; starting with a letter); any other text is a name in
/// [brackets].
/// `^` binds to the right and before a minus. At most 2000 characters, 1000 nodes, 60 levels.
/// Errors: BadFormula, BadUnit (unit behind a number), MissingTarget (unknown code), TooLarge.
/// `place` is "character N" of the text; the help says what was expected there.
[[nodiscard]] Result<Formula> parseFormula(std::string_view text, const NameResolver& resolve);

/// What an expression measures: exponents of length, mass and angle; all zero: a pure number.
struct MeasureExponents {
    double length = 0.0;
    double mass = 0.0;
    double angle = 0.0;

    friend bool operator==(const MeasureExponents&, const MeasureExponents&) = default;
};
[[nodiscard]] MeasureExponents exponentsOf(quantity::Measure measure);

/// Checks that both sides and all terms measure the same; answers what the sides measure, which is
/// also the (canonical) unit of a relation's u, misclosure and residual. `measures` is in the order
/// of Formula::names. A bare factor is pure, a bare term takes the unit of the sum, comparison or
/// function it stands in. Angles are a kind of their own; radius × angle is a length, and the ratio
/// of two like quantities may serve as an angle.
/// Errors: BadUnit with the place of the first misfit.
[[nodiscard]] Result<MeasureExponents> checkUnits(const Formula& formula,
                                                  std::span<const quantity::Measure> measures);

/// A value with its derivatives with respect to Formula::names, in that order.
struct Jet {
    double value = 0.0;
    std::vector<double> gradient;
};

/// left − right at the given values (canonical units, order of Formula::names), with the gradient
/// by forward automatic differentiation. |x| has slope 0 at 0; min and max take the first at a tie.
/// Cost: nodes × names. Errors: NotFinite with the place (division by zero, root of a negative …).
[[nodiscard]] Result<Jet> evaluate(const Formula& formula, std::span<const double> values);

/// Gives the code (or, for people, the name) by which an id is written now.
using NamePrinter = std::function<std::string(std::string_view id)>;

/// The formula with current codes; parseFormula of it gives the same formula.
[[nodiscard]] std::string printed(const Formula& formula, const NamePrinter& codeOf);
/// For people: `hoop width = sill + 2 × post`, ≤ and ≥, names as they are.
[[nodiscard]] std::string readable(const Formula& formula, const NamePrinter& nameOf);

}  // namespace evidence::network
