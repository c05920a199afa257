#include "evidence-core/quantity/parse_quantity.h"

#include "evidence-core/quantity/radian.h"
#include "evidence-core/quantity/written_token.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace evidence::quantity {
namespace {

// No part of any design reaches a million miles: what does is a slip of the pen.
constexpr double kLargestCanonical = 1e12;
constexpr std::size_t kLongestText = 200;

Rational exact(Ratio ratio) {
    return {ratio.numerator, ratio.denominator};
}

struct Amount {
    Rational value = 0;
    Rational step = 1;
    bool whole = false;
    std::size_t character = 1;
};

// Larger and smaller unit of a value written in two or three parts, and how many make one.
struct Below {
    Unit larger;
    Unit smaller;
    int perLarger;
};
constexpr std::array kBelow{Below{Unit::Foot, Unit::Inch, 12}, Below{Unit::Yard, Unit::Foot, 3},
                            Below{Unit::Degree, Unit::ArcMinute, 60},
                            Below{Unit::ArcMinute, Unit::ArcSecond, 60},
                            Below{Unit::Pound, Unit::Ounce, 16}};

std::string lowered(std::string text) {
    for (char& c : text) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    while (!text.empty() && text.back() == '.') text.pop_back();
    return text;
}

bool isAboutWord(const std::string& word) {
    constexpr std::array<std::string_view, 9> kWords{
        "about", "abt", "approx", "approximately", "c", "ca", "circa", "roughly", "nearly"};
    return std::ranges::find(kWords, std::string_view(word)) != kWords.end();
}

// What an OCR'd or hastily typed word would be if its look-alike letters were figures.
std::string asFigures(const std::string& word) {
    std::string figures;
    for (const char c : word) {
        if (c >= '0' && c <= '9') {
            figures.push_back(c);
        } else if (c == 'l' || c == 'I' || c == 'i' || c == '|') {
            figures.push_back('1');
        } else if (c == 'O' || c == 'o' || c == 'Q') {
            figures.push_back('0');
        } else if (c == 'S' || c == 's') {
            figures.push_back('5');
        } else if (c == 'B') {
            figures.push_back('8');
        } else if (c == 'Z' || c == 'z') {
            figures.push_back('2');
        } else {
            return {};
        }
    }
    return figures;
}

class Reader {
  public:
    Reader(std::string_view text, std::vector<WrittenToken> tokens, Measure expected,
           std::optional<Unit> bareUnit)
        : m_text(text), m_tokens(std::move(tokens)), m_expected(expected), m_bareUnit(bareUnit) {}

    Result<Written> read() {
        if (m_tokens.empty())
            return refuse(Code::BadValue, atCharacter(1), "nothing is written here: write a value");
        Written out;
        out.text = std::string(m_text);
        takeAbout(out);
        const bool negative = takeSign();
        takeAbout(out);

        Rational total = 0;
        Rational step = 1;
        std::optional<Unit> last;
        while (true) {
            if (last) skipSeparator();
            Result<Amount> amount = takeAmount();
            if (!amount) return tl::unexpected(amount.error());
            Result<std::optional<Unit>> written = takeUnit();
            if (!written) return tl::unexpected(written.error());
            std::optional<Unit> unit = *written;
            if (!unit && last) unit = below(*last) ? std::optional(below(*last)->smaller) : last;
            if (last) {
                if (const auto fault = misfit(*last, *unit, *amount)) return tl::unexpected(*fault);
            }
            out.unitWritten = out.unitWritten || written->has_value() || last.has_value();
            if (!unit) {
                if (!m_bareUnit) return noUnit();
                unit = m_bareUnit;
            }
            if (const auto fault = doubtfulFeet(*unit, *amount)) return tl::unexpected(*fault);
            const Rational factor = exact(exactFactor(*unit));
            total += amount->value * factor;
            step = amount->step * factor;
            const bool fractional = !amount->whole;
            last = unit;
            out.unit = *unit;
            if (m_at == m_tokens.size()) break;
            if (!written->has_value() || fractional || !below(*unit)) return leftOver();
        }
        return finished(std::move(out), negative ? Rational(-total) : total, step);
    }

