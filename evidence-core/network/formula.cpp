#include "evidence-core/network/formula.h"

#include "evidence-core/network/formula_words.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <utility>

namespace evidence::network {
namespace {

constexpr std::size_t kLongestText = 2000;
constexpr std::size_t kMostNodes = 1000;
constexpr int kMostLevels = 60;

using NodeResult = Result<std::size_t>;

// Recursive descent: comparison, sum, product, signed, power, primary.
class FormulaReader {
  public:
    FormulaReader(std::string_view text, const NameResolver& resolve)
        : m_text(text), m_resolve(resolve) {}

    Result<Formula> read() {
        const NodeResult left = sum();
        if (!left) return tl::unexpected(left.error());
        skipSpace();
        if (take("<=") || take("≤")) {
            m_formula.relationSign = RelationSign::AtMost;
        } else if (take(">=") || take("≥")) {
            m_formula.relationSign = RelationSign::AtLeast;
        } else if (!take("=")) {
            return expected("an operator, or one of = <= >=");
        }
        const NodeResult right = sum();
        if (!right) return tl::unexpected(right.error());
        skipSpace();
        if (m_at < m_text.size()) return expected("an operator or the end of the formula");
        if (m_formula.names.empty()) {
            return refuse(Code::BadFormula, place(0),
                          "no dimension stands in this formula: write at least one code");
        }
        m_formula.left = *left;
        m_formula.right = *right;
        return std::move(m_formula);
    }

  private:
    // Columns count code points, so that they agree with what is seen.
    std::size_t character(std::size_t byte) const {
        const std::string_view before = m_text.substr(0, byte);
        const auto continuation = std::ranges::count_if(
            before, [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u; });
        return before.size() - static_cast<std::size_t>(continuation) + 1;
    }
    std::string place(std::size_t byte) const {
        return "character " + std::to_string(character(byte));
    }

    tl::unexpected<Refusal> expected(const std::string& what) const {
        std::string found = "the end";
        if (m_at < m_text.size()) {
            std::size_t end = m_at + 1;
            if (startsName(m_text[m_at])) {
                while (end < m_text.size() && continuesName(m_text[end])) ++end;
            }
            while (end < m_text.size() &&
                   (static_cast<unsigned char>(m_text[end]) & 0xC0u) == 0x80u)
                ++end;
            found = "\"" + std::string(m_text.substr(m_at, end - m_at)) + "\"";
        }
        return refuse(Code::BadFormula, place(m_at), what + " is expected here, not " + found);
    }

    void skipSpace() {
        while (m_at < m_text.size() && (m_text[m_at] == ' ' || m_text[m_at] == '\t')) ++m_at;
    }
    bool take(std::string_view symbol) {
        skipSpace();
        if (!m_text.substr(m_at).starts_with(symbol)) return false;
        m_at += symbol.size();
        return true;
    }
    char peek() const { return m_at < m_text.size() ? m_text[m_at] : '\0'; }

    NodeResult add(FormulaNode node) {
        if (m_formula.nodes.size() >= kMostNodes) {
            return refuse(Code::TooLarge, place(m_at),
                          "the formula has more than 1000 parts: split it into several relations");
        }
        m_formula.nodes.push_back(std::move(node));
        return m_formula.nodes.size() - 1;
    }
    NodeResult add(Operation operation, std::vector<std::size_t> operands, std::size_t byte) {
        FormulaNode node;
        node.operation = operation;
        node.operands = std::move(operands);
        node.character = character(byte);
        return add(std::move(node));
    }

    // Counts the levels of nesting while it lives.
    class Level {
      public:
        explicit Level(int& depth) : m_depth(depth) { ++m_depth; }
        ~Level() { --m_depth; }
        Level(const Level&) = delete;
        Level& operator=(const Level&) = delete;
        Level(Level&&) = delete;
        Level& operator=(Level&&) = delete;

      private:
        int& m_depth;
    };

    NodeResult sum() {
        const Level level(m_depth);
        if (m_depth > kMostLevels) {
            return refuse(Code::TooLarge, place(m_at),
                          "more than 60 levels of nesting: split the formula");
        }
        NodeResult left = product();
        while (left) {
            skipSpace();
            const std::size_t byte = m_at;
            const bool plus = take("+");
            if (!plus && !take("-") && !take("−")) return left;
            const NodeResult right = product();
            if (!right) return right;
            left = add(plus ? Operation::Add : Operation::Subtract, {*left, *right}, byte);
        }
        return left;
    }

    NodeResult product() {
        NodeResult left = withSign();
        while (left) {
            skipSpace();
            const std::size_t byte = m_at;
            const bool times = take("*") || take("×") || take("·");
            if (!times && !take("/")) return left;
            const NodeResult right = withSign();
            if (!right) return right;
            left = add(times ? Operation::Multiply : Operation::Divide, {*left, *right}, byte);
        }
        return left;
    }

    NodeResult withSign() {
        const Level level(m_depth);
        if (m_depth > kMostLevels) {
            return refuse(Code::TooLarge, place(m_at), "more than 60 levels: split the formula");
        }
        skipSpace();
        const std::size_t byte = m_at;
        if (take("+")) return withSign();
        if (!take("-") && !take("−")) return power();
        const NodeResult operand = withSign();
        if (!operand) return operand;
        return add(Operation::Negate, {*operand}, byte);
    }

