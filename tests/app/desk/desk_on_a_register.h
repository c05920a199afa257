#pragma once

#include "app/desk/analyst.h"
#include "app/desk/open_register.h"
#include "app/desk/selection.h"
#include "app/session/archive.h"
#include "tests/support/scratch_folder.h"

#include <QTest>
#include <gtest/gtest.h>

#include <memory>

/// What every panel of the desk stands on, over a register made for the test.
namespace tests::app {

namespace desk = ::app::desk;

/// All records of `reg` as one action.
inline evidence::record::ChangeSet allOf(const evidence::record::Register& reg) {
    evidence::record::ChangeSet changes{"make the register", {}};
    evidence::record::forEachTable(reg, [&](std::string_view, const auto& table) {
        for (const auto& record : table) changes.changes.push_back({std::nullopt, record});
    });
    return changes;
}

class DeskOnARegister {
  public:
    explicit DeskOnARegister(const evidence::record::Register& reg) {
        auto archive = ::app::session::Archive::create(
            m_folder / "archive", "Test",
            {"Ada Brook", [] { return std::string("2026-05-02T10:00:00Z"); }});
        EXPECT_TRUE(archive) << archive.error().help;
        m_open = std::make_unique<desk::OpenRegister>(std::move(*archive));
        if (const auto changes = allOf(reg); !changes.changes.empty()) perform(changes);
        m_analyst = std::make_unique<desk::Analyst>(*m_open);
        m_selection = std::make_unique<desk::Selection>(*m_open);
    }

    desk::OpenRegister& open() { return *m_open; }
    desk::Analyst& analyst() { return *m_analyst; }
    desk::Selection& selection() { return *m_selection; }

    void perform(const evidence::record::ChangeSet& changes) {
        const auto done = m_open->perform([&](const auto&) { return changes; });
        EXPECT_TRUE(done) << done.error().place << ": " << done.error().help;
    }

    /// Until the analysis of the register as it is has come.
    void waitForAnalysis() {
        const auto come = [this] {
            const auto& judged = m_analyst->judged();
            return judged && judged->snapshot == m_open->snapshot();
        };
        ASSERT_TRUE(QTest::qWaitFor(come, 20000));
    }

  private:
    test::ScratchFolder m_folder;
    std::unique_ptr<desk::OpenRegister> m_open;
    std::unique_ptr<desk::Analyst> m_analyst;
    std::unique_ptr<desk::Selection> m_selection;
};

/// A register and its analysis without an archive, for models.
inline std::shared_ptr<const desk::Judged> judged(const evidence::record::Register& reg) {
    auto snapshot = std::make_shared<::app::session::Snapshot>();
    snapshot->reg = reg;
    auto analysis = evidence::judgement::analyse(reg);
    EXPECT_TRUE(analysis) << analysis.error().place << ": " << analysis.error().help;
    if (!analysis) return nullptr;
    return std::make_shared<const desk::Judged>(desk::Judged{snapshot, std::move(*analysis)});
}

}  // namespace tests::app
