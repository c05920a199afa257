#include "app/desk/analyst.h"

#include "app/desk/open_register.h"
#include "evidence-core/judgement/analyse.h"

#include <QtConcurrent>

namespace app::desk {

namespace {

using Answer = evidence::Result<std::shared_ptr<const Judged>>;

std::shared_ptr<Answer> judge(const std::shared_ptr<const session::Snapshot>& snapshot) {
    auto analysis = evidence::judgement::analyse(snapshot->reg, {{}, snapshot->surroundings});
    if (!analysis)
        return std::make_shared<Answer>(tl::unexpected<evidence::Refusal>(analysis.error()));
    return std::make_shared<Answer>(
        std::make_shared<const Judged>(Judged{snapshot, std::move(*analysis)}));
}

}  // namespace

Analyst::Analyst(OpenRegister& open, QObject* parent) : QObject(parent), m_open(open) {
    connect(&m_watcher, &QFutureWatcherBase::finished, this, &Analyst::take);
    connect(&m_open, &OpenRegister::changed, this, &Analyst::start);
    start();
}

Analyst::~Analyst() {
    m_watcher.waitForFinished();
}

bool Analyst::atWork() const {
    return m_watcher.isRunning();
}

void Analyst::start() {
    if (m_watcher.isRunning()) {
        m_again = true;
        return;
    }
    m_again = false;
    m_watcher.setFuture(QtConcurrent::run(judge, m_open.snapshot()));
    Q_EMIT started();
}

void Analyst::take() {
    if (m_again) {  // what has come is of a snapshot that is no longer the newest
        start();
        return;
    }
    const auto answer = m_watcher.result();
    if (!answer->has_value()) {
        Q_EMIT failed(answer->error());
        return;
    }
    m_judged = **answer;
    Q_EMIT judgedAnew();
}

}  // namespace app::desk
