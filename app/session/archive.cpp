#include "app/session/archive.h"

#include "evidence-core/exchange/record_json.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/references.h"
#include "evidence-core/record/uuid7.h"
#include "evidence-core/store/originals.h"
#include "evidence-core/store/register_store.h"

#include <algorithm>
#include <cassert>
#include <type_traits>

namespace app::session {

namespace {

namespace record = evidence::record;
namespace store = evidence::store;

using evidence::Refusal;
using evidence::Result;

/// A change as the store gives it back: numbers with their text, empty lists absent.
record::AnyRecord asStored(const record::AnyRecord& given) {
    auto stored = evidence::exchange::recordFromJson(evidence::exchange::tableOf(given),
                                                     evidence::exchange::toJson(given));
    assert(stored);  // what we write we can read
    return std::move(*stored);
}

/// Puts what is after the change in place of what was before it.
void put(record::Register& reg, const record::Change& change) {
    const record::AnyRecord& model = change.after ? *change.after : *change.before;
    std::visit(
        [&]<class Record>(const Record& like) {
            if constexpr (std::is_same_v<Record, record::ArchiveInfo>) {
                if (change.after) reg.archive = std::get<Record>(*change.after);
            } else {
                record::forEachTable(reg, [&]<class Table>(std::string_view, Table& table) {
                    if constexpr (std::is_same_v<typename Table::value_type, Record>) {
                        const auto found = std::ranges::find(table, like.id, &Record::id);
                        if (!change.after)
                            table.erase(found);
                        else if (found == table.end())
                            table.push_back(std::get<Record>(*change.after));
                        else
                            *found = std::get<Record>(*change.after);
                    }
                });
            }
        },
        model);
}

bool refersTo(const record::ChangeSet& set, const record::PersonId& person) {
    bool refers = false;
    for (const auto& change : set.changes) {
        if (!change.after) continue;
        std::visit(
            [&](const auto& held) {
                record::forEachId(held, [&](std::string_view key, const auto& id) {
                    if constexpr (std::is_same_v<std::decay_t<decltype(id)>, record::PersonId>)
                        refers = refers || (key != "id" && id == person);
                });
            },
            *change.after);
    }
    return refers;
}

bool makesPerson(const record::ChangeSet& set, const record::PersonId& person) {
    return std::ranges::any_of(set.changes, [&](const record::Change& change) {
        const auto* made = change.after ? std::get_if<record::Person>(&*change.after) : nullptr;
        return made && made->id == person;
    });
}

/// Formulas are printed with current codes, so a new code changes the look of other relations.
bool changesCodes(const record::ChangeSet& set) {
    return std::ranges::any_of(set.changes, [](const record::Change& change) {
        const auto codeOf = [](const std::optional<record::AnyRecord>& side) {
            const auto* held = side ? std::get_if<record::Dimension>(&*side) : nullptr;
            return held ? held->code : std::nullopt;
        };
        return change.before && codeOf(change.before) != codeOf(change.after);
    });
}

const record::Person* personNamed(const record::Register& reg, const std::string& name) {
    const auto found = std::ranges::find(reg.people, name, &record::Person::name);
    return found == reg.people.end() ? nullptr : &*found;
}

}  // namespace

Archive::Archive(std::unique_ptr<store::RegisterStore> store, Actor actor)
    : m_store(std::move(store)), m_actor(std::move(actor)), m_newPerson{record::newUuid7()} {}

Archive::~Archive() = default;

Result<std::unique_ptr<Archive>> Archive::create(const std::filesystem::path& folder,
                                                 const std::string& title, Actor actor) {
    record::ArchiveInfo info;
    info.title = title;
    auto made = store::RegisterStore::create(folder, info,
                                             {record::PersonId{}, actor.name, actor.timeNow()});
    if (!made) return tl::unexpected<Refusal>(made.error());
    return opened(std::move(*made), std::move(actor));
}

Result<std::unique_ptr<Archive>> Archive::open(const std::filesystem::path& folder, Actor actor) {
    auto found = store::RegisterStore::open(folder);
    if (!found) return tl::unexpected<Refusal>(found.error());
    return opened(std::move(*found), std::move(actor));
}

Result<std::unique_ptr<Archive>> Archive::opened(std::unique_ptr<store::RegisterStore> store,
                                                 Actor actor) {
    std::unique_ptr<Archive> archive(new Archive(std::move(store), std::move(actor)));
    if (auto refusal = archive->reload()) return tl::unexpected<Refusal>(std::move(*refusal));
    return archive;
}

std::optional<Refusal> Archive::reload() {
    auto loaded = m_store->load();
    if (!loaded) return loaded.error();
    auto snapshot = std::make_shared<Snapshot>();
    snapshot->version = loaded->sequence;
    snapshot->reg = std::move(loaded->reg);
    snapshot->surroundings = surroundingsOf(snapshot->reg);
    m_snapshot = std::move(snapshot);
    return std::nullopt;
}

evidence::judgement::Surroundings Archive::surroundingsOf(const record::Register& reg) const {
    evidence::judgement::Surroundings surroundings;
    const store::Originals originals(m_store->folder());
    for (const auto& source : reg.sources)
        for (const auto& file : source.files)
            if (!originals.find(file)) surroundings.missingFiles.push_back(file.id);
    if (m_snapshot) {
        // What the full check found stays true until the next one.
        surroundings.alteredFiles = m_snapshot->surroundings.alteredFiles;
        surroundings.brokenJournal = m_snapshot->surroundings.brokenJournal;
    }
    return surroundings;
}

void Archive::verify() {
    auto snapshot = std::make_shared<Snapshot>(*m_snapshot);
    const auto fixity = store::Originals(m_store->folder()).verifyFixity(snapshot->reg);
    snapshot->surroundings.missingFiles = fixity.missing;
    snapshot->surroundings.alteredFiles = fixity.altered;
    snapshot->surroundings.brokenJournal = m_store->verifyChain();
    m_snapshot = std::move(snapshot);
}

const std::filesystem::path& Archive::folder() const {
    return m_store->folder();
}

std::shared_ptr<const Snapshot> Archive::snapshot() const {
    return m_snapshot;
}

Result<std::shared_ptr<const Snapshot>> Archive::snapshotAt(const std::string& time) const {
    auto reg = m_store->atMoment(time);
    if (!reg) return tl::unexpected<Refusal>(reg.error());
    auto snapshot = std::make_shared<Snapshot>();
    snapshot->version = m_snapshot->version;
    snapshot->reg = std::move(*reg);
    snapshot->surroundings = surroundingsOf(snapshot->reg);
    return std::shared_ptr<const Snapshot>(std::move(snapshot));
}

record::PersonId Archive::actingPerson() const {
    const auto* person = personNamed(m_snapshot->reg, m_actor.name);
    return person ? person->id : m_newPerson;
}

std::string Archive::timeNow() const {
    return m_actor.timeNow();
}

Result<ChangeNotice> Archive::perform(const record::ChangeSet& changes) {
    record::ChangeSet whole = changes;
    const record::PersonId person = actingPerson();
    if (!record::find(m_snapshot->reg, person) && refersTo(changes, person) &&
        !makesPerson(changes, person))
        whole.changes.insert(whole.changes.begin(),
                             {std::nullopt, record::Person{person, m_actor.name, {}, {}}});
    return carryOut(std::move(whole));
}

Result<ChangeNotice> Archive::takeBack(const record::ChangeSet& changes) {
    record::ChangeSet back = record::inverse(changes);
    back.what = "take back: " + changes.what;
    // A person stays on record: others may name them by now.
    std::erase_if(back.changes, [](const record::Change& change) {
        return !change.after && std::holds_alternative<record::Person>(*change.before);
    });
    return carryOut(std::move(back));
}

Result<ChangeNotice> Archive::carryOut(record::ChangeSet changes) {
    for (auto& change : changes.changes) {
        if (change.before) change.before = asStored(*change.before);
        if (change.after) change.after = asStored(*change.after);
    }
    const auto sequence =
        m_store->apply(changes, {actingPerson(), m_actor.name, m_actor.timeNow()});
    if (!sequence) return tl::unexpected<Refusal>(sequence.error());
    if (*sequence == m_snapshot->version + 1 && !changesCodes(changes)) {
        auto snapshot = std::make_shared<Snapshot>(*m_snapshot);
        snapshot->version = *sequence;
        for (const auto& change : changes.changes) put(snapshot->reg, change);
        snapshot->surroundings = surroundingsOf(snapshot->reg);
        m_snapshot = std::move(snapshot);
    } else if (*sequence != m_snapshot->version) {
        if (auto refusal = reload()) return tl::unexpected<Refusal>(std::move(*refusal));
    }
    return ChangeNotice{*sequence, std::move(changes)};
}

bool Archive::reloadIfChanged() {
    if (m_store->lastSequence() == m_snapshot->version) return false;
    return !reload();
}

std::filesystem::path Archive::originalOf(const record::File& file) const {
    return store::Originals(m_store->folder()).find(file).value_or(std::filesystem::path{});
}

store::RegisterStore& Archive::store() {
    return *m_store;
}

std::string Archive::headDigest() const {
    const auto last = m_store->journal(m_snapshot->version - 1);
    assert(!last.empty());  // making the archive is the first entry
    return last.front().hash;
}

}  // namespace app::session
