#pragma once

#include <functional>
#include <optional>
#include <string_view>

namespace imaging::task {

/// A length read from text: its size in inches, and how many inches the unit is that an uncertainty
/// written beside it is in.
struct TextLength {
    double inches = 0;
    double inchesPerUnit = 1;
};

/// Reads a length as people write it ("5'-3 1/2\"", "1605 mm"); `unit` is the unit of a bare
/// number. None where it cannot be read. The application gives the one that knows all notations.
using LengthReader =
    std::function<std::optional<TextLength>(std::string_view text, std::string_view unit)>;

/// Inches in one in, ft, mm, cm or m (1 in = 25.4 mm exactly); none for other units.
[[nodiscard]] std::optional<double> inchesPer(std::string_view unit);

/// Reads a decimal number with or without a unit: "1605 mm", "63.5". No feet-inches, no fractions.
[[nodiscard]] std::optional<TextLength> readDecimalLength(std::string_view text,
                                                          std::string_view unit);

}  // namespace imaging::task