  private:
    const WrittenToken* peek(std::size_t ahead = 0) const {
        return m_at + ahead < m_tokens.size() ? &m_tokens[m_at + ahead] : nullptr;
    }
    bool next(Piece piece, std::size_t ahead = 0) const {
        const WrittenToken* token = peek(ahead);
        return token != nullptr && token->piece == piece;
    }
    static const Below* below(Unit unit) {
        const auto* found = std::ranges::find(kBelow, unit, &Below::larger);
        return found == kBelow.end() ? nullptr : found;
    }

    void takeAbout(Written& out) {
        while (next(Piece::Tilde) || (next(Piece::Word) && isAboutWord(lowered(peek()->text)))) {
            out.approximate = true;
            ++m_at;
        }
    }

    bool takeSign() {
        const bool negative = next(Piece::Dash);
        if (negative || next(Piece::Plus)) ++m_at;
        return negative;
    }

    // The dash of 5'-3" and the comma of 5 ft, 3 in.
    void skipSeparator() {
        if (next(Piece::Dash) || (next(Piece::Other) && peek()->text == ",")) ++m_at;
    }

    Result<Amount> takeAmount() {
        const WrittenToken* token = peek();
        if (token == nullptr) return missingNumber();
        Amount amount;
        amount.character = token->character;
        if (next(Piece::Fraction)) {
            amount.value = token->value;
            amount.step = token->step;
            ++m_at;
            return amount;
        }
        if (!next(Piece::Number)) return notANumber(*token);
        if (next(Piece::Slash, 1)) return takeFraction();
        amount.value = token->value;
        amount.step = token->step;
        amount.whole = token->wholeNumber;
        ++m_at;
        if (!amount.whole) return amount;
        return takeFractionAfter(amount);
    }

    // The 1/2 of 3 1/2, 3-1/2 and 3½.
    Result<Amount> takeFractionAfter(Amount amount) {
        const bool dashed = next(Piece::Dash) && !peek()->spaceBefore && next(Piece::Number, 1) &&
                            !peek(1)->spaceBefore && next(Piece::Slash, 2);
        const bool spaced = next(Piece::Number) && next(Piece::Slash, 1);
        if (!dashed && !spaced && !next(Piece::Fraction)) return amount;
        if (dashed) ++m_at;
        const std::size_t character = peek()->character;
        Result<Amount> fraction = takeAmount();
        if (!fraction) return fraction;
        if (fraction->value >= 1) {
            return refuse(Code::BadValue, atCharacter(character),
                          "after a whole number the fraction must be less than one: carry it");
        }
        amount.value += fraction->value;
        amount.step = fraction->step;
        amount.whole = false;
        return amount;
    }

    Result<Amount> takeFraction() {
        const WrittenToken numerator = *peek();
        m_at += 2;
        const WrittenToken* denominator = peek();
        if (denominator == nullptr || denominator->piece != Piece::Number) {
            if (denominator != nullptr) return notANumber(*denominator);
            return missingNumber();
        }
        if (!numerator.wholeNumber || !denominator->wholeNumber) {
            return refuse(Code::BadValue, atCharacter(numerator.character),
                          "a fraction takes whole numbers above and below the line");
        }
        if (denominator->value == 0) {
            return refuse(Code::BadValue, atCharacter(denominator->character),
                          "a fraction cannot have a zero below the line");
        }
        ++m_at;
        if (next(Piece::Slash)) {
            return refuse(Code::BadValue, atCharacter(peek()->character),
                          "a second fraction line: a date does not belong here");
        }
        Amount amount;
        amount.value = numerator.value / denominator->value;
        amount.step = Rational(1) / denominator->value;
        amount.character = numerator.character;
        return amount;
    }

