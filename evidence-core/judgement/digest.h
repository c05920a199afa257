#pragma once

#include "evidence-core/judgement/index.h"

#include <map>
#include <set>
#include <string>
#include <vector>

/// Private to judgement/: fingerprints of evidence. A ruling and an acknowledgement remember the
/// fingerprint of what they were made on; when it changes they are looked at again.
namespace evidence::judgement {

/// Fingerprints of the records of one register (SHA-256, small hexadecimal). They depend on what
/// the records say as evidence: not on their order, ids, codes, names or notes.
class Digests {
  public:
    explicit Digests(const Index& index);

    /// Of one record with all it refers to, dimensions left blank: a source with its descent, a
    /// mark, a reading with its source, marks and frame. The empty text for an unknown id.
    [[nodiscard]] const std::string& ofRecord(const std::string& id) const;

    /// Of everything a dimension hangs on: `leaves` are the ids of its pulling leaves (records,
    /// `g1/0`, `r1/off_plane` …); its own readings count in any case, also those set aside.
    [[nodiscard]] std::string ofDimension(const record::Dimension& dimension,
                                          const std::vector<std::string>& leaves) const;
    [[nodiscard]] std::string ofParticular(const record::Particular& particular) const;

  private:
    const Index& m_index;
    std::map<std::string, std::string> m_records;
};

}  // namespace evidence::judgement
