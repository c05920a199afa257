#pragma once

#include "evidence-core/record/field.h"

#include <array>
#include <optional>
#include <string>
#include <variant>

/// Values and uncertainties as people wrote them. What was written is kept; what it means in
/// canonical units is worked out by `quantity` and `network`.
namespace evidence::record {

/// A JSON number with its own text, because the last written decimal is its resolution.
struct Number {
    double value = 0;
    std::string text;  ///< as written; empty where the number was made by the program

    friend bool operator==(const Number&, const Number&) = default;
};

/// A JSON number (in the unit given beside it) or a string as people write it (`5'-3 1/2"`).
using Written = std::variant<Number, std::string>;

enum class Shape { Rectangular, Triangular, Normal95 };

template <>
struct Names<Shape> {
    static constexpr std::array<NameList<Shape>, 3> all{{{"rectangular", Shape::Rectangular},
                                                         {"triangular", Shape::Triangular},
                                                         {"normal95", Shape::Normal95}}};
};

/// What holds a value up: domain.md's table of bases and classes. Persisted by name.
enum class Basis {
    Scaled,
    Figured,
    Stated,
    Gauged,
    Told,
    Analogous,
    Interpolated,
    Inferred,
    Limit,
    Guessed,
    Measured,
    Symmetry,
    TradeRule,
    Assumed,
    Geometry,
};

template <>
struct Names<Basis> {
    static constexpr std::array<NameList<Basis>, 15> all{{
        {"scaled", Basis::Scaled},
        {"figured", Basis::Figured},
        {"stated", Basis::Stated},
        {"gauged", Basis::Gauged},
        {"told", Basis::Told},
        {"analogous", Basis::Analogous},
        {"interpolated", Basis::Interpolated},
        {"inferred", Basis::Inferred},
        {"limit", Basis::Limit},
        {"guessed", Basis::Guessed},
        {"measured", Basis::Measured},
        {"symmetry", Basis::Symmetry},
        {"trade-rule", Basis::TradeRule},
        {"assumed", Basis::Assumed},
        {"geometry", Basis::Geometry},
    }};
};

/// How a size is held up, best first; `Blank` is printed "-". Persisted by letter.
enum class Grade { InHand, Figured, TakenOff, BoxedIn, CarriedOver, OurCall, Blank };

template <>
struct Names<Grade> {
    static constexpr std::array<NameList<Grade>, 7> all{{{"H", Grade::InHand},
                                                         {"F", Grade::Figured},
                                                         {"T", Grade::TakenOff},
                                                         {"B", Grade::BoxedIn},
                                                         {"C", Grade::CarriedOver},
                                                         {"O", Grade::OurCall},
                                                         {"-", Grade::Blank}}};
};

/// A point on a sheet in upright pixels: origin at the centre of the top-left pixel, x right, y
/// down.
struct PixelPoint {
    double x = 0;
    double y = 0;

    friend bool operator==(const PixelPoint&, const PixelPoint&) = default;
};

}  // namespace evidence::record
