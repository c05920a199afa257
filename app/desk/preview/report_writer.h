#pragma once

#include "app/desk/analyst.h"
#include "app/report/report.h"

#include <QFutureWatcher>
#include <QObject>
#include <QString>
#include <QTemporaryDir>

#include <filesystem>
#include <memory>
#include <optional>

namespace app::desk {
class OpenRegister;
}

namespace app::desk::preview {

/// What is to be written, and where.
struct WritingOrder {
    std::shared_ptr<const Judged> judged;
    report::ReportRequest request;
    std::filesystem::path out;
    /// The folder of `out`, where it is a temporary one: it stays while something is written there.
    std::shared_ptr<const QTemporaryDir> folder;
};

/// Writes reports off the user's thread, one at a time; of several orders that wait, the last one
/// counts. It may go while a report is being written: nobody hears of that one then.
class ReportWriter : public QObject {
    Q_OBJECT

  public:
    explicit ReportWriter(OpenRegister& open, QObject* parent = nullptr);
    void write(WritingOrder order);
    [[nodiscard]] bool atWork() const { return m_watcher.isRunning(); }

  Q_SIGNALS:
    void started();
    void written(const std::filesystem::path& out);
    /// Why there is no report, as a sentence.
    void failed(const QString& why);

  private:
    /// Empty where the report was written.
    using Trouble = QString;

    void start(const WritingOrder& order);
    void take();

    OpenRegister& m_open;
    QFutureWatcher<Trouble> m_watcher;
    std::filesystem::path m_out;  ///< of the order at work
    std::optional<WritingOrder> m_next;
};

}  // namespace app::desk::preview
