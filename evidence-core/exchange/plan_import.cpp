#include "evidence-core/exchange/plan_import.h"

#include "evidence-core/exchange/register_check.h"
#include "evidence-core/record/formula_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <type_traits>
#include <unordered_map>

namespace evidence::exchange {

namespace {

using record::Kind;
using record::Register;

constexpr std::size_t kNotIncoming = static_cast<std::size_t>(-1);

template <class Record>
inline constexpr char kCodeLetter = '\0';
template <>
inline constexpr char kCodeLetter<record::Source> = 'S';
template <>
inline constexpr char kCodeLetter<record::Dimension> = 'D';
template <>
inline constexpr char kCodeLetter<record::Particular> = 'P';

/// Current and incoming records as one register; for each record where it stands in the document.
struct Merge {
    Register reg;
    std::map<std::string_view, std::vector<std::size_t>> documentIndex;
};

template <class Record>
void forEachOwnId(const Record& record, auto&& visit) {
    visit(record.id.text, std::string("/id"));
    if constexpr (std::is_same_v<Record, record::Source>)
        for (std::size_t i = 0; i < record.files.size(); ++i)
            visit(record.files[i].id.text, fmt::format("/files/{}/id", i));
}

bool isEmpty(const Register& reg) {
    bool empty = true;
    record::forEachTable(reg, [&](std::string_view name, const auto& table) {
        empty = empty && (name == "people" || table.empty());
    });
    return empty;
}

class Import {
  public:
    Import(const Register& current, const Document& document, ImportMode mode)
        : m_current(current), m_incoming(document.reg), m_mode(mode) {
        m_takesArchive = document.hasArchive && (mode == ImportMode::Update || isEmpty(current));
    }

    Result<record::ChangeSet> plan() {
        if (auto refusal = checkIds()) return tl::unexpected<Refusal>(std::move(*refusal));
        if (auto refusal = giveCodes()) return tl::unexpected<Refusal>(std::move(*refusal));
        merge();
        if (auto refusal = check()) return tl::unexpected<Refusal>(std::move(*refusal));
        return changes();
    }

    [[nodiscard]] Register takeMerged() { return std::move(m_merge.reg); }

  private:
    /// Ids are unique in the document and, unless they are updated, new to the archive.
    std::optional<Refusal> checkIds() {
        struct Owner {
            Kind kind;
            std::string record;
        };
        // A file that is updated has to stay with its source.
        std::unordered_map<std::string, Owner> taken;
        record::forEachTable(m_current, [&](std::string_view, const auto& table) {
            using Record = typename std::decay_t<decltype(table)>::value_type;
            for (const auto& record : table)
                forEachOwnId(record, [&](const std::string& id, const std::string&) {
                    taken.try_emplace(id, Owner{record::KindOf<Record>, record.id.text});
                });
        });
        std::optional<Refusal> refusal;
        std::set<std::string> inDocument;
        record::forEachTable(m_incoming, [&](std::string_view name, const auto& table) {
            using Record = typename std::decay_t<decltype(table)>::value_type;
            for (std::size_t i = 0; i < table.size(); ++i) {
                forEachOwnId(table[i], [&](const std::string& id, const std::string& where) {
                    if (refusal) return;
                    const std::string place = fmt::format("/{}/{}{}", name, i, where);
                    if (!inDocument.insert(id).second)
                        refusal =
                            Refusal{Code::DuplicateId, place,
                                    fmt::format("the id \"{}\" stands twice in this document", id)};
                    const auto found = taken.find(id);
                    if (refusal || found == taken.end()) return;
                    const bool same = found->second.kind == record::KindOf<Record> &&
                                      found->second.record == table[i].id.text;
                    if (m_mode == ImportMode::Add)
                        refusal = Refusal{Code::DuplicateId, place,
                                          fmt::format("the id \"{}\" is taken in the archive; "
                                                      "use --update to replace records",
                                                      id)};
                    else if (!same)
                        refusal = Refusal{
                            Code::DuplicateId, place,
                            fmt::format("the id \"{}\" is taken by another {} in the archive", id,
                                        record::nameOf(found->second.kind))};
                });
            }
        });
        return refusal;
    }

