#pragma once

#include "app/session/archive.h"
#include "evidence-core/judgement/analysis.h"
#include "evidence-core/refusal.h"

#include <QFutureWatcher>
#include <QObject>

#include <memory>

namespace app::desk {

class OpenRegister;

/// A register and what the analysis says of it: the two always belong together.
struct Judged {
    std::shared_ptr<const session::Snapshot> snapshot;
    evidence::judgement::Analysis analysis;
};

/// Analyses the open register off the user's thread, again after every change; an answer to a
/// snapshot that is no longer the newest is dropped.
class Analyst : public QObject {
    Q_OBJECT

  public:
    explicit Analyst(OpenRegister& open, QObject* parent = nullptr);
    ~Analyst() override;

    /// The newest answer; null until the first one.
    [[nodiscard]] std::shared_ptr<const Judged> judged() const { return m_judged; }
    /// Whether a newer answer is on its way.
    [[nodiscard]] bool atWork() const;

  Q_SIGNALS:
    void started();
    /// `judged()` is another one.
    void judgedAnew();
    void failed(const evidence::Refusal& refusal);

  private:
    using Answer = evidence::Result<std::shared_ptr<const Judged>>;

    void start();
    void take();

    OpenRegister& m_open;
    QFutureWatcher<std::shared_ptr<Answer>> m_watcher;
    bool m_again = false;  ///< the register changed while an analysis ran
    std::shared_ptr<const Judged> m_judged;
};

}  // namespace app::desk
