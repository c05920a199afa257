#include "evidence-core/network/formula.h"
#include "evidence-core/network/formula_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace evidence::network {
namespace {

struct Signs {
    std::string_view minus;
    std::string_view times;
    std::string_view atMost;
    std::string_view atLeast;
    bool forPeople;
};
constexpr Signs kPlain{"-", "*", "<=", ">=", false};
constexpr Signs kForPeople{"−", "×", "≤", "≥", true};

// How tightly an operation binds; an operand that binds less tightly needs parentheses.
int bindingOf(Operation operation) {
    if (operation == Operation::Add || operation == Operation::Subtract) return 1;
    if (operation == Operation::Multiply || operation == Operation::Divide) return 2;
    if (operation == Operation::Negate) return 3;
    if (operation == Operation::Power) return 4;
    return 5;
}

bool isPlainName(const std::string& name) {
    const bool shaped =
        !name.empty() && startsName(name.front()) && std::ranges::all_of(name, continuesName);
    const std::string_view view = name;
    return shaped && view != kPiWord &&
           std::ranges::find(kFunctionWords, view, &FunctionWord::word) == kFunctionWords.end();
}

class Printer {
  public:
    Printer(const Formula& formula, const NamePrinter& names, const Signs& signs)
        : m_formula(formula), m_names(names), m_signs(signs) {}

    std::string print() const {
        std::string_view sign = "=";
        if (m_formula.relationSign == RelationSign::AtMost) sign = m_signs.atMost;
        if (m_formula.relationSign == RelationSign::AtLeast) sign = m_signs.atLeast;
        return fmt::format("{} {} {}", expression(m_formula.left, 0), sign,
                           expression(m_formula.right, 0));
    }

  private:
    std::string expression(std::size_t index, int needed) const {
        const FormulaNode& node = m_formula.nodes[index];
        const std::string text = bareExpression(node);
        return bindingOf(node.operation) < needed ? "(" + text + ")" : text;
    }

    std::string infix(const FormulaNode& node, std::string_view sign, int left, int right) const {
        return fmt::format("{} {} {}", expression(node.operands[0], left), sign,
                           expression(node.operands[1], right));
    }

    std::string bareExpression(const FormulaNode& node) const {
        switch (node.operation) {
            case Operation::Number:
                if (!node.unit) return fmt::format("{}", node.number);
                // "1" and "%" are no words a formula could carry behind a number.
                if (quantity::measureOf(*node.unit) == quantity::Measure::Number)
                    return fmt::format("{}", quantity::toCanonical(node.number, *node.unit));
                return fmt::format("{} {}", node.number, quantity::nameOf(*node.unit));
            case Operation::Pi:
                return m_signs.forPeople ? "π" : std::string(kPiWord);
            case Operation::Name:
                return nameText(m_names(m_formula.names[node.name]));
            case Operation::Negate:
                return fmt::format("{}{}", m_signs.minus, expression(node.operands[0], 3));
            case Operation::Add:
                return infix(node, "+", 1, 2);
            case Operation::Subtract:
                return infix(node, m_signs.minus, 1, 2);
            case Operation::Multiply:
                return infix(node, m_signs.times, 2, 3);
            case Operation::Divide:
                return infix(node, "/", 2, 3);
            case Operation::Power:
                return fmt::format("{}^{}", expression(node.operands[0], 5),
                                   expression(node.operands[1], 3));
            case Operation::Sqrt:
            case Operation::Sin:
            case Operation::Cos:
            case Operation::Tan:
            case Operation::Asin:
            case Operation::Acos:
            case Operation::Atan:
            case Operation::Atan2:
            case Operation::Min:
            case Operation::Max:
            case Operation::Abs:
                return call(node);
        }
        return {};
    }

    std::string call(const FormulaNode& node) const {
        const auto word =
            std::ranges::find(kFunctionWords, node.operation, &FunctionWord::operation);
        std::string text(word->word);
        text += "(";
        for (std::size_t i = 0; i < node.operands.size(); ++i) {
            if (i > 0) text += ", ";
            text += expression(node.operands[i], 0);
        }
        return text + ")";
    }

    std::string nameText(const std::string& name) const {
        return m_signs.forPeople || isPlainName(name) ? name : "[" + name + "]";
    }

    const Formula& m_formula;
    const NamePrinter& m_names;
    const Signs& m_signs;
};

}  // namespace

std::string printed(const Formula& formula, const NamePrinter& codeOf) {
    return Printer(formula, codeOf, kPlain).print();
}

std::string readable(const Formula& formula, const NamePrinter& nameOf) {
    return Printer(formula, nameOf, kForPeople).print();
}

}  // namespace evidence::network