    std::optional<Refusal> giveCodes() {
        std::optional<Refusal> refusal;
        std::unordered_map<std::string, std::string> owner;  // code → id
        const auto forEachCoded = [](auto& reg, auto&& visit) {
            record::forEachTable(reg, [&](std::string_view name, auto& table) {
                using Record = typename std::decay_t<decltype(table)>::value_type;
                if constexpr (kCodeLetter<Record> != '\0') visit(name, table, kCodeLetter<Record>);
            });
        };
        std::unordered_map<std::string, std::optional<std::string>> current;  // id → code
        forEachCoded(m_current, [&](std::string_view, auto& table, char) {
            for (const auto& record : table) current.emplace(record.id.text, record.code);
        });
        forEachCoded(m_incoming, [&](std::string_view, auto& table, char) {
            for (auto& record : table) {
                const auto old = current.find(record.id.text);
                if (old == current.end()) continue;
                if (!record.code) record.code = old->second;
                current.erase(old);
            }
        });
        for (const auto& [id, code] : current)
            if (code) owner.emplace(*code, id);
        forEachCoded(m_incoming, [&](std::string_view name, auto& table, char) {
            for (std::size_t i = 0; i < table.size(); ++i) {
                if (!table[i].code || refusal) continue;
                const std::string place = fmt::format("/{}/{}/code", name, i);
                if (table[i].code->empty())
                    refusal = Refusal{Code::BadValue, place, "a code cannot be empty"};
                else if (const auto [at, fresh] = owner.emplace(*table[i].code, table[i].id.text);
                         !fresh)
                    refusal = Refusal{Code::DuplicateId, place,
                                      fmt::format("the code \"{}\" is taken by \"{}\"",
                                                  *table[i].code, at->second)};
            }
        });
        if (refusal) return refusal;
        forEachCoded(m_incoming, [&](std::string_view, auto& table, char letter) {
            std::size_t number = 0;
            for (auto& record : table) {
                while (!record.code) {
                    std::string code = letter + std::to_string(++number);
                    if (owner.emplace(code, record.id.text).second) record.code = std::move(code);
                }
            }
        });
        return std::nullopt;
    }

    void merge() {
        m_merge.reg = m_current;
        const auto byId = formulasById(m_current);
        if (m_takesArchive) m_merge.reg.archive = m_incoming.archive;
        record::forEachTable(m_merge.reg, [&](std::string_view name, auto& table) {
            record::forEachTable(m_incoming, [&](std::string_view other, auto& incoming) {
                using Table = std::decay_t<decltype(table)>;
                if constexpr (std::is_same_v<Table, std::decay_t<decltype(incoming)>>) {
                    if (name == other) mergeTable(name, table, incoming);
                }
            });
        });
        reprintFormulas(byId);
    }

    /// Formulas of the archive's relations, by id: codes may change under them.
    static std::vector<std::string> formulasById(const Register& reg) {
        std::unordered_map<std::string_view, std::string> ids;
        for (const auto& dimension : reg.dimensions)
            if (dimension.code) ids.emplace(*dimension.code, dimension.id.text);
        std::vector<std::string> formulas;
        for (const auto& relation : reg.relations)
            formulas.push_back(record::formulaById(relation.formula, [&](std::string_view code) {
                const auto found = ids.find(code);
                return found == ids.end() ? std::nullopt : std::optional(found->second);
            }));
        return formulas;
    }

    void reprintFormulas(const std::vector<std::string>& byId) {
        const auto& index = m_merge.documentIndex["relations"];
        for (std::size_t i = 0; i < byId.size(); ++i) {
            if (index[i] != kNotIncoming) continue;
            m_merge.reg.relations[i].formula =
                record::formulaByCode(byId[i], [&](std::string_view id) {
                    const auto* dimension =
                        record::find(m_merge.reg, record::DimensionId{std::string(id)});
                    return dimension ? dimension->code : std::nullopt;
                });
        }
    }

    template <class Table>
    void mergeTable(std::string_view name, Table& table, const Table& incoming) {
        auto& index = m_merge.documentIndex[name];
        index.assign(table.size(), kNotIncoming);
        std::unordered_map<std::string, std::size_t> position;
        for (std::size_t i = 0; i < table.size(); ++i) position.emplace(table[i].id.text, i);
        for (std::size_t i = 0; i < incoming.size(); ++i) {
            const auto found = position.find(incoming[i].id.text);
            if (found == position.end()) {
                table.push_back(incoming[i]);
                index.push_back(i);
            } else {
                table[found->second] = incoming[i];
                index[found->second] = i;
            }
        }
    }

