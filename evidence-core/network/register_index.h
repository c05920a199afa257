#pragma once

#include "evidence-core/record/register.h"

#include <optional>
#include <string>
#include <unordered_map>

namespace evidence::network {

/// Finds records by their ids. Pointers are into the register given and live as long as it does.
class RegisterIndex {
  public:
    explicit RegisterIndex(const record::Register& reg);

    [[nodiscard]] const record::Register& reg() const { return *m_reg; }
    /// Null where there is no such record.
    [[nodiscard]] const record::Source* source(const std::optional<record::SourceId>& id) const;
    [[nodiscard]] const record::Source* sourceOfFile(const record::FileId& id) const;
    [[nodiscard]] const record::Mark* mark(const record::MarkId& id) const;
    [[nodiscard]] const record::Frame* frame(const record::FrameId& id) const;
    /// By id, or none where the id is not a dimension's.
    [[nodiscard]] std::optional<std::size_t> dimension(const std::string& id) const;
    /// By code, or by id where no code says so (formulas).
    [[nodiscard]] std::optional<std::size_t> dimensionNamed(std::string_view codeOrId) const;

  private:
    const record::Register* m_reg;
    std::unordered_map<std::string, const record::Source*> m_sources;
    std::unordered_map<std::string, const record::Source*> m_sourceOfFile;
    std::unordered_map<std::string, const record::Mark*> m_marks;
    std::unordered_map<std::string, const record::Frame*> m_frames;
    std::unordered_map<std::string, std::size_t> m_dimensions;
    std::unordered_map<std::string, std::size_t> m_dimensionsByCode;
};

}  // namespace evidence::network
