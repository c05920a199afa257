#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

/// A relation's formula is stored by id (`{d1} = {d2} + 2*{d3}`) and printed with the current codes
/// (`D1 = D2 + 2*D3`), so that renumbering a dimension changes no relation. Inside the braces
/// `%`, `{` and `}` of an id are written %25, %7B and %7D.
namespace evidence::record {

/// The id for a code, or the code for an id; nothing where there is none.
using NameMap = std::function<std::optional<std::string>(std::string_view)>;

/// Codes become ids. Words that are no code (functions, units) and everything else stay as written.
[[nodiscard]] std::string formulaById(std::string_view withCodes, const NameMap& idOfCode);

/// Ids become codes, in [brackets] where a code is no plain word. An id that has none stays in its
/// braces.
[[nodiscard]] std::string formulaByCode(std::string_view withIds, const NameMap& codeOfId);

}  // namespace evidence::record
