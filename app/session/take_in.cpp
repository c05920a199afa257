#include "app/session/take_in.h"

#include "evidence-core/record/lookup.h"
#include "evidence-core/record/uuid7.h"
#include "evidence-core/store/originals.h"
#include "imaging/raster/header.h"

#include <algorithm>

namespace app::session {

namespace {

namespace record = evidence::record;
namespace fs = std::filesystem;

const record::Source* holding(const record::Register& reg, const std::string& sha256) {
    const auto found = std::ranges::find_if(reg.sources, [&](const record::Source& source) {
        return std::ranges::any_of(source.files,
                                   [&](const record::File& file) { return file.sha256 == sha256; });
    });
    return found == reg.sources.end() ? nullptr : &*found;
}

/// What the header says: media type, pages, and why the file cannot be shown, if so.
struct Seen {
    std::optional<std::string> mediaType;
    std::optional<int> pages;
    std::optional<std::string> refused;
};

Seen look(const fs::path& file) {
    const auto header = imaging::raster::readHeader(file);
    if (!header) return {std::nullopt, std::nullopt, header.error().help};
    Seen seen{header->mediaType, static_cast<int>(header->sheets.size()), std::nullopt};
    for (const auto& sheet : header->sheets)
        if (sheet.refused && !seen.refused) seen.refused = sheet.refused->help;
    return seen;
}

record::Source sourceOf(const fs::path& given, const evidence::store::Originals::Added& added,
                        const Seen& seen, std::optional<record::SourceKind> kind,
                        const record::Register& reg) {
    record::File file;
    file.id = {record::newUuid7()};
    file.originalName = given.filename().string();
    file.sha256 = added.sha256;
    file.bytes = added.bytes;
    file.mediaType = seen.mediaType;
    file.pages = seen.pages;
    file.path = given.filename().string();

    record::Source source;
    source.id = {record::newUuid7()};
    source.code = record::nextCode(reg, 'S');
    source.title = given.filename().string();
    source.kind =
        kind.value_or(seen.pages ? record::SourceKind::Photograph : record::SourceKind::Text);
    source.files.push_back(std::move(file));
    return source;
}

}  // namespace

evidence::Result<TakeInPlan> planTakeIn(Archive& archive, std::span<const fs::path> files,
                                        std::optional<record::SourceKind> kind) {
    evidence::store::Originals originals(archive.folder());
    record::Register reg = archive.snapshot()->reg;
    TakeInPlan plan{{}, {"take in", {}}};
    for (const auto& given : files) {
        record::File described;
        described.originalName = given.filename().string();
        described.path = given.filename().string();
        const auto added = originals.add(given, described);
        if (!added) return tl::unexpected(added.error());
        if (const auto* known = holding(reg, added->sha256)) {
            plan.taken.push_back({given, known->id, known->code.value_or(""), true, std::nullopt});
            continue;
        }
        const Seen seen = look(given);
        const record::Source source = sourceOf(given, *added, seen, kind, reg);
        plan.taken.push_back({given, source.id, *source.code, false, seen.refused});
        reg.sources.push_back(source);
        plan.changes.changes.push_back({std::nullopt, source});
    }
    return plan;
}

evidence::Result<std::vector<TakenIn>> takeIn(Archive& archive, std::span<const fs::path> files,
                                              std::optional<record::SourceKind> kind) {
    auto plan = planTakeIn(archive, files, kind);
    if (!plan) return tl::unexpected(plan.error());
    if (const auto done = archive.perform(plan->changes); !done)
        return tl::unexpected(done.error());
    return std::move(plan->taken);
}

}  // namespace app::session
