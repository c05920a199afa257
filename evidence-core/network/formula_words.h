#pragma once

#include "evidence-core/network/formula.h"

#include <array>
#include <cstddef>
#include <string_view>

/// Private to network/: the words of the formula language, shared by reading and printing.
namespace evidence::network {

struct FunctionWord {
    std::string_view word;
    Operation operation;
    std::size_t fewest;
    std::size_t most;
};

inline constexpr std::array kFunctionWords{
    FunctionWord{"sqrt", Operation::Sqrt, 1, 1}, FunctionWord{"sin", Operation::Sin, 1, 1},
    FunctionWord{"cos", Operation::Cos, 1, 1},   FunctionWord{"tan", Operation::Tan, 1, 1},
    FunctionWord{"asin", Operation::Asin, 1, 1}, FunctionWord{"acos", Operation::Acos, 1, 1},
    FunctionWord{"atan", Operation::Atan, 1, 1}, FunctionWord{"atan2", Operation::Atan2, 2, 2},
    FunctionWord{"min", Operation::Min, 2, 100}, FunctionWord{"max", Operation::Max, 2, 100},
    FunctionWord{"abs", Operation::Abs, 1, 1},
};

inline constexpr std::string_view kPiWord = "pi";

[[nodiscard]] constexpr bool startsName(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}
[[nodiscard]] constexpr bool continuesName(char c) {
    return startsName(c) || (c >= '0' && c <= '9') || c == '.';
}

}  // namespace evidence::network
