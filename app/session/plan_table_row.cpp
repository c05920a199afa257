#include "app/session/given_text.h"
#include "app/session/plan_check.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

#include <algorithm>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;

namespace {

std::string fieldOf(const record::AnyRecord&, std::string_view pointer) {
    return std::string(pointer.substr(pointer.rfind('/') + 1));
}

}  // namespace

evidence::Result<record::ChangeSet> planTableRow(const Context& context, record::TableRow row) {
    dropBlanks(row);
    row.id = trimmed(row.id);
    if (row.id.empty()) row.id = record::newUuid7();
    row.name = trimmed(row.name);
    auto archive = context.reg.archive;
    if (!archive.settings) archive.settings = record::Settings{};
    if (std::ranges::find(archive.settings->tableRows, row.id, &record::TableRow::id) !=
        archive.settings->tableRows.end())
        return refuse(Code::DuplicateId, "id",
                      fmt::format("this archive has a table row \"{}\" already", row.id));
    const auto what = fmt::format("add the table row \"{}\"", row.name);
    archive.settings->tableRows.push_back(std::move(row));
    return checked(context, {what, {{context.reg.archive, archive}}}, fieldOf);
}

}  // namespace app::session
