#include "app/desk/open_register.h"

#include "app/session/take_in.h"

#include <QUndoCommand>

#include <optional>

namespace app::desk {

using evidence::Refusal;
using evidence::record::ChangeSet;

/// One action on the undo stack. Redo carries it out, undo appends what takes it back; either may
/// be refused where the record changed meanwhile, and then leaves the stack.
class OpenRegister::Action : public QUndoCommand {
  public:
    Action(OpenRegister& open, ChangeSet planned)
        : QUndoCommand(QString::fromStdString(planned.what)),
          m_open(open),
          m_planned(std::move(planned)) {}

    void redo() override {
        const bool first = !m_done;
        auto outcome = m_open.m_archive->perform(m_planned);
        if (outcome) m_done = std::move(outcome->done);
        settle(outcome.has_value() ? std::nullopt : std::optional(outcome.error()), first);
    }

    void undo() override {
        const auto outcome = m_open.m_archive->takeBack(*m_done);
        settle(outcome ? std::nullopt : std::optional(outcome.error()), false);
    }

  private:
    void settle(const std::optional<Refusal>& refusal, bool first) {
        if (!refusal) {
            Q_EMIT m_open.changed();
            return;
        }
        setObsolete(true);  // the stack deletes it
        if (first)
            m_open.m_refusal = refusal;
        else
            Q_EMIT m_open.refused(*refusal);
    }

    OpenRegister& m_open;
    ChangeSet m_planned;
    std::optional<ChangeSet> m_done;  ///< with the acting person, where one had to be made
};

OpenRegister::OpenRegister(std::unique_ptr<session::Archive> archive, QObject* parent)
    : QObject(parent), m_archive(std::move(archive)) {}

OpenRegister::~OpenRegister() = default;

std::shared_ptr<const session::Snapshot> OpenRegister::snapshot() const {
    return m_archive->snapshot();
}

std::filesystem::path OpenRegister::folder() const {
    return m_archive->folder();
}

std::filesystem::path OpenRegister::originalOf(const evidence::record::File& file) const {
    return m_archive->originalOf(file);
}

std::string OpenRegister::headDigest() const {
    return m_archive->headDigest();
}

std::string OpenRegister::timeNow() const {
    return m_archive->timeNow();
}

evidence::Result<void> OpenRegister::perform(const Planner& plan) {
    const auto held = m_archive->snapshot();
    auto planned = plan({held->reg, m_archive->actingPerson(), m_archive->timeNow()});
    if (!planned) return tl::unexpected<Refusal>(std::move(planned.error()));
    return carryOut(std::move(*planned));
}

evidence::Result<void> OpenRegister::takeIn(const std::vector<std::filesystem::path>& files) {
    auto planned = session::planTakeIn(*m_archive, files, {});
    if (!planned) return tl::unexpected<Refusal>(std::move(planned.error()));
    if (planned->changes.changes.empty()) return {};
    return carryOut(std::move(planned->changes));
}

evidence::Result<void> OpenRegister::carryOut(ChangeSet changes) {
    m_refusal.reset();
    m_undo.push(new Action(*this, std::move(changes)));  // the stack owns it, and calls redo
    if (m_refusal) return tl::unexpected<Refusal>(*m_refusal);
    return {};
}

void OpenRegister::lookAgain() {
    if (m_archive->reloadIfChanged()) Q_EMIT changed();
}

}  // namespace app::desk
