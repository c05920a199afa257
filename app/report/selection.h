#pragma once

#include "app/report/register_index.h"
#include "evidence-core/record/decision.h"
#include "evidence-core/refusal.h"

#include <QString>

#include <set>
#include <string>
#include <vector>

namespace app::report {

/// The dimensions and particulars that a report speaks of. Those set aside as a whole are never
/// among them: the section on what was set aside lists them.
struct Selection {
    std::vector<const evidence::record::Dimension*> dimensions;
    std::vector<const evidence::record::Particular*> particulars;
    bool everything = true;
    QString words;  ///< the filter in words; empty where everything is shown

    [[nodiscard]] bool holds(const std::string& id) const { return m_ids.contains(id); }

    std::set<std::string> m_ids;
};

/// Errors: MissingTarget where `on`, `component` or `state` names nothing in the register;
/// BadValue where `since` is neither a time nor an issued report.
[[nodiscard]] evidence::Result<Selection> select(const RegisterIndex& index,
                                                 const evidence::record::ReportFilter& filter);

/// Components in the order of their first record, each with its dimensions and particulars.
struct ComponentGroup {
    QString name;  ///< "Body / Roof / Hoop 3"
    std::vector<const evidence::record::Dimension*> dimensions;
    std::vector<const evidence::record::Particular*> particulars;
};
[[nodiscard]] std::vector<ComponentGroup> byComponent(const Selection& selection);

}  // namespace app::report
