#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

void findOpenQueries(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& query : c.index.reg().queries) {
        if (query.state.value_or(record::QueryState::Open) != record::QueryState::Open) continue;
        findings.push_back(made("open-query", {query.on, record::any(query.id)},
                                fmt::format("{} asks about {}: “{}”", nameOf(c.index, query.by),
                                            nameOfTarget(c.index, query.on), query.text),
                                "Answer the question, and let whoever asked it settle it."));
    }
}

}  // namespace evidence::judgement
