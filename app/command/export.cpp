#include "app/command/archive_argument.h"
#include "app/command/output_file.h"
#include "evidence-core/exchange/write_document.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <memory>
#include <ostream>

namespace app::command {

namespace {

struct Arguments {
    std::filesystem::path archive;
    std::filesystem::path out;
    std::string as = "exchange";
};

evidence::Result<std::string> written(const evidence::record::Register& reg,
                                      const std::string& format) {
    if (format == "exchange") return evidence::exchange::writeDocument(reg);
    return evidence::refuse(
        evidence::Code::WrongUse, "--as",
        fmt::format("'{}' is not in this version; use '--as exchange'.", format));
}

Exit exportArchive(const Arguments& given, Terminal& terminal) {
    const auto archive = openArchive(given.archive, terminal);
    if (!archive) return printRefusal(terminal, false, archive.error());
    const auto text = written((*archive)->snapshot()->reg, given.as);
    if (!text) return printRefusal(terminal, false, text.error());
    if (given.out.empty())
        terminal.out << *text;
    else
        writeWhole(given.out, *text);
    return Exit::Done;
}

}  // namespace

void addExport(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("export", "write the register in an open format");
    addArchive(*verb, given->archive);
    verb->add_option("-o", given->out, "the file to write; standard output where absent");
    verb->add_option("--as", given->as, "the format")
        ->check(CLI::IsMember({"exchange", "prov", "prov-n", "annotations", "csv", "csl"}));
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return exportArchive(*given, terminal); };
    });
}

}  // namespace app::command
