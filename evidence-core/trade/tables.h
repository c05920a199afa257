#pragma once

#include "evidence-core/record/register.h"
#include "evidence-core/trade/row.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace evidence::trade {

/// A way of naming sizes: a gauge, a thread, a set of lumber sizes.
struct System {
    std::string id;
    std::string name;
    std::vector<std::string> kinds;   ///< of things it names sizes of: gauge, screw, pipe …
    std::vector<std::string> saidAs;  ///< words by which people mean this one
};

/// A kind of thing whose sizes have names, and the words that mean it.
struct KindWords {
    std::string kind;
    std::vector<std::string> saidAs;
};

/// The trade tables: those the program brings (evidence-core/trade/tables/), and the rows that the
/// people of an archive added. Immutable; the pointers that `find` and `search` give hold as long
/// as the tables live.
class Tables {
  public:
    /// What the program brings; read once.
    [[nodiscard]] static const Tables& builtIn();

    /// With the archive's own rows in front: an example that was measured outranks a table. Rows
    /// that `ownRow` refuses are left out (an import never lets them in).
    explicit Tables(const record::Register& reg);

    [[nodiscard]] const Row* find(std::string_view id) const;
    [[nodiscard]] const std::vector<Row>& rows() const { return m_rows; }
    [[nodiscard]] const std::vector<System>& systems() const { return m_systems; }
    [[nodiscard]] const std::vector<KindWords>& kinds() const { return m_kinds; }
    [[nodiscard]] const System* system(std::string_view id) const;

  private:
    Tables();

    std::vector<Row> m_rows;
    std::vector<System> m_systems;
    std::vector<KindWords> m_kinds;
};

/// A row that people added, as a row of the tables. Errors, the place being its key: DuplicateId
/// where the program's tables have that id; MissingKey for a blank id, name or source;
/// MissingTarget for a source that is not on record; BadUnit; BadDate; BadValue for a spread that
/// is not positive, limits that do not hold the value, a density that is not positive, or a region
/// nobody knows.
[[nodiscard]] Result<Row> ownRow(const record::TableRow& row,
                                 const std::vector<record::Source>& sources);

}  // namespace evidence::trade
