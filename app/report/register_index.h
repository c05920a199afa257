#pragma once

#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <QString>

#include <map>
#include <string>
#include <unordered_map>
#include <vector>

namespace app::report {

/// Finds records of a register and their results by id, and says who speaks of whom. Holds pointers
/// into the register and the analysis it was made from: both must outlive it.
class RegisterIndex {
  public:
    RegisterIndex(const evidence::record::Register& reg,
                  const evidence::judgement::Analysis& analysis);

    const evidence::record::Register& reg;
    const evidence::judgement::Analysis& analysis;

    [[nodiscard]] const evidence::record::Source* source(const std::string& id) const;
    /// The source of a file, and the file.
    [[nodiscard]] const evidence::record::Source* sourceOfFile(const std::string& id) const;
    [[nodiscard]] const evidence::record::File* file(const std::string& id) const;
    [[nodiscard]] const evidence::record::Mark* mark(const std::string& id) const;
    [[nodiscard]] const evidence::record::Frame* frame(const std::string& id) const;
    [[nodiscard]] const evidence::record::Dimension* dimension(const std::string& id) const;
    [[nodiscard]] const evidence::record::Particular* particular(const std::string& id) const;
    [[nodiscard]] const evidence::record::Reading* reading(const std::string& id) const;
    [[nodiscard]] const evidence::record::Relation* relation(const std::string& id) const;
    [[nodiscard]] const evidence::record::State* state(const std::string& id) const;
    [[nodiscard]] const evidence::judgement::DimensionResult* result(const std::string& id) const;
    [[nodiscard]] const evidence::judgement::ParticularResult* particularResult(
        const std::string& id) const;
    [[nodiscard]] const evidence::judgement::FrameResult* frameResult(const std::string& id) const;
    [[nodiscard]] const evidence::judgement::RelationResult* relationResult(
        const std::string& id) const;

    /// Where a reading comes from: its source, or that of its mark's file.
    [[nodiscard]] const evidence::record::Source* sourceOfReading(
        const evidence::record::Reading& reading) const;

    /// Records that speak of a dimension or particular, in the register's order.
    [[nodiscard]] std::vector<const evidence::record::Reading*> readingsOf(
        const std::string& id) const;
    /// The ruling in force: the last that no other supersedes; and those before it, newest first.
    [[nodiscard]] std::vector<const evidence::record::Ruling*> rulingsOf(
        const std::string& id) const;
    [[nodiscard]] std::vector<const evidence::judgement::Finding*> findingsOn(
        const std::string& id) const;

    template <class Record>
    [[nodiscard]] static std::vector<const Record*> on(const std::vector<Record>& records,
                                                       const std::string& id) {
        std::vector<const Record*> found;
        for (const Record& record : records)
            if (record.on.text == id) found.push_back(&record);
        return found;
    }

    [[nodiscard]] QString personName(const std::string& id) const;
    /// The short code of any record: its own, or its letter and place in the register ("J2"; "J2.1"
    /// for a known length).
    [[nodiscard]] QString code(const std::string& id) const;
    /// "D12 Hoop width", "S3 General arrangement", "scale J2" …: code and name of any record.
    [[nodiscard]] QString label(const std::string& id) const;
    /// The place of a record in the document, for links.
    [[nodiscard]] QString anchor(const std::string& id) const;

    /// Sources that are one witness: joined by descent or by `replaces`. Number from 1 by order.
    [[nodiscard]] int originGroup(const std::string& sourceId) const;
    /// All members of the group of a source, in the register's order.
    [[nodiscard]] std::vector<const evidence::record::Source*> group(int number) const;

  private:
    template <class T>
    using ById = std::unordered_map<std::string, const T*>;

    void giveCodes();
    void joinOrigins();

    ById<evidence::record::Source> m_sources;
    ById<evidence::record::Source> m_sourceOfFile;
    ById<evidence::record::File> m_files;
    ById<evidence::record::Mark> m_marks;
    ById<evidence::record::Frame> m_frames;
    ById<evidence::record::Dimension> m_dimensions;
    ById<evidence::record::Particular> m_particulars;
    ById<evidence::record::Reading> m_readings;
    ById<evidence::record::Relation> m_relations;
    ById<evidence::record::State> m_states;
    ById<evidence::record::Person> m_people;
    ById<evidence::judgement::DimensionResult> m_results;
    ById<evidence::judgement::ParticularResult> m_particularResults;
    ById<evidence::judgement::FrameResult> m_frameResults;
    ById<evidence::judgement::RelationResult> m_relationResults;
    std::unordered_map<std::string, std::vector<const evidence::record::Reading*>> m_readingsOf;
    std::unordered_map<std::string, std::vector<const evidence::judgement::Finding*>> m_findingsOn;
    std::unordered_map<std::string, QString> m_codes;
    std::unordered_map<std::string, int> m_groups;
};

}  // namespace app::report
