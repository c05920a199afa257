#include "app/command/archive_argument.h"
#include "app/session/import_document.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <ostream>

namespace app::command {

namespace {

struct Arguments {
    std::filesystem::path archive;
    std::filesystem::path document;
    std::string as = "exchange";
    std::string map;
    std::string files;
    bool update = false;
    bool json = false;
};

Exit importIntoArchive(const Arguments& given, Terminal& terminal) {
    if (given.as != "exchange" || !given.map.empty())
        return printRefusal(
            terminal, given.json,
            evidence::Refusal{evidence::Code::WrongUse, "--as",
                              "reading CSV is not in this version; nothing was changed. Write an "
                              "exchange document and import that."});
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, given.json, archive.error());
    session::ImportOptions options;
    options.update = given.update;
    if (!given.files.empty()) options.files = given.files;
    const auto notice = session::importDocument(**archive, given.document, options);
    if (!notice) return printRefusal(terminal, given.json, notice.error());
    const auto records = notice->done.changes.size();
    if (given.json)
        terminal.out << fmt::format("{{\"records\": {}}}\n", records);
    else
        terminal.err << fmt::format("Imported {} records.\n", records);
    return Exit::Done;
}

}  // namespace

void addImport(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("import", "read an exchange document into the archive");
    addArchive(*verb, given->archive);
    verb->add_option("DOCUMENT", given->document, "the exchange document")->required();
    verb->add_flag("--update", given->update, "records whose ids are taken replace the archive's");
    verb->add_option("--files", given->files, "a second folder to look for files in");
    verb->add_option("--as", given->as, "the format")->check(CLI::IsMember({"exchange", "csv"}));
    verb->add_option("--map", given->map, "what the columns of a CSV table mean");
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return importIntoArchive(*given, terminal); };
    });
}

}  // namespace app::command
