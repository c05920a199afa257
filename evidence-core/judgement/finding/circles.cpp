#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

void findCircles(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& circle : c.solution.circles) {
        std::vector<record::AnyId> on;
        std::vector<std::string> names;
        for (const auto at : circle.dimensions) {
            on.push_back(record::any(c.solution.dimensions[at].id));
            names.push_back(nameOf(c.record(c.solution.dimensions[at])));
        }
        for (const auto& id : circle.frames) on.push_back(record::any(id));
        std::string path;
        for (const auto& id : circle.path) {
            const std::string name = nameOfLeaf(c.index, id);
            path += path.empty() ? name : ", from there to " + name;
        }
        std::vector<std::string> links;
        for (const auto& id : circle.links) links.push_back(nameOfLeaf(c.index, id));
        std::ranges::sort(links);
        links.erase(std::unique(links.begin(), links.end()), links.end());
        std::string text = fmt::format(
            "{} {} evidence that only leads back to itself, so no size "
            "follows from it.",
            listText(names), names.size() == 1 ? "has" : "have");
        if (!path.empty()) text += fmt::format(" The circle runs from {}, and back.", path);
        findings.push_back(
            made("circular", std::move(on), sentence(std::move(text)),
                 fmt::format("One length from elsewhere breaks it. It can be cut at {}.",
                             listText(links, 6)),
                 {{"dimensions", static_cast<double>(circle.dimensions.size())}}));
    }
}

}  // namespace evidence::judgement
