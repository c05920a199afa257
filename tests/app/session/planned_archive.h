#pragma once

#include "app/session/archive.h"
#include "tests/app/session/plan_register.h"
#include "tests/support/scratch_folder.h"

#include <memory>

namespace planning {

/// A real archive in a scratch folder that holds the small register; Anna acts.
class PlannedArchive {
  public:
    PlannedArchive() {
        auto made =
            app::session::Archive::create(m_folder / "a", "Test", {"Anna", [] { return kNow; }});
        EXPECT_TRUE(made) << made.error().help;
        m_archive = std::move(*made);
        record::ChangeSet set{"prepare", {}};
        const auto reg = smallRegister();
        record::forEachTable(reg, [&](std::string_view, const auto& table) {
            for (const auto& record : table) set.changes.push_back({std::nullopt, record});
        });
        perform(set);
    }

    [[nodiscard]] const record::Register& reg() const { return m_archive->snapshot()->reg; }
    /// For one plan: the register of this moment is kept alive.
    [[nodiscard]] Context context() {
        m_kept = m_archive->snapshot();
        return {m_kept->reg, m_archive->actingPerson(), m_archive->timeNow()};
    }
    record::ChangeSet perform(const Result<record::ChangeSet>& plan) {
        EXPECT_TRUE(plan) << (plan ? "" : plan.error().place + ": " + plan.error().help);
        if (!plan) return {};
        const auto notice = m_archive->perform(*plan);
        EXPECT_TRUE(notice) << (notice ? "" : notice.error().place + ": " + notice.error().help);
        return notice ? notice->done : record::ChangeSet{};
    }
    void takeBack(const record::ChangeSet& done) {
        const auto notice = m_archive->takeBack(done);
        EXPECT_TRUE(notice) << (notice ? "" : notice.error().help);
    }

  private:
    test::ScratchFolder m_folder;
    std::unique_ptr<app::session::Archive> m_archive;
    std::shared_ptr<const app::session::Snapshot> m_kept;
};

}  // namespace planning