    // A mark (' " ° %) or the words that follow a number; none: a bare number.
    Result<std::optional<Unit>> takeUnit() {
        const WrittenToken* token = peek();
        if (token == nullptr) return std::optional<Unit>();
        const bool angle = m_expected == Measure::Angle;
        if (token->piece == Piece::Degree && !angle) {
            return refuse(Code::BadValue, atCharacter(token->character),
                          "a degree sign in a " + std::string(nameOf(m_expected)) +
                              ": if a foot mark was meant, write '");
        }
        if (token->piece == Piece::Percent && m_expected != Measure::Number) {
            return refuse(Code::BadUnit, atCharacter(token->character),
                          "a percentage is no " + std::string(nameOf(m_expected)) +
                              ": write the value with its unit");
        }
        const std::optional<Unit> mark = markOf(token->piece, angle);
        if (mark) {
            if (measureOf(*mark) != m_expected) {
                return refuse(Code::BadUnit, atCharacter(token->character),
                              "\"" + token->text + "\" does not belong to a " +
                                  std::string(nameOf(m_expected)));
            }
            ++m_at;
            return mark;
        }
        if (token->piece != Piece::Word) return std::optional<Unit>();
        return takeUnitWords();
    }

    static std::optional<Unit> markOf(Piece piece, bool angle) {
        if (piece == Piece::Prime) return angle ? Unit::ArcMinute : Unit::Foot;
        if (piece == Piece::DoublePrime) return angle ? Unit::ArcSecond : Unit::Inch;
        if (piece == Piece::Degree) return Unit::Degree;
        if (piece == Piece::Percent) return Unit::Percent;
        return std::nullopt;
    }

    Result<std::optional<Unit>> takeUnitWords() {
        const std::size_t character = peek()->character;
        // Before litres are thought of: the l of "3 l/2" is a misread 1.
        if (next(Piece::Slash, 1) && !asFigures(peek()->text).empty()) return lookAlike(*peek());
        std::string words;
        // The longest run of words that is a unit: "sq in" before "sq".
        std::size_t count = 0;
        std::optional<Unit> found;
        for (std::size_t i = 0; i < 3 && next(Piece::Word, i); ++i) {
            if (i > 0) words += ' ';
            words += peek(i)->text;
            if (const Result<Unit> unit = unitNamed(words)) {
                found = *unit;
                count = i + 1;
            }
        }
        if (!found) return unknownWord(*peek());
        if (measureOf(*found) != m_expected) {
            const Refusal why = unitNamed(nameOf(*found), m_expected).error();
            return refuse(Code::BadUnit, atCharacter(character), why.help);
        }
        m_at += count;
        return found;
    }

    tl::unexpected<Refusal> unknownWord(const WrittenToken& token) const {
        const std::string figures = asFigures(token.text);
        if (!figures.empty() && !token.spaceBefore) return lookAlike(token);
        const Result<Unit> unit = unitNamed(token.text);
        if (unit) return complete(token);
        return refuse(Code::BadUnit, atCharacter(token.character), unit.error().help);
    }

    static tl::unexpected<Refusal> lookAlike(const WrittenToken& token) {
        return refuse(Code::BadValue, atCharacter(token.character),
                      "\"" + token.text + "\" are letters: if \"" + asFigures(token.text) +
                          "\" was meant, write it in figures");
    }

    tl::unexpected<Refusal> notANumber(const WrittenToken& token) const {
        const std::string word = lowered(token.text);
        if (word == "nan" || word == "inf" || word == "infinity" || token.text == "∞") {
            return refuse(Code::NotFinite, atCharacter(token.character),
                          "\"" + token.text + "\" is no size: write a finite number");
        }
        if (token.piece == Piece::Word && !asFigures(token.text).empty()) return lookAlike(token);
        if (token.piece == Piece::Dash || token.piece == Piece::Plus) {
            return refuse(Code::BadValue, atCharacter(token.character),
                          "a number is expected here; a sign stands once, in front of the whole");
        }
        if (token.piece == Piece::Word) {
            return refuse(Code::BadValue, atCharacter(token.character),
                          "\"" + token.text + "\" is no number: write it in figures");
        }
        return refuse(Code::BadValue, atCharacter(token.character),
                      "a number is expected here, not \"" + token.text + "\"");
    }

    tl::unexpected<Refusal> missingNumber() const {
        return refuse(Code::BadValue, atCharacter(m_tokens.back().character + 1),
                      "the value ends too early: a number is missing");
    }

