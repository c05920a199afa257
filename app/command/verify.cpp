#include "app/command/archive_argument.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/store/register_store.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <memory>
#include <ostream>
#include <vector>

namespace app::command {

namespace {

using nlohmann::ordered_json;

struct Arguments {
    std::filesystem::path archive;
    bool json = false;
    std::string stopAt;
};

struct Fault {
    std::string kind;
    std::string on;
    std::string text;
};

std::string nameOfFile(const evidence::record::Register& reg, const evidence::record::FileId& id) {
    const auto* file = evidence::record::find(reg, id);
    const auto* source = evidence::record::sourceOf(reg, id);
    return fmt::format("{} of '{}'", file->originalName.value_or(file->path), source->title);
}

std::vector<Fault> faultsOf(session::Archive& archive) {
    archive.verify();
    const auto snapshot = archive.snapshot();
    const auto& around = snapshot->surroundings;
    std::vector<Fault> faults;
    for (const auto& id : around.missingFiles)
        faults.push_back(
            {"file-missing", id.text,
             nameOfFile(snapshot->reg, id) +
                 ": the original is not in the archive; put it back into originals/."});
    for (const auto& id : around.alteredFiles)
        faults.push_back({"file-altered", id.text,
                          nameOfFile(snapshot->reg, id) +
                              ": the bytes are no longer those that were taken in; restore the "
                              "original from a copy."});
    if (around.brokenJournal)
        faults.push_back({"journal-broken", "journal", *around.brokenJournal});
    if (const auto damage = archive.store().verifyDatabase())
        faults.push_back({"database-damaged", "register.sqlite", *damage});
    return faults;
}

Exit verifyArchive(const Arguments& given, Terminal& terminal) {
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, given.json, archive.error());
    const auto faults = faultsOf(**archive);
    if (given.json) {
        ordered_json document{{"format", "lostlines-verification"},
                              {"version", 1},
                              {"intact", faults.empty()},
                              {"faults", ordered_json::array()}};
        for (const auto& fault : faults)
            document["faults"].push_back(
                {{"kind", fault.kind}, {"on", fault.on}, {"text", fault.text}});
        terminal.out << document.dump(2, ' ', false, ordered_json::error_handler_t::replace)
                     << '\n';
    } else {
        for (const auto& fault : faults)
            terminal.out << fmt::format("{}: {}\n", fault.kind, fault.text);
        if (faults.empty())
            terminal.out << "Intact: every original matches its hash, the journal is unbroken, the "
                            "database is sound.\n";
    }
    return faults.empty() ? Exit::Done : Exit::Damaged;
}

}  // namespace

void addVerify(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb =
        cli.add_subcommand("verify", "fixity of originals, journal chain, database integrity");
    addArchive(*verb, given->archive);
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->add_option("--stop-at", given->stopAt,
                     "accepted for symmetry with analyse: any fault ends with status 4")
        ->check(CLI::IsMember({"high", "medium", "low", "note"}));
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return verifyArchive(*given, terminal); };
    });
}

}  // namespace app::command
