#pragma once

#include <span>
#include <string_view>

/// Private to trade/: the files under tables/, embedded when the program is built.
namespace evidence::trade {

struct TableText {
    std::string_view name;  ///< of the file, without its ending
    std::string_view text;
};

[[nodiscard]] std::span<const TableText> tableTexts();

/// The text of one; asserts that it is there.
[[nodiscard]] std::string_view tableText(std::string_view name);

}  // namespace evidence::trade
