#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <QString>

#include <cstddef>
#include <string>
#include <unordered_map>
#include <vector>

namespace app::desk::ledger {

/// Which findings stand in the margin beside which value: those that name the dimension or
/// particular, and those about a record that belongs to it (a reading, a mark, a scale).
class MarginNotes {
  public:
    MarginNotes(const evidence::record::Register& reg,
                const evidence::judgement::Analysis& analysis);

    /// Indices into the analysis's findings: open ones, graver first, then acknowledged ones.
    [[nodiscard]] const std::vector<std::size_t>& beside(const evidence::record::AnyId& size) const;

  private:
    std::unordered_map<std::string, std::vector<std::size_t>> m_beside;
};

/// A finding's sentence as it reads beside the value `name`: "Hoop width (D3) rests on a guess …"
/// becomes "It rests on a guess …".
[[nodiscard]] QString besideItsValue(const QString& sentence, const QString& name);

/// "Settle first", "Soon", "When you can", "Worth knowing".
[[nodiscard]] QString gatheringName(evidence::judgement::Severity severity);

}  // namespace app::desk::ledger
