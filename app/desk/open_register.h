#pragma once

#include "app/session/actions.h"
#include "app/session/archive.h"
#include "evidence-core/refusal.h"

#include <QObject>
#include <QUndoStack>

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace app::desk {

/// The register that is open in this window: the desk's only way to read or change it. Every change
/// is one undoable action. Lives on the user's thread; snapshots may go anywhere.
class OpenRegister : public QObject {
    Q_OBJECT

  public:
    explicit OpenRegister(std::unique_ptr<session::Archive> archive, QObject* parent = nullptr);
    ~OpenRegister() override;

    [[nodiscard]] std::shared_ptr<const session::Snapshot> snapshot() const;
    [[nodiscard]] std::filesystem::path folder() const;
    /// Empty where the bytes are absent.
    [[nodiscard]] std::filesystem::path originalOf(const evidence::record::File& file) const;
    /// Names the state of the register in what is handed out.
    [[nodiscard]] std::string headDigest() const;
    [[nodiscard]] std::string timeNow() const;

    using Planner = std::function<evidence::Result<evidence::record::ChangeSet>(
        const session::Context& context)>;
    /// Makes a plan from the register as it is, carries it out and puts it on the undo stack.
    /// A refusal changes nothing; the caller shows it where its place is (a form's field).
    evidence::Result<void> perform(const Planner& plan);

    /// Takes files in as sources: undoable like everything else.
    evidence::Result<void> takeIn(const std::vector<std::filesystem::path>& files);

    [[nodiscard]] QUndoStack& undoStack() { return m_undo; }

    /// Looks whether another program has committed, and reloads then.
    void lookAgain();

  Q_SIGNALS:
    /// `snapshot()` is another one.
    void changed();
    /// An undo or redo was refused, or the system failed while an action was carried out (and was
    /// rolled back).
    void refused(const evidence::Refusal& refusal);

  private:
    class Action;

    evidence::Result<void> carryOut(evidence::record::ChangeSet changes);

    std::unique_ptr<session::Archive> m_archive;
    QUndoStack m_undo;
    std::optional<evidence::Refusal> m_refusal;  ///< of the action just pushed
};

}  // namespace app::desk
