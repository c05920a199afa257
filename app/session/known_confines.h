#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <string>
#include <vector>

namespace app::session {

/// Another dimension or particular, in words.
struct KnownSize {
    evidence::record::AnyId id;
    std::string code;
    std::string name;
    std::string component;
    std::string size;  ///< "2 3/8″ ± 0.15 in"; "not known" where it cannot be worked out
    evidence::record::Grade grade = evidence::record::Grade::Blank;
};

/// What a relation makes of the size, all others in it taken as they are.
enum class RelationSays { Nothing, Equal, AtMost, AtLeast };

struct KnownRelation {
    evidence::record::RelationId id;
    std::string words;    ///< in names: "Hoop width = Sill + 2 × Post"
    std::string formula;  ///< in codes, as written
    std::string reason;
    RelationSays says = RelationSays::Nothing;
    std::string size;  ///< with ±, the doubts of the others added up; empty for Nothing
};

/// A limit on record, or any other evidence that already speaks of the size.
struct KnownEvidence {
    evidence::record::ReadingId id;
    std::string words;  ///< "The limit (no less than 12 3/4 in) from Broadside (S5)"
    std::string reason;
};

/// Everything that confines a size, or a fact, before it is guessed.
struct KnownConfines {
    bool inWords = false;  ///< a particular: a fact in words, without relations and limits
    std::string name;      ///< "Hoop 3, depth at crown (D45)"
    std::string component;
    std::string unit;  ///< what a bare number means: "in"; empty for pure numbers
    std::string size;  ///< as it stands, "not known" where it cannot be worked out
    evidence::record::Grade grade = evidence::record::Grade::Blank;
    std::string gradeWhy;
    std::vector<KnownRelation> relations;
    std::vector<KnownEvidence> limits;
    std::vector<KnownEvidence> otherEvidence;
    std::vector<KnownSize> neighbours;  ///< what stands in a relation with it, then its component's
    std::vector<KnownSize> analogous;   ///< the same thing elsewhere: same name but for numbers
};

/// What confines the dimension or particular `on`. What is set aside confines nothing.
[[nodiscard]] KnownConfines knownConfines(const evidence::record::AnyId& on,
                                          const evidence::record::Register& reg,
                                          const evidence::judgement::Analysis& analysis);

/// A name without its numbers and their punctuation, in small letters: "Hoop 3, depth at crown" and
/// "Hoop 10, depth at crown" have the same stem.
[[nodiscard]] std::string nameStem(const std::string& name);

}  // namespace app::session
