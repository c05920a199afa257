#pragma once

#include "evidence-core/judgement/grade.h"

#include <string>

/// Private to judgement/: the sentences beside a grade.
namespace evidence::judgement {

/// Why the grade is what it is: "Taken off: the size scaled from Broadside photograph (S5) and …".
[[nodiscard]] std::string whyInWords(const Context& context, std::size_t i, const Graded& graded);
/// The cheapest upgrade: "A figure by the maker or an eyewitness would make it F."
[[nodiscard]] std::string raiseInWords(const Context& context, std::size_t i, const Graded& graded);
/// "R17 and the length … that sets the scale": the leaves of class `strength` that hold the size:
/// those it cannot do without, else those that carry most of it.
[[nodiscard]] std::vector<std::size_t> holdingLeaves(const Context& context, std::size_t i,
                                                     record::Grade strength);

}  // namespace evidence::judgement
