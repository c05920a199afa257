#pragma once

#include "evidence-core/judgement/context.h"

#include <string>
#include <vector>

/// Private to judgement/: facts that are no quantities, graded by the same table as sizes.
namespace evidence::judgement {

/// One reading of a particular with its class.
struct Word {
    const record::Reading* reading = nullptr;
    const record::Source* source = nullptr;  ///< null where it has none
    std::string text;                        ///< as written
    std::string folded;                      ///< case and spaces folded: what is compared
    record::Grade strength = record::Grade::OurCall;
};

/// What is said about one particular, and what is held to be true.
struct Fact {
    std::vector<Word> words;  ///< those not set aside, best class first
    ParticularResult result;
    const record::Lowered* lowered = nullptr;
    record::Grade computed = record::Grade::Blank;  ///< before a person lowered it
};

[[nodiscard]] std::string foldedText(const std::string& text);
[[nodiscard]] Fact factOf(const Context& context, const record::Particular& particular);

}  // namespace evidence::judgement
