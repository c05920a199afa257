#pragma once

#include "evidence-core/judgement/context.h"

#include <optional>
#include <string>

/// Private to judgement/: how a size is held up (trade/grading.md, printed in docs). A pure
/// function of the evidence; a person may only lower it.
namespace evidence::judgement {

/// What kept a grade from being better than the best class that the size can be computed from.
enum class GradeCap { None, Share, Length, Conflict, Lowered };

struct Graded {
    record::Grade grade = record::Grade::Blank;
    record::Grade computed = record::Grade::Blank;  ///< before a person lowered it
    GradeCap cap = GradeCap::None;                  ///< the last one that took hold
    bool twoWitnesses = false;
    std::string why;      ///< one plain sentence
    std::string raiseBy;  ///< the cheapest single piece of evidence that would raise it
    const record::Lowered* lowered = nullptr;  ///< the one that took hold
};

/// Grade of the size of the solution's dimension `i`.
[[nodiscard]] Graded gradeOf(const Context& context, std::size_t i);

/// "In hand", "Figured" … "Blank".
[[nodiscard]] std::string nameOf(record::Grade grade);
/// The lower of two grades.
[[nodiscard]] record::Grade lower(record::Grade a, record::Grade b);
/// The last lowering of `on` by a person, with a reason; null where there is none.
[[nodiscard]] const record::Lowered* loweringOf(const Index& index, const std::string& on);

/// Two used readings of class F or better that are independent witnesses: of different origins,
/// agreeing (E_n ≤ 1), of different kinds of source or by creators known to differ, both of the
/// state rebuilt. Indices into the solution's readings.
struct WitnessPair {
    std::size_t first = 0;
    std::size_t second = 0;
    double en = 0;  ///< |difference| / √(U₁² + U₂²), U = 2u
};
[[nodiscard]] std::optional<WitnessPair> twoWitnesses(const Context& context, std::size_t i);

}  // namespace evidence::judgement
