#include "evidence-core/network/formula.h"

#include <cassert>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

namespace evidence::network {
namespace {

// One node's value and its derivatives with respect to its own operands (chain rule, forward).
struct Local {
    double value = 0.0;
    double byFirst = 0.0;
    double bySecond = 0.0;
};

Local powerOf(double x, double y, bool varyingExponent) {
    Local local;
    local.value = std::pow(x, y);
    local.byFirst = y == 0.0 ? 0.0 : y * std::pow(x, y - 1.0);
    // Only where the exponent depends on a dimension: the logarithm needs a positive base.
    if (varyingExponent) local.bySecond = local.value * std::log(x);
    return local;
}

Local atan2Of(double y, double x) {
    const double square = x * x + y * y;
    return {std::atan2(y, x), x / square, -y / square};
}

Local ofOne(Operation operation, double x) {
    switch (operation) {
        case Operation::Negate:
            return {-x, -1.0, 0.0};
        case Operation::Sqrt:
            return {std::sqrt(x), 0.5 / std::sqrt(x), 0.0};
        case Operation::Sin:
            return {std::sin(x), std::cos(x), 0.0};
        case Operation::Cos:
            return {std::cos(x), -std::sin(x), 0.0};
        case Operation::Tan: {
            const double t = std::tan(x);
            return {t, 1.0 + t * t, 0.0};
        }
        case Operation::Asin:
            return {std::asin(x), 1.0 / std::sqrt((1.0 - x) * (1.0 + x)), 0.0};
        case Operation::Acos:
            return {std::acos(x), -1.0 / std::sqrt((1.0 - x) * (1.0 + x)), 0.0};
        case Operation::Atan:
            return {std::atan(x), 1.0 / (1.0 + x * x), 0.0};
        case Operation::Abs:
            return {std::abs(x), x > 0.0 ? 1.0 : x < 0.0 ? -1.0 : 0.0, 0.0};
        case Operation::Number:
        case Operation::Name:
        case Operation::Pi:
        case Operation::Add:
        case Operation::Subtract:
        case Operation::Multiply:
        case Operation::Divide:
        case Operation::Power:
        case Operation::Atan2:
        case Operation::Min:
        case Operation::Max:
            break;
    }
    assert(false && "an operation of one operand");
    return {};
}

Local ofTwo(Operation operation, double a, double b, bool varyingSecond) {
    if (operation == Operation::Add) return {a + b, 1.0, 1.0};
    if (operation == Operation::Subtract) return {a - b, 1.0, -1.0};
    if (operation == Operation::Multiply) return {a * b, b, a};
    if (operation == Operation::Divide) return {a / b, 1.0 / b, -a / (b * b)};
    if (operation == Operation::Power) return powerOf(a, b, varyingSecond);
    assert(operation == Operation::Atan2);
    return atan2Of(a, b);
}

class Evaluation {
  public:
    Evaluation(const Formula& formula, std::span<const double> values)
        : m_formula(formula),
          m_inputs(values),
          m_width(formula.names.size()),
          m_values(formula.nodes.size()),
          m_slopes(formula.nodes.size() * m_width),
          m_varies(formula.nodes.size()) {}

    Result<Jet> run() {
        for (std::size_t i = 0; i < m_formula.nodes.size(); ++i) {
            step(i);
            if (!finite(i)) {
                return refuse(
                    Code::NotFinite, "character " + std::to_string(m_formula.nodes[i].character),
                    "this part of the formula has no finite value or slope at these sizes: "
                    "look for a division by zero or a root of a negative number");
            }
        }
        Jet jet;
        jet.value = m_values[m_formula.left] - m_values[m_formula.right];
        jet.gradient.resize(m_width);
        for (std::size_t k = 0; k < m_width; ++k)
            jet.gradient[k] = slope(m_formula.left, k) - slope(m_formula.right, k);
        return jet;
    }

  private:
    double& slope(std::size_t node, std::size_t name) { return m_slopes[node * m_width + name]; }

    bool finite(std::size_t i) {
        if (!std::isfinite(m_values[i])) return false;
        for (std::size_t k = 0; k < m_width; ++k) {
            if (!std::isfinite(slope(i, k))) return false;
        }
        return true;
    }

    void addSlopes(std::size_t node, std::size_t operand, double factor) {
        if (!m_varies[operand]) return;
        m_varies[node] = true;
        for (std::size_t k = 0; k < m_width; ++k) {
            // A zero slope stays zero even where the local derivative is infinite.
            if (slope(operand, k) != 0.0) slope(node, k) += factor * slope(operand, k);
        }
    }

    void step(std::size_t i) {
        const FormulaNode& node = m_formula.nodes[i];
        if (node.operation == Operation::Number) {
            m_values[i] = node.unit ? quantity::toCanonical(node.number, *node.unit) : node.number;
        } else if (node.operation == Operation::Pi) {
            m_values[i] = std::numbers::pi;
        } else if (node.operation == Operation::Name) {
            m_values[i] = m_inputs[node.name];
            slope(i, node.name) = 1.0;
            m_varies[i] = true;
        } else if (node.operation == Operation::Min || node.operation == Operation::Max) {
            choose(i, node);
        } else if (node.operands.size() == 1) {
            const Local local = ofOne(node.operation, m_values[node.operands[0]]);
            m_values[i] = local.value;
            addSlopes(i, node.operands[0], local.byFirst);
        } else {
            const Local local = ofTwo(node.operation, m_values[node.operands[0]],
                                      m_values[node.operands[1]], m_varies[node.operands[1]]);
            m_values[i] = local.value;
            addSlopes(i, node.operands[0], local.byFirst);
            addSlopes(i, node.operands[1], local.bySecond);
        }
    }

    void choose(std::size_t i, const FormulaNode& node) {
        std::size_t chosen = node.operands[0];
        for (const std::size_t each : node.operands) {
            const bool better = node.operation == Operation::Min
                                    ? m_values[each] < m_values[chosen]
                                    : m_values[each] > m_values[chosen];
            if (better) chosen = each;
        }
        m_values[i] = m_values[chosen];
        addSlopes(i, chosen, 1.0);
    }

    const Formula& m_formula;
    std::span<const double> m_inputs;
    std::size_t m_width;
    std::vector<double> m_values;
    std::vector<double> m_slopes;
    std::vector<bool> m_varies;
};

}  // namespace

Result<Jet> evaluate(const Formula& formula, std::span<const double> values) {
    assert(values.size() == formula.names.size());
    return Evaluation(formula, values).run();
}

}  // namespace evidence::network
