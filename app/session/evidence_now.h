#pragma once

#include "app/session/archive.h"
#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <vector>

namespace app::session {

/// One piece of evidence, briefly.
struct EvidenceLine {
    evidence::record::AnyId record;
    std::string words;  ///< "3'-7 5/16\" figured on General arrangement (S1)"
    std::string share;  ///< of the doubt: "62 %"; empty where it carries none
    bool guess = false;
    bool echo = false;
    bool setAside = false;
};

/// What there is to rule on: one dimension or particular as the analysis stands.
struct EvidenceNow {
    std::string name;  ///< "Hoop 3, depth at crown (D45)"
    std::string component;
    std::string size;  ///< ± half of the 95 % interval; "not known" where nothing tells it
    evidence::record::Grade grade = evidence::record::Grade::Blank;
    std::string gradeWhy;
    std::string raiseBy;
    bool isSize = false;  ///< a dimension; else a particular, which has no tolerance
    bool critical = false;
    std::vector<EvidenceLine> readings;  ///< its own
    std::vector<EvidenceLine> restsOn;   ///< sources, scales, relations and other sizes behind it
    std::vector<std::string> findings;   ///< sentences, those acknowledged left out
    std::optional<std::string> ruled;    ///< the ruling in force: value and reason
    std::string buildValue;       ///< the evidence's value as the shop writes it; may be empty
    std::string wantedTolerance;  ///< the dimension's, ± left out: "1/4"
    std::optional<evidence::record::EvidenceState> state;
};

[[nodiscard]] EvidenceNow evidenceNow(const evidence::record::AnyId& on,
                                      const evidence::record::Register& reg,
                                      const evidence::judgement::Analysis& analysis);

/// What a ruling made now remembers: the evidence that the user sees. Error: Stale, at
/// "evidence", where `judged`, the register that `analysis` speaks of, is not the one of `now`, or
/// where there is none yet.
[[nodiscard]] evidence::Result<std::optional<evidence::record::EvidenceState>> evidenceToKeep(
    const evidence::record::AnyId& on, const Snapshot& now, const Snapshot* judged,
    const evidence::judgement::Analysis& analysis);

}  // namespace app::session
