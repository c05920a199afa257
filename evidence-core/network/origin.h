#pragma once

#include "evidence-core/record/source.h"

#include <optional>
#include <span>
#include <string>
#include <unordered_map>

namespace evidence::network {

/// Which sources go back to one origin: those joined by descent or by `replaces`.
class Origins {
  public:
    explicit Origins(std::span<const record::Source> sources);

    /// The root that stands for the origin of `source`; absent without a source. Roots are sources
    /// without a parent; where a cycle leaves none, any one stands for it.
    [[nodiscard]] std::optional<record::SourceId> of(
        const std::optional<record::SourceId>& source) const;
    /// Fewest steps of descent from `source` up to a root; 0 for a root and for unknown ids.
    [[nodiscard]] int depth(const record::SourceId& source) const;
    /// Whether a root of its descent is by the maker, an eyewitness or a published standard.
    [[nodiscard]] bool hasPeriodRoot(const record::SourceId& source) const;
    /// Whether it came from this very archive: evidence that only returns our own numbers.
    [[nodiscard]] bool fromThisArchive(const record::SourceId& source) const;

  private:
    struct Entry {
        std::string origin;
        int depth = 0;
        bool periodRoot = false;
        bool ours = false;
    };
    std::unordered_map<std::string, Entry> m_entries;
};

}  // namespace evidence::network
