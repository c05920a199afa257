#include "imaging/task/measure.h"

#include "app/command/input_file.h"
#include "app/command/verb.h"
#include "evidence-core/quantity/parse_quantity.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <memory>
#include <ostream>

namespace app::command {

namespace {

namespace quantity = evidence::quantity;

struct Arguments {
    std::filesystem::path image;
    std::filesystem::path task;
    bool json = false;
};

/// Every notation of a length that the register knows.
std::optional<imaging::task::TextLength> readLength(std::string_view text, std::string_view unit) {
    const auto bare = quantity::unitNamed(unit.empty() ? "in" : unit, quantity::Measure::Length);
    if (!bare) return std::nullopt;
    const auto written = quantity::parseQuantity(text, quantity::Measure::Length, *bare);
    if (!written) return std::nullopt;
    return imaging::task::TextLength{written->canonical,
                                     quantity::factorToCanonical(written->unit)};
}

std::string asText(const nlohmann::json& answer) {
    std::string text;
    for (const auto& result : answer.at("results"))
        text += fmt::format("{}: {:.6g} {}, 95 % between {:.6g} and {:.6g}\n",
                            result.at("id").get<std::string>(), result.at("value").get<double>(),
                            result.at("unit").get<std::string>(), result.at("low95").get<double>(),
                            result.at("high95").get<double>());
    return text;
}

Exit measureImage(const Arguments& given, Terminal& terminal) {
    const auto task = readWhole(given.task);
    if (!task) return printRefusal(terminal, given.json, task.error());
    const auto answer = imaging::task::measure(given.image, *task, readLength);
    if (!answer) return printRefusal(terminal, given.json, answer.error());
    terminal.out << (given.json ? *answer : asText(nlohmann::json::parse(*answer)));
    return Exit::Done;
}

}  // namespace

void addMeasure(CLI::App& cli, Action& action) {
    const auto given = std::make_shared<Arguments>();
    auto* verb = cli.add_subcommand("measure", "measure on a picture, without an archive");
    verb->add_option("IMAGE", given->image, "the picture")->required();
    verb->add_option("--task", given->task, "the task, a JSON file")->required();
    verb->add_flag("--json", given->json, "print one JSON document");
    verb->callback([given, &action] {
        action = [given](Terminal& terminal) { return measureImage(*given, terminal); };
    });
}

}  // namespace app::command