    tl::unexpected<Refusal> noUnit() const {
        const std::string name(nameOf(canonicalUnit(m_expected)));
        if (m_at < m_tokens.size()) return leftOver();
        return refuse(Code::BadUnit, atCharacter(m_tokens.back().character + 1),
                      "the number has no unit: write one, for example " + name);
    }

    tl::unexpected<Refusal> leftOver() const {
        const WrittenToken& token = m_tokens[m_at];
        if (token.piece == Piece::Other && token.text == "±") {
            return refuse(Code::BadValue, atCharacter(token.character),
                          "a value only: its uncertainty has a field of its own");
        }
        if (token.piece == Piece::Word) return unknownWord(token);
        return complete(token);
    }

    static tl::unexpected<Refusal> complete(const WrittenToken& token) {
        return refuse(Code::BadValue, atCharacter(token.character),
                      "the value is complete before \"" + token.text +
                          "\": write one value with one unit in a field");
    }

    // What may follow: inches below twelve after whole feet, minutes below sixty after degrees …
    static std::optional<Refusal> misfit(Unit larger, Unit unit, const Amount& amount) {
        const Below* step = below(larger);
        if (step == nullptr || step->smaller != unit) {
            return Refusal{Code::BadValue, atCharacter(amount.character),
                           std::string(nameOf(unit)) + " cannot follow " +
                               std::string(nameOf(larger)) + ": write one value with one unit"};
        }
        if (amount.value >= step->perLarger) {
            return Refusal{Code::BadValue, atCharacter(amount.character),
                           "after " + std::string(nameOf(larger)) + " the " +
                               std::string(nameOf(unit)) + " must be less than " +
                               std::to_string(step->perLarger) + ": carry or correct it"};
        }
        return std::nullopt;
    }

    // 5.10 ft is read as five feet ten as often as five and a tenth.
    static std::optional<Refusal> doubtfulFeet(Unit unit, const Amount& amount) {
        if (unit != Unit::Foot || amount.step != Rational(1, 100)) return std::nullopt;
        const Rational hundredths = (amount.value - floorOf(amount.value)) * 100;
        if (hundredths != 10 && hundredths != 11) return std::nullopt;
        return Refusal{
            Code::BadValue, atCharacter(amount.character),
            "may mean ten or eleven inches, or a decimal of a foot: write feet and inches"};
    }

    static Rational floorOf(const Rational& value) {
        return Rational(boost::multiprecision::cpp_int(numerator(value) / denominator(value)));
    }

    Result<Written> finished(Written out, const Rational& total, const Rational& step) const {
        out.canonical = canonical(total, out.unit);
        out.resolution = canonical(step, out.unit);
        if (std::abs(out.canonical) > kLargestCanonical) {
            return refuse(Code::TooLarge, atCharacter(1),
                          "the value is too large to be meant: correct it");
        }
        return out;
    }

    static double canonical(const Rational& value, Unit unit) {
        // Adding zero turns the -0 of "-0" into 0.
        const double base = value.convert_to<double>() + 0.0;
        const bool arc = measureOf(unit) == Measure::Angle && unit != Unit::Radian;
        return arc ? Radian::fromDegrees(base).toRadians() : base;
    }

    std::string_view m_text;
    std::vector<WrittenToken> m_tokens;
    Measure m_expected;
    std::optional<Unit> m_bareUnit;
    std::size_t m_at = 0;
};

}  // namespace

Result<Written> parseQuantity(std::string_view text, Measure expected,
                              std::optional<Unit> bareUnit) {
    if (text.size() > kLongestText) {
        return refuse(Code::TooLarge, atCharacter(kLongestText),
                      "a value of more than 200 characters: write the value only");
    }
    Result<std::vector<WrittenToken>> tokens = splitWritten(text);
    if (!tokens) return tl::unexpected(tokens.error());
    return Reader(text, *std::move(tokens), expected, bareUnit).read();
}

double resolutionOfNumber(std::string_view digits) {
    const Result<std::vector<WrittenToken>> tokens = splitWritten(digits);
    if (!tokens || tokens->empty() || tokens->back().piece != Piece::Number) return 1.0;
    return tokens->back().step.convert_to<double>();
}

}  // namespace evidence::quantity
