#pragma once

#include "evidence-core/judgement/index.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

/// Private to judgement/: where sources come from. Sources joined by descent or by `replaces` share
/// one origin.
namespace evidence::judgement {

class Lineage {
  public:
    explicit Lineage(const Index& index);

    /// The sources `source` goes back to: itself where it descends from nothing known. Descent only
    /// (an issue does not descend from the one it replaces). Sorted by id.
    [[nodiscard]] const std::vector<const record::Source*>& rootsOf(
        const record::Source& source) const;
    /// A root of the source's descent is maker, eyewitness or a published standard.
    [[nodiscard]] bool speaksFromThePeriod(const record::Source& source) const;
    /// Number of the origin `source` belongs to; equal for all that share it.
    [[nodiscard]] int originOf(const record::Source& source) const;
    /// Somebody else's work that goes back to this register (descends as `this-archive`).
    [[nodiscard]] bool goesBackToUs(const record::Source& source) const;
    /// A later issue of the same drawing, or null.
    [[nodiscard]] const record::Source* replacedBy(const record::Source& source) const;
    /// Steps of descent from the source to the nearest root: 0 for a root.
    [[nodiscard]] int stepsToRoot(const record::Source& source) const;

  private:
    std::map<const record::Source*, std::vector<const record::Source*>> m_roots;
    std::map<const record::Source*, int> m_origin;
    std::map<const record::Source*, int> m_steps;
    std::map<const record::Source*, const record::Source*> m_replacedBy;
    std::set<const record::Source*> m_backToUs;
};

}  // namespace evidence::judgement
