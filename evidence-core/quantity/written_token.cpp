#include "evidence-core/quantity/written_token.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace evidence::quantity {
namespace {

using boost::multiprecision::cpp_int;

struct CodePoint {
    char32_t value = 0;
    std::size_t byte = 0;
};

constexpr std::size_t kMostFigures = 30;
constexpr int kMostExponent = 30;

// Strict UTF-8 by the table of RFC 3629: no overlong forms, no surrogates.
std::optional<std::vector<CodePoint>> decode(std::string_view text) {
    std::vector<CodePoint> points;
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::size_t length = lead < 0x80   ? 1
                                   : lead < 0xC2 ? 0
                                   : lead < 0xE0 ? 2
                                   : lead < 0xF0 ? 3
                                   : lead < 0xF5 ? 4
                                                 : 0;
        if (length == 0 || i + length > text.size()) return std::nullopt;
        char32_t value = length == 1   ? lead
                         : length == 2 ? lead & 0x1Fu
                         : length == 3 ? lead & 0x0Fu
                                       : lead & 0x07u;
        for (std::size_t k = 1; k < length; ++k) {
            const auto next = static_cast<unsigned char>(text[i + k]);
            if ((next & 0xC0u) != 0x80u) return std::nullopt;
            value = (value << 6u) | (next & 0x3Fu);
        }
        const bool overlong = (length == 3 && value < 0x800) || (length == 4 && value < 0x10000);
        if (overlong || (value >= 0xD800 && value <= 0xDFFF) || value > 0x10FFFF)
            return std::nullopt;
        points.push_back({value, i});
        i += length;
    }
    return points;
}

struct Vulgar {
    char32_t character;
    int numerator;
    int denominator;
};
constexpr std::array kVulgars{Vulgar{U'½', 1, 2}, Vulgar{U'⅓', 1, 3}, Vulgar{U'⅔', 2, 3},
                              Vulgar{U'¼', 1, 4}, Vulgar{U'¾', 3, 4}, Vulgar{U'⅕', 1, 5},
                              Vulgar{U'⅖', 2, 5}, Vulgar{U'⅗', 3, 5}, Vulgar{U'⅘', 4, 5},
                              Vulgar{U'⅙', 1, 6}, Vulgar{U'⅚', 5, 6}, Vulgar{U'⅐', 1, 7},
                              Vulgar{U'⅛', 1, 8}, Vulgar{U'⅜', 3, 8}, Vulgar{U'⅝', 5, 8},
                              Vulgar{U'⅞', 7, 8}, Vulgar{U'⅑', 1, 9}, Vulgar{U'⅒', 1, 10}};

bool isSpace(char32_t c) {
    return c == U' ' || c == U'\t' || c == 0xA0 || c == 0x202F || c == 0x205F || c == 0x3000 ||
           (c >= 0x2000 && c <= 0x200B) || c == U'\n' || c == U'\r';
}
bool isFigure(char32_t c) {
    return c >= U'0' && c <= U'9';
}
bool isSlash(char32_t c) {
    return c == U'/' || c == 0x2044 || c == 0x2215;
}
bool isDash(char32_t c) {
    return c == U'-' || (c >= 0x2010 && c <= 0x2015) || c == 0x2212;
}
bool isPrime(char32_t c) {
    return c == U'\'' || c == 0x2032 || c == 0x2018 || c == 0x2019 || c == 0xB4 || c == 0x2BC;
}
bool isDoublePrime(char32_t c) {
    return c == U'"' || c == 0x2033 || c == 0x201C || c == 0x201D || c == 0x2BA;
}
bool isLetter(char32_t c) {
    return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') ||
           (c >= 0xC0 && c <= 0x24F && c != 0xD7 && c != 0xF7) || (c >= 0x370 && c <= 0x52F);
}
int raisedFigure(char32_t c) {
    if (c == 0xB9) return 1;
    if (c == 0xB2) return 2;
    if (c == 0xB3) return 3;
    if (c == 0x2070) return 0;
    return c >= 0x2074 && c <= 0x2079 ? static_cast<int>(c - 0x2070) : -1;
}
int loweredFigure(char32_t c) {
    return c >= 0x2080 && c <= 0x2089 ? static_cast<int>(c - 0x2080) : -1;
}

class Splitter {
  public:
    Splitter(std::string_view text, std::vector<CodePoint> points)
        : m_text(text), m_points(std::move(points)) {}