    std::optional<Refusal> check() {
        const record::RegisterIndex index(m_merge.reg);
        JsonReader reader;
        const CheckContext context{m_merge.reg, index, reader};
        if (m_takesArchive) {
            reader.setRoot("/archive");
            if (!checkSense(context, m_merge.reg.archive)) return reader.takeRefusal();
        }
        if (auto refusal = checkRasters()) return refusal;
        // References of all records first: the other checks may then follow them.
        forEachToCheck(reader, [&](const auto& record) { checkReferences(context, record); });
        forEachToCheck(reader, [&](const auto& record) { checkSense(context, record); });
        if (reader.refused()) return reader.takeRefusal();
        return std::nullopt;
    }

    /// Marks are in pixels: the resolution a page is rastered at is fixed once there is one.
    std::optional<Refusal> checkRasters() {
        for (std::size_t i = 0; i < m_incoming.sources.size(); ++i) {
            const auto& files = m_incoming.sources[i].files;
            for (std::size_t j = 0; j < files.size(); ++j) {
                const auto* old = record::find(m_current, files[j].id);
                const auto isOn = [&](const auto& mark) { return mark.file == files[j].id; };
                if (old && old->rasterDpi != files[j].rasterDpi &&
                    std::ranges::any_of(m_current.marks, isOn))
                    return Refusal{Code::WrongUse,
                                   fmt::format("/sources/{}/files/{}/raster_dpi", i, j),
                                   "this file has marks already: its resolution is fixed"};
            }
        }
        return std::nullopt;
    }

    /// The incoming records; with `Update` all, for what they refer to may have changed.
    void forEachToCheck(JsonReader& reader, auto&& visit) {
        record::forEachTable(m_merge.reg, [&](std::string_view name, const auto& table) {
            const auto& index = m_merge.documentIndex[name];
            for (std::size_t i = 0; i < table.size() && !reader.refused(); ++i) {
                if (index[i] == kNotIncoming && m_mode == ImportMode::Add) continue;
                reader.setRoot(index[i] == kNotIncoming ? fmt::format("in the archive: {} \"{}\" ",
                                                                      name, table[i].id.text)
                                                        : fmt::format("/{}/{}", name, index[i]));
                visit(table[i]);
            }
        });
    }

    record::ChangeSet changes() {
        record::ChangeSet set{m_mode == ImportMode::Update ? "import with update" : "import", {}};
        if (m_takesArchive && !(m_incoming.archive == m_current.archive))
            set.changes.push_back({m_current.archive, m_incoming.archive});
        record::forEachTable(m_incoming, [&](std::string_view, const auto& incoming) {
            using Table = std::decay_t<decltype(incoming)>;
            record::forEachTable(m_current, [&](std::string_view, const auto& table) {
                if constexpr (std::is_same_v<Table, std::decay_t<decltype(table)>>)
                    addChanges(set, table, incoming);
            });
        });
        return set;
    }

    template <class Table>
    static void addChanges(record::ChangeSet& set, const Table& table, const Table& incoming) {
        std::unordered_map<std::string, const typename Table::value_type*> old;
        for (const auto& record : table) old.emplace(record.id.text, &record);
        for (const auto& record : incoming) {
            const auto found = old.find(record.id.text);
            if (found == old.end())
                set.changes.push_back({std::nullopt, record});
            else if (!(*found->second == record))
                set.changes.push_back({*found->second, record});
        }
    }

    const Register& m_current;
    Register m_incoming;
    ImportMode m_mode;
    bool m_takesArchive = false;
    Merge m_merge;
};

}  // namespace

Result<record::ChangeSet> planImport(const Register& current, const Document& incoming,
                                     ImportMode mode) {
    return Import(current, incoming, mode).plan();
}

Result<Register> readRegister(std::string_view text) {
    const auto document = readDocument(text);
    if (!document) return tl::unexpected<Refusal>(document.error());
    const Register nothing;
    Import import(nothing, *document, ImportMode::Add);
    const auto plan = import.plan();
    if (!plan) return tl::unexpected<Refusal>(plan.error());
    return import.takeMerged();
}

}  // namespace evidence::exchange
