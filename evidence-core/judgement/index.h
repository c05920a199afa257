#pragma once

#include "evidence-core/record/register.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

/// Private to judgement/: finding records by id, and what hangs on what, of one immutable register.
namespace evidence::judgement {

class Index {
  public:
    /// Keeps a reference to `reg`, which must outlive the index and not change.
    explicit Index(const record::Register& reg);

    [[nodiscard]] const record::Register& reg() const { return m_reg; }

    /// Null where there is no such record.
    [[nodiscard]] const record::Dimension* dimension(std::string_view id) const;
    [[nodiscard]] const record::Particular* particular(std::string_view id) const;
    [[nodiscard]] const record::Reading* reading(std::string_view id) const;
    [[nodiscard]] const record::Source* source(std::string_view id) const;
    [[nodiscard]] const record::Mark* mark(std::string_view id) const;
    [[nodiscard]] const record::Frame* frame(std::string_view id) const;
    [[nodiscard]] const record::Relation* relation(std::string_view id) const;
    [[nodiscard]] const record::SharedError* sharedError(std::string_view id) const;
    [[nodiscard]] const record::State* state(std::string_view id) const;
    [[nodiscard]] const record::Person* person(std::string_view id) const;
    [[nodiscard]] const record::Dimension* dimensionByCode(std::string_view code) const;

    [[nodiscard]] const record::Source* sourceOfFile(std::string_view file) const;
    /// The source a reading speaks from: its own, else that of its mark's, its frame's or its
    /// place's file. Null where it has none.
    [[nodiscard]] const record::Source* sourceOf(const record::Reading& reading) const;
    /// The mark a reading was measured through (the first of two), or null.
    [[nodiscard]] const record::Mark* markOf(const record::Reading& reading) const;
    /// The reference `g1/0` names, with its frame; null where there is none.
    struct FrameReference {
        const record::Frame* frame = nullptr;
        const record::Reference* reference = nullptr;
        std::size_t number = 0;  ///< counted from 0
    };
    [[nodiscard]] FrameReference reference(std::string_view leaf) const;

    /// All readings of a dimension or particular, set aside or not.
    [[nodiscard]] const std::vector<const record::Reading*>& readingsOf(std::string_view id) const;

    /// Position of a state in time; -1 where unknown.
    [[nodiscard]] int stateOrder(const record::StateId& id) const;

  private:
    template <class Record>
    using Table = std::map<std::string, const Record*, std::less<>>;

    const record::Register& m_reg;
    Table<record::Dimension> m_dimensions;
    Table<record::Dimension> m_dimensionsByCode;
    Table<record::Particular> m_particulars;
    Table<record::Reading> m_readings;
    Table<record::Source> m_sources;
    Table<record::Source> m_sourcesByFile;
    Table<record::Mark> m_marks;
    Table<record::Frame> m_frames;
    Table<record::Relation> m_relations;
    Table<record::SharedError> m_sharedErrors;
    Table<record::State> m_states;
    Table<record::Person> m_people;
    std::map<std::string, std::vector<const record::Reading*>, std::less<>> m_readingsOf;
};

}  // namespace evidence::judgement