    Result<std::vector<WrittenToken>> split() {
        while (true) {
            m_space = false;
            while (m_at < m_points.size() && isSpace(peek())) {
                m_space = true;
                ++m_at;
            }
            if (m_at == m_points.size()) return std::move(m_tokens);
            if (const std::optional<Refusal> fault = takeOne()) return tl::unexpected(*fault);
        }
    }

  private:
    char32_t peek(std::size_t ahead = 0) const {
        return m_at + ahead < m_points.size() ? m_points[m_at + ahead].value : U'\0';
    }

    WrittenToken token(Piece piece, std::size_t first) const {
        WrittenToken made;
        made.piece = piece;
        const std::size_t begin = m_points[first].byte;
        const std::size_t end = m_at < m_points.size() ? m_points[m_at].byte : m_text.size();
        made.text = std::string(m_text.substr(begin, end - begin));
        made.character = first + 1;
        made.spaceBefore = m_space;
        return made;
    }

    std::optional<Refusal> takeOne() {
        const std::size_t first = m_at;
        const char32_t c = peek();
        if (isFigure(c) || (c == U'.' && isFigure(peek(1)))) return takeNumber();
        if (isLetter(c)) return takeWord();
        if (raisedFigure(c) >= 0 && takeRaisedFraction()) return std::nullopt;
        ++m_at;
        const auto vulgar = std::ranges::find(kVulgars, c, &Vulgar::character);
        if (vulgar != kVulgars.end()) {
            WrittenToken made = token(Piece::Fraction, first);
            made.value = Rational(vulgar->numerator, vulgar->denominator);
            made.step = Rational(1, vulgar->denominator);
            m_tokens.push_back(made);
            return std::nullopt;
        }
        if (isPrime(c) && isPrime(peek())) {
            // Two single marks are an inch mark.
            ++m_at;
            m_tokens.push_back(token(Piece::DoublePrime, first));
            return std::nullopt;
        }
        const Piece piece = isSlash(c)                   ? Piece::Slash
                            : isPrime(c)                 ? Piece::Prime
                            : isDoublePrime(c)           ? Piece::DoublePrime
                            : isDash(c)                  ? Piece::Dash
                            : c == U'+'                  ? Piece::Plus
                            : (c == U'°' || c == U'º')   ? Piece::Degree
                            : c == U'%'                  ? Piece::Percent
                            : (c == U'~' || c == 0x2248) ? Piece::Tilde
                                                         : Piece::Other;
        m_tokens.push_back(token(piece, first));
        return std::nullopt;
    }

    std::optional<Refusal> takeWord() {
        const std::size_t first = m_at;
        while (isLetter(peek())) ++m_at;
        if (peek() == U'^' && (peek(1) == U'2' || peek(1) == U'3')) ++m_at;
        if ((peek() == U'2' || peek() == U'3') && !isFigure(peek(1))) {
            ++m_at;
        } else if (peek() == 0xB2 || peek() == 0xB3) {
            ++m_at;
        }
        if (peek() == U'.') ++m_at;
        m_tokens.push_back(token(Piece::Word, first));
        return std::nullopt;
    }

    bool takeRaisedFraction() {
        const std::size_t first = m_at;
        int above = 0;
        int below = 0;
        std::size_t at = m_at;
        const auto look = [&](std::size_t i) {
            return i < m_points.size() ? m_points[i].value : U'\0';
        };
        for (; raisedFigure(look(at)) >= 0 && above < 1000; ++at)
            above = above * 10 + raisedFigure(look(at));
        if (!isSlash(look(at))) return false;
        ++at;
        for (; loweredFigure(look(at)) >= 0 && below < 1000; ++at)
            below = below * 10 + loweredFigure(look(at));
        if (below == 0) return false;
        m_at = at;
        WrittenToken made = token(Piece::Fraction, first);
        made.value = Rational(above, below);
        made.step = Rational(1, below);
        m_tokens.push_back(made);
        return true;
    }

