#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

namespace evidence::judgement {

namespace {

struct Named {
    std::vector<record::AnyId> on;
    std::string text;  ///< "the file scan.tif of Broadside photograph (S5)"
};

Named nameOfFile(const Context& c, const record::FileId& id) {
    const auto* source = c.index.sourceOfFile(id.text);
    if (!source) return {{record::any(id)}, "a file"};
    Named named{{record::any(source->id), record::any(id)}, "a file of " + nameOf(*source)};
    for (const auto& file : source->files)
        if (file.id == id && file.originalName)
            named.text = fmt::format("the file {} of {}", *file.originalName, nameOf(*source));
    return named;
}

}  // namespace

void findFileFaults(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& id : c.surroundings.missingFiles) {
        auto file = nameOfFile(c, id);
        findings.push_back(
            made("file-missing", std::move(file.on),
                 sentence(file.text + " is not there; only its fingerprint is known."),
                 "Find the same file and import it again: its fingerprint tells "
                 "whether it is the one."));
    }
    for (const auto& id : c.surroundings.alteredFiles) {
        auto file = nameOfFile(c, id);
        findings.push_back(
            made("file-altered", std::move(file.on),
                 sentence(file.text + " is no longer what was taken in: its fingerprint differs."),
                 "Bring the file back from a copy. What was measured on it stands for the file as "
                 "it was."));
    }
    if (c.surroundings.brokenJournal)
        findings.push_back(
            made("journal-broken", {},
                 "The journal of changes is broken: " + *c.surroundings.brokenJournal,
                 "Compare with the last packed copy. What was changed since then "
                 "cannot be vouched for."));
}

}  // namespace evidence::judgement
