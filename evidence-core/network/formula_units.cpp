#include "evidence-core/network/formula.h"

#include <cmath>
#include <optional>
#include <string>

namespace evidence::network {
namespace {

struct Kind {
    MeasureExponents exponents;
    bool bare = false;       // made of bare numbers only: takes the unit that is needed
    bool likeRatio = false;  // ratio of like quantities: may serve as an angle
    std::optional<double> constant;
};

constexpr MeasureExponents kPure{};
constexpr MeasureExponents kAngle{0.0, 0.0, 1.0};

bool same(const MeasureExponents& a, const MeasureExponents& b) {
    return std::abs(a.length - b.length) < 1e-9 && std::abs(a.mass - b.mass) < 1e-9 &&
           std::abs(a.angle - b.angle) < 1e-9;
}

bool isPure(const Kind& kind) {
    return kind.bare || same(kind.exponents, kPure);
}

std::string described(const Kind& kind) {
    const MeasureExponents& e = kind.exponents;
    if (same(e, kPure)) return "a pure number";
    if (same(e, kAngle)) return "an angle";
    if (same(e, {1, 0, 0})) return "a length";
    if (same(e, {2, 0, 0})) return "an area";
    if (same(e, {3, 0, 0})) return "a volume";
    if (same(e, {0, 1, 0})) return "a mass";
    std::string text = "a product of";
    const auto add = [&](const char* name, double exponent) {
        if (std::abs(exponent) < 1e-9) return;
        std::string number = std::to_string(exponent);
        number.erase(number.find_last_not_of("0.,") + 1);
        text += std::string(" ") + name + "^" + number;
    };
    add("length", e.length);
    add("mass", e.mass);
    add("angle", e.angle);
    return text;
}

tl::unexpected<Refusal> misfit(const FormulaNode& node, const std::string& help) {
    return refuse(Code::BadUnit, "character " + std::to_string(node.character), help);
}

class UnitChecker {
  public:
    UnitChecker(const Formula& formula, std::span<const quantity::Measure> measures)
        : m_formula(formula), m_measures(measures) {}

    Result<MeasureExponents> check() {
        for (const FormulaNode& node : m_formula.nodes) {
            Result<Kind> kind = kindOf(node);
            if (!kind) return tl::unexpected(kind.error());
            m_kinds.push_back(*kind);
        }
        const Result<Kind> both =
            joined(m_formula.left, m_formula.right, m_formula.nodes[m_formula.right],
                   "the two sides do not measure the same");
        if (!both) return tl::unexpected(both.error());
        return both->exponents;
    }

  private:
    const Kind& operand(const FormulaNode& node, std::size_t i) const {
        return m_kinds[node.operands[i]];
    }

    // Two terms that must measure the same; a bare one takes the unit of the other.
    Result<Kind> joined(std::size_t a, std::size_t b, const FormulaNode& at,
                        const std::string& what) const {
        const Kind& left = m_kinds[a];
        const Kind& right = m_kinds[b];
        if (left.bare && right.bare) return Kind{kPure, true, false, {}};
        if (left.bare) return right;
        if (right.bare) return left;
        if (same(left.exponents, right.exponents)) {
            return Kind{left.exponents, false, left.likeRatio && right.likeRatio, {}};
        }
        if (left.likeRatio && same(right.exponents, kAngle)) return right;
        if (right.likeRatio && same(left.exponents, kAngle)) return left;
        return misfit(at, what + ": " + described(left) + " beside " + described(right));
    }

    Result<Kind> kindOf(const FormulaNode& node) const {
        switch (node.operation) {
            case Operation::Number:
                if (!node.unit) return Kind{kPure, true, false, node.number};
                return Kind{exponentsOf(quantity::measureOf(*node.unit)), false, false, {}};
            case Operation::Pi:
                return Kind{kPure, true, false, {}};
            case Operation::Name:
                return Kind{exponentsOf(m_measures[node.name]), false, false, {}};
            case Operation::Negate: {
                Kind kind = operand(node, 0);
                if (kind.constant) kind.constant = -*kind.constant;
                return kind;
            }
            case Operation::Add:
            case Operation::Subtract:
                return joined(node.operands[0], node.operands[1], node,
                              "only like can be added or taken away");
            case Operation::Min:
            case Operation::Max:
                return allJoined(node, "values compared must measure the same");
            case Operation::Atan2: {
                const Result<Kind> both = allJoined(node, "atan2 takes two of one kind");
                if (!both) return both;
                return Kind{kAngle, false, false, {}};
            }
            case Operation::Abs:
                return operand(node, 0);
            case Operation::Multiply:
            case Operation::Divide:
                return productKind(node);
            case Operation::Power:
                return powerKind(node);
            case Operation::Sqrt:
                return raised(operand(node, 0), 0.5);
            case Operation::Sin:
            case Operation::Cos:
            case Operation::Tan: {
                const Kind& angle = operand(node, 0);
                if (angle.bare || angle.likeRatio || same(angle.exponents, kAngle))
                    return Kind{kPure, false, false, {}};
                return misfit(node, "sin, cos and tan take an angle, not " + described(angle));
            }
            case Operation::Asin:
            case Operation::Acos:
            case Operation::Atan:
                if (isPure(operand(node, 0))) return Kind{kAngle, false, false, {}};
                return misfit(
                    node, "asin, acos and atan take a ratio, not " + described(operand(node, 0)));
        }
        return Kind{};
    }

