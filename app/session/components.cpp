#include "app/session/components.h"

#include <set>

namespace app::session {

std::vector<std::string> componentsOf(const evidence::record::Register& reg) {
    std::set<std::string> paths;
    const auto add = [&](const std::optional<std::string>& path) {
        if (!path) return;
        for (auto end = path->find('/'); end != std::string::npos; end = path->find('/', end + 1))
            paths.insert(path->substr(0, end));
        paths.insert(*path);
    };
    for (const auto& dimension : reg.dimensions) add(dimension.component);
    for (const auto& particular : reg.particulars) add(particular.component);
    paths.erase("");
    return {paths.begin(), paths.end()};
}

}  // namespace app::session
