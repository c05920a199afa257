#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

void findDisagreeing(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& fact : judged.facts) {
        const auto* particular = c.index.particular(fact.result.id.text);
        if (fact.result.agree || particular->setAside) continue;
        std::vector<record::AnyId> on{record::any(particular->id)};
        std::vector<std::string> says;
        for (const auto& word : fact.words) {
            on.push_back(record::any(word.reading->id));
            std::string name = nameOf(c.index, *word.reading);
            if (std::ranges::find(says, name) == says.end()) says.push_back(std::move(name));
        }
        findings.push_back(
            made("particular-disagree", std::move(on),
                 fmt::format("{}: the sources disagree: {}.", nameOf(*particular), listText(says)),
                 "Date each source: they may speak of different states. Else look "
                 "for a third that shows it."));
    }
}

}  // namespace evidence::judgement