    Result<Kind> allJoined(const FormulaNode& node, const std::string& what) const {
        Kind kind = operand(node, 0);
        for (std::size_t i = 1; i < node.operands.size(); ++i) {
            // A bare first value takes the unit of whichever has one.
            const std::size_t reference = firstWithUnit(node);
            const Result<Kind> pair = joined(reference, node.operands[i], node, what);
            if (!pair) return pair;
            kind = *pair;
        }
        return kind;
    }

    std::size_t firstWithUnit(const FormulaNode& node) const {
        for (const std::size_t each : node.operands) {
            if (!m_kinds[each].bare) return each;
        }
        return node.operands[0];
    }

    Result<Kind> productKind(const FormulaNode& node) const {
        const Kind& a = operand(node, 0);
        const Kind& b = operand(node, 1);
        const double sign = node.operation == Operation::Divide ? -1.0 : 1.0;
        Kind kind;
        kind.bare = a.bare && b.bare;
        kind.exponents = {a.exponents.length + sign * b.exponents.length,
                          a.exponents.mass + sign * b.exponents.mass,
                          a.exponents.angle + sign * b.exponents.angle};
        const bool pure =
            std::abs(kind.exponents.length) < 1e-9 && std::abs(kind.exponents.mass) < 1e-9;
        // Arc = radius × angle: beside a length or a mass an angle counts as its number of radians.
        if (!pure) kind.exponents.angle = 0.0;
        const bool likes = !isPure(a) && !isPure(b) && same(kind.exponents, kPure);
        kind.likeRatio =
            likes || (a.likeRatio && isPure(b)) || (b.likeRatio && isPure(a) && sign > 0);
        if (a.constant && b.constant) {
            kind.constant = sign > 0 ? *a.constant * *b.constant : *a.constant / *b.constant;
        }
        return kind;
    }

    Result<Kind> powerKind(const FormulaNode& node) const {
        const Kind& base = operand(node, 0);
        const Kind& exponent = operand(node, 1);
        if (!isPure(exponent))
            return misfit(node, "an exponent is a pure number, not " + described(exponent));
        if (isPure(base)) return Kind{kPure, base.bare && exponent.bare, false, {}};
        if (!exponent.constant) {
            return misfit(node, described(base) + " can only be raised to a number written out");
        }
        return raised(base, *exponent.constant);
    }

    static Kind raised(const Kind& base, double exponent) {
        return Kind{{base.exponents.length * exponent, base.exponents.mass * exponent,
                     base.exponents.angle * exponent},
                    base.bare,
                    false,
                    {}};
    }

    const Formula& m_formula;
    std::span<const quantity::Measure> m_measures;
    std::vector<Kind> m_kinds;
};

}  // namespace

MeasureExponents exponentsOf(quantity::Measure measure) {
    switch (measure) {
        case quantity::Measure::Length:
            return {1.0, 0.0, 0.0};
        case quantity::Measure::Area:
            return {2.0, 0.0, 0.0};
        case quantity::Measure::Volume:
            return {3.0, 0.0, 0.0};
        case quantity::Measure::Mass:
            return {0.0, 1.0, 0.0};
        case quantity::Measure::Angle:
            return {0.0, 0.0, 1.0};
        case quantity::Measure::Number:
            break;
    }
    return {};
}

Result<MeasureExponents> checkUnits(const Formula& formula,
                                    std::span<const quantity::Measure> measures) {
    return UnitChecker(formula, measures).check();
}

}  // namespace evidence::network
