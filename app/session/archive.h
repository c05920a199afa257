#pragma once

#include "evidence-core/judgement/analyse.h"
#include "evidence-core/record/change.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace evidence::store {
class RegisterStore;
}

namespace app::session {

/// Who acts and when it is: arguments, so that tests and reproducible output can fix them.
struct Actor {
    std::string name;                      ///< made a person of the register on first use
    std::function<std::string()> timeNow;  ///< RFC 3339 in UTC
};

/// The register at one moment. Immutable: analysis, models and reports work on it off the user's
/// thread and compare `version` to know whether they are late.
struct Snapshot {
    std::uint64_t version = 0;  ///< the journal's last sequence number
    evidence::record::Register reg;
    evidence::judgement::Surroundings surroundings;
};

/// Which records an action touched, for the views to redraw.
struct ChangeNotice {
    std::uint64_t version = 0;
    evidence::record::ChangeSet done;
};

/// One open archive folder: `register.sqlite`, `originals/`, `derived/`.
/// One thread only (the user's); snapshots may go anywhere. Every change goes through `perform`:
/// one SQLite transaction, one journal entry, one notice.
class Archive {
  public:
    /// Makes an empty archive in `folder`, which must not exist or be empty.
    static evidence::Result<std::unique_ptr<Archive>> create(const std::filesystem::path& folder,
                                                             const std::string& title, Actor actor);
    /// Errors: NotAnArchive, NewerArchive, Damaged.
    static evidence::Result<std::unique_ptr<Archive>> open(const std::filesystem::path& folder,
                                                           Actor actor);
    ~Archive();

    [[nodiscard]] const std::filesystem::path& folder() const;
    [[nodiscard]] std::shared_ptr<const Snapshot> snapshot() const;

    /// The register as it was at `time` (RFC 3339), replayed from the journal. Error: BadDate.
    [[nodiscard]] evidence::Result<std::shared_ptr<const Snapshot>> snapshotAt(
        const std::string& time) const;

    /// The acting person's id; where the register has no such person yet, `perform` makes one.
    [[nodiscard]] evidence::record::PersonId actingPerson() const;
    [[nodiscard]] std::string timeNow() const;

    /// Applies `changes` as the acting person. Errors: Stale where a `before` is no longer what the
    /// register holds; whatever the store refuses. Nothing is changed then.
    evidence::Result<ChangeNotice> perform(const evidence::record::ChangeSet& changes);

    /// Appends the compensating entry of `changes`. Errors: Stale, naming who changed what when.
    evidence::Result<ChangeNotice> takeBack(const evidence::record::ChangeSet& changes);

    /// True where another program has committed since the snapshot; reloads it then.
    bool reloadIfChanged();

    /// The original of a file, or an empty path where its bytes are absent.
    [[nodiscard]] std::filesystem::path originalOf(const evidence::record::File& file) const;

    [[nodiscard]] evidence::store::RegisterStore& store();

    /// Hash of the journal's last entry: names the state of the register in what is handed out.
    [[nodiscard]] std::string headDigest() const;

    /// Checks every original against its hash and the journal against the register; what it finds
    /// is in the surroundings of the next snapshots. Opening only looks which originals are there.
    void verify();

  private:
    Archive(std::unique_ptr<evidence::store::RegisterStore> store, Actor actor);
    static evidence::Result<std::unique_ptr<Archive>> opened(
        std::unique_ptr<evidence::store::RegisterStore> store, Actor actor);

    std::optional<evidence::Refusal> reload();
    [[nodiscard]] evidence::judgement::Surroundings surroundingsOf(
        const evidence::record::Register& reg) const;
    evidence::Result<ChangeNotice> carryOut(evidence::record::ChangeSet changes);

    std::unique_ptr<evidence::store::RegisterStore> m_store;
    Actor m_actor;
    evidence::record::PersonId m_newPerson;  ///< the acting person's, should one have to be made
    std::shared_ptr<const Snapshot> m_snapshot;
};

}  // namespace app::session