    std::optional<Refusal> takeNumber() {
        const std::size_t first = m_at;
        std::string whole = takeFigures();
        while (peek() == U',' && isFigure(peek(1))) {
            if (const std::optional<Refusal> fault = takeThousands(first, whole)) return fault;
        }
        std::string decimals;
        bool point = false;
        if (peek() == U'.') {
            point = true;
            ++m_at;
            decimals = takeFigures();
            if (peek() == U'.' && isFigure(peek(1))) {
                return Refusal{
                    Code::BadValue, atCharacter(m_at + 1),
                    "a second decimal point: write one number, or a date as year-month-day"};
            }
            if (peek() == U',' && isFigure(peek(1))) {
                return Refusal{Code::BadValue, atCharacter(m_at + 1),
                               "point and comma in this order may mean thousands and decimals: "
                               "write the number without thousands marks, with a decimal point"};
            }
        }
        int exponent = 0;
        if (const std::optional<Refusal> fault = takeExponent(exponent, point)) return fault;
        if (whole.size() + decimals.size() > kMostFigures) {
            return Refusal{Code::TooLarge, atCharacter(first + 1),
                           "a number of more than 30 figures: write fewer"};
        }
        WrittenToken made = token(Piece::Number, first);
        const std::string figures = whole + decimals;
        // cpp_int would take a leading zero for an octal number.
        const std::size_t significant = std::min(figures.find_first_not_of('0'), figures.size());
        const std::string stripped = figures.substr(significant);
        made.value = stripped.empty() ? cpp_int(0) : cpp_int(stripped);
        const int shift = exponent - static_cast<int>(decimals.size());
        const Rational power(boost::multiprecision::pow(
            cpp_int(10), static_cast<unsigned>(shift < 0 ? -shift : shift)));
        made.step = shift < 0 ? Rational(1) / power : power;
        made.value *= made.step;
        made.wholeNumber = !point && exponent == 0;
        m_tokens.push_back(made);
        return std::nullopt;
    }

    std::string takeFigures() {
        std::string figures;
        for (; isFigure(peek()); ++m_at) figures.push_back(static_cast<char>(peek()));
        return figures;
    }

    // A comma stands between thousands only where it cannot be a decimal comma: three figures after
    // it, one to three before, and either a decimal point or a further group behind.
    std::optional<Refusal> takeThousands(std::size_t first, std::string& whole) {
        const std::size_t comma = m_at;
        std::size_t at = m_at;
        std::size_t groups = 0;
        const auto look = [&](std::size_t i) {
            return i < m_points.size() ? m_points[i].value : U'\0';
        };
        while (look(at) == U',' && isFigure(look(at + 1)) && isFigure(look(at + 2)) &&
               isFigure(look(at + 3)) && !isFigure(look(at + 4))) {
            at += 4;
            ++groups;
        }
        const bool sure = groups > 0 && comma - first <= 3 && whole != "0" &&
                          (groups > 1 || look(at) == U'.') && look(at) != U',';
        if (!sure) {
            return Refusal{Code::BadValue, atCharacter(comma + 1),
                           "a comma may mean thousands or decimals: write the number without "
                           "thousands marks, with a decimal point"};
        }
        for (; m_at < at; ++m_at) {
            if (isFigure(peek())) whole.push_back(static_cast<char>(peek()));
        }
        return std::nullopt;
    }

    std::optional<Refusal> takeExponent(int& exponent, bool& written) {
        if (peek() != U'e' && peek() != U'E') return std::nullopt;
        const std::size_t sign = peek(1) == U'+' || peek(1) == U'-' ? 1 : 0;
        if (!isFigure(peek(1 + sign))) return std::nullopt;
        const std::size_t place = m_at + 1;
        const bool negative = peek(1) == U'-';
        m_at += 1 + sign;
        for (; isFigure(peek()); ++m_at) {
            if (exponent <= kMostExponent)
                exponent = exponent * 10 + static_cast<int>(peek() - U'0');
        }
        if (exponent > kMostExponent) {
            return Refusal{Code::TooLarge, atCharacter(place),
                           "an exponent beyond 30 is no size of anything: write the number out"};
        }
        if (negative) exponent = -exponent;
        written = true;
        return std::nullopt;
    }

    std::string_view m_text;
    std::vector<CodePoint> m_points;
    std::vector<WrittenToken> m_tokens;
    std::size_t m_at = 0;
    bool m_space = false;
};

}  // namespace

std::string atCharacter(std::size_t character) {
    return "character " + std::to_string(character);
}

Result<std::vector<WrittenToken>> splitWritten(std::string_view text) {
    std::optional<std::vector<CodePoint>> points = decode(text);
    if (!points)
        return refuse(Code::BadValue, atCharacter(1), "the text is not UTF-8: write it anew");
    return Splitter(text, *std::move(points)).split();
}

}  // namespace evidence::quantity