    NodeResult power() {
        const NodeResult base = primary();
        if (!base) return base;
        skipSpace();
        const std::size_t byte = m_at;
        if (!take("^")) return base;
        const NodeResult exponent = withSign();
        if (!exponent) return exponent;
        return add(Operation::Power, {*base, *exponent}, byte);
    }

    NodeResult primary() {
        skipSpace();
        const char c = peek();
        if ((c >= '0' && c <= '9') || c == '.') return number();
        if (c == '[') return bracketedName();
        if (startsName(c)) return word();
        if (!take("(")) return expected("a number, a code, a function or \"(\"");
        const NodeResult inner = sum();
        if (!inner) return inner;
        if (!take(")")) return expected("\")\" or an operator");
        return inner;
    }

    NodeResult number() {
        const std::size_t byte = m_at;
        FormulaNode node;
        node.character = character(byte);
        const char* begin = m_text.data() + m_at;
        const char* end = m_text.data() + m_text.size();
        const auto read = std::from_chars(begin, end, node.number);
        if (read.ec == std::errc::result_out_of_range) {
            return refuse(Code::TooLarge, place(byte), "the number is too large or too small");
        }
        if (read.ec != std::errc()) return expected("a number");
        m_at += static_cast<std::size_t>(read.ptr - begin);
        skipSpace();
        const char next = peek();
        if ((next >= '0' && next <= '9') || next == '\'' || next == '"') {
            return refuse(Code::BadFormula, place(m_at),
                          "in a formula a length is one decimal number with its unit: "
                          "write 3.5 in, not 3 1/2 or 3'-6\"");
        }
        if (take("°")) {
            node.unit = quantity::Unit::Degree;
        } else if (startsName(next)) {
            const std::size_t first = m_at;
            while (continuesName(peek())) ++m_at;
            const std::string_view text = m_text.substr(first, m_at - first);
            const Result<quantity::Unit> unit = quantity::unitNamed(text);
            if (!unit) {
                m_at = first;
                if (isWordHere(text)) return expected("an operator (* for a product)");
                return refuse(Code::BadUnit, place(first), unit.error().help);
            }
            node.unit = *unit;
        }
        return add(std::move(node));
    }

    bool isWordHere(std::string_view text) const {
        return text == kPiWord || m_resolve(text).has_value() ||
               std::ranges::find(kFunctionWords, text, &FunctionWord::word) != kFunctionWords.end();
    }

    NodeResult bracketedName() {
        const std::size_t byte = m_at;
        const std::size_t close = m_text.find(']', m_at);
        if (close == std::string_view::npos) {
            return refuse(Code::BadFormula, place(byte), "the bracket is not closed by \"]\"");
        }
        m_at = close + 1;
        return name(m_text.substr(byte + 1, close - byte - 1), byte);
    }

    NodeResult word() {
        const std::size_t byte = m_at;
        while (continuesName(peek())) ++m_at;
        const std::string_view text = m_text.substr(byte, m_at - byte);
        if (text == kPiWord) return add(Operation::Pi, {}, byte);
        const auto function = std::ranges::find(kFunctionWords, text, &FunctionWord::word);
        if (function == kFunctionWords.end()) return name(text, byte);
        if (!take("(")) return expected("\"(\" after " + std::string(text));
        std::vector<std::size_t> operands;
        do {
            const NodeResult operand = sum();
            if (!operand) return operand;
            operands.push_back(*operand);
        } while (take(","));
        if (!take(")")) return expected("\",\" or \")\" or an operator");
        if (operands.size() < function->fewest || operands.size() > function->most) {
            return refuse(Code::BadFormula, place(byte),
                          std::string(text) + " takes " + std::to_string(function->fewest) +
                              (function->most > function->fewest ? " or more" : "") +
                              " values in its parentheses, not " + std::to_string(operands.size()));
        }
        return add(function->operation, std::move(operands), byte);
    }

    NodeResult name(std::string_view code, std::size_t byte) {
        const std::optional<std::string> id = m_resolve(code);
        if (!id) {
            return refuse(Code::MissingTarget, place(byte),
                          "\"" + std::string(code) +
                              "\" is the code of no dimension: correct it or enter the dimension");
        }
        FormulaNode node;
        node.operation = Operation::Name;
        node.character = character(byte);
        const auto known = std::ranges::find(m_formula.names, *id);
        node.name = static_cast<std::size_t>(known - m_formula.names.begin());
        if (known == m_formula.names.end()) m_formula.names.push_back(*id);
        return add(std::move(node));
    }

    std::string_view m_text;
    const NameResolver& m_resolve;
    Formula m_formula;
    std::size_t m_at = 0;
    int m_depth = 0;
};

}  // namespace

Result<Formula> parseFormula(std::string_view text, const NameResolver& resolve) {
    if (text.size() > kLongestText) {
        return refuse(Code::TooLarge, "character " + std::to_string(kLongestText),
                      "a formula of more than 2000 characters: split it into several relations");
    }
    return FormulaReader(text, resolve).read();
}

}  // namespace evidence::network
