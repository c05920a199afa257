#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

namespace {

bool isBlank(const std::string& text) {
    return foldedText(text).empty();
}
bool isBlank(const std::optional<std::string>& text) {
    return !text || isBlank(*text);
}

}  // namespace

void findMissingReasons(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    const auto& reg = c.index.reg();
    const auto add = [&](std::vector<record::AnyId> on, std::string text) {
        findings.push_back(made("no-reason", std::move(on), sentence(std::move(text)),
                                "Write down why, while somebody still knows it."));
    };
    for (const auto& ruling : reg.rulings)
        if (isBlank(ruling.reason))
            add({ruling.on, record::any(ruling.id)},
                fmt::format("{} was ruled {} without a reason.", nameOfTarget(c.index, ruling.on),
                            asWritten(ruling.value, ruling.unit)));
    for (const auto& departure : reg.departures)
        if (isBlank(departure.reason))
            add({departure.on, record::any(departure.id)},
                fmt::format("{} leaves the original without a reason.",
                            nameOfTarget(c.index, departure.on)));
    for (const auto& lowered : reg.lowered)
        if (isBlank(lowered.reason))
            add({lowered.on, record::any(lowered.id)},
                fmt::format("{} was to be set down to {} without a reason, so its grade stays as "
                            "computed.",
                            nameOfTarget(c.index, lowered.on), record::nameOf(lowered.grade)));
    for (const auto& reading : reg.readings) {
        const bool guess =
            reading.basis == record::Basis::Guessed || reading.basis == record::Basis::Assumed;
        if (guess && !reading.setAside && isBlank(reading.reason))
            add({reading.of, record::any(reading.id)},
                fmt::format("{} was guessed without a reason.", nameOfTarget(c.index, reading.of)));
        if (reading.setAside && isBlank(*reading.setAside))
            add({reading.of, record::any(reading.id)},
                fmt::format("{}: {} was set aside without a reason.",
                            nameOfTarget(c.index, reading.of), nameOf(c.index, reading)));
    }
    for (const auto& relation : reg.relations) {
        const bool needsReason = relation.basis != record::Basis::Geometry && !relation.source;
        if (needsReason && !relation.setAside && isBlank(relation.reason))
            add({record::any(relation.id)},
                fmt::format("{} is held without a reason or a source.", nameOf(c.index, relation)));
    }
}

}  // namespace evidence::judgement
