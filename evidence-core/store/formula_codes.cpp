#include "evidence-core/store/formula_codes.h"

#include "evidence-core/record/formula_names.h"

#include <SQLiteCpp/Statement.h>

#include <unordered_map>

namespace evidence::store {

record::Register withFormulasByCode(record::Register reg) {
    if (reg.relations.empty()) return reg;
    std::unordered_map<std::string, std::string> codes;
    for (const auto& dimension : reg.dimensions)
        if (dimension.code) codes.emplace(dimension.id.text, *dimension.code);
    const auto codeOfId = [&](std::string_view id) -> std::optional<std::string> {
        const auto found = codes.find(std::string(id));
        return found == codes.end() ? std::nullopt : std::optional(found->second);
    };
    for (auto& relation : reg.relations)
        relation.formula = record::formulaByCode(relation.formula, codeOfId);
    return reg;
}

namespace {

std::optional<std::string> lookUp(SQLite::Statement& query, std::string_view name) {
    query.reset();
    query.bind(1, std::string(name));
    if (!query.executeStep()) return std::nullopt;
    return query.getColumn(0).getString();
}

}  // namespace

std::string formulaByIdIn(SQLite::Database& db, const std::string& formula) {
    SQLite::Statement query(db, "SELECT id FROM dimensions WHERE code = ? ORDER BY position");
    return record::formulaById(formula, [&](std::string_view code) { return lookUp(query, code); });
}

std::string formulaByCodeIn(SQLite::Database& db, const std::string& formula) {
    SQLite::Statement query(
        db, "SELECT code FROM dimensions WHERE id = ? AND code IS NOT NULL ORDER BY position");
    return record::formulaByCode(formula, [&](std::string_view id) { return lookUp(query, id); });
}

}  // namespace evidence::store
