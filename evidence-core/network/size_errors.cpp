#include "evidence-core/network/size_errors.h"

#include <cmath>

namespace evidence::network {

std::optional<Spread> placingOf(const record::Frame& frame, const record::Source* source,
                                const record::Settings& settings) {
    if (source == nullptr || source->kind != record::SourceKind::Drawing || !frame.print ||
        !frame.print->drawnScale)
        return std::nullopt;
    const double halfWidth =
        2 * settings.draughtsmanPlacing.value_or(0.01) * std::abs(*frame.print->drawnScale);
    if (!(halfWidth > 0)) return std::nullopt;
    return Spread{halfWidth / std::sqrt(6.0), ErrorShape::Triangular, true, false};
}

double workmanshipOf(const record::ArchiveInfo& archive,
                     const std::optional<std::string>& component) {
    double u = archive.workmanship.value_or(0);
    if (!component || !archive.settings) return u;
    std::size_t longest = 0;
    for (const auto& [path, own] : archive.settings->workmanshipByComponent) {
        const bool within = *component == path ||
                            (component->starts_with(path) && (*component)[path.size()] == '/');
        if (!within || path.size() < longest) continue;
        longest = path.size();
        u = own;
    }
    return u;
}

}  // namespace evidence::network
