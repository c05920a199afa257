#include "app/desk/preview/report_writer.h"

#include "app/desk/form/refusal_sentence.h"
#include "app/desk/open_register.h"

#include <QtConcurrent>

#include <map>
#include <string>
#include <utility>

namespace app::desk::preview {

namespace {

/// Where the originals lie, asked on the user's thread, for use on another.
using Originals = std::map<std::string, std::filesystem::path>;

Originals originalsOf(const OpenRegister& open, const evidence::record::Register& reg) {
    Originals paths;
    for (const auto& source : reg.sources)
        for (const auto& file : source.files) paths[file.id.text] = open.originalOf(file);
    return paths;
}

QString troubleWriting(const WritingOrder& order, const Originals& originals) {
    const auto lookup = [&](const evidence::record::File& file) {
        const auto found = originals.find(file.id.text);
        return found == originals.end() ? std::filesystem::path() : found->second;
    };
    try {
        const auto written = report::writeReport(*order.judged->snapshot, lookup,
                                                 order.judged->analysis, order.request, order.out);
        return written ? QString() : form::refusalSentence(written.error());
    } catch (const std::filesystem::filesystem_error& error) {
        return ReportWriter::tr("The report could not be written to %1: %2.")
            .arg(QString::fromStdString(order.out.string()),
                 QString::fromStdString(error.code().message()));
    }
}

}  // namespace

ReportWriter::ReportWriter(OpenRegister& open, QObject* parent) : QObject(parent), m_open(open) {
    connect(&m_watcher, &QFutureWatcherBase::finished, this, &ReportWriter::take);
}

void ReportWriter::write(WritingOrder order) {
    if (m_watcher.isRunning())
        m_next = std::move(order);
    else
        start(order);
}

void ReportWriter::start(const WritingOrder& order) {
    m_out = order.out;
    m_watcher.setFuture(
        QtConcurrent::run(troubleWriting, order, originalsOf(m_open, order.judged->snapshot->reg)));
    Q_EMIT started();
}

void ReportWriter::take() {
    const auto trouble = m_watcher.result();
    if (m_next) return start(*std::exchange(m_next, std::nullopt));
    if (trouble.isEmpty())
        Q_EMIT written(m_out);
    else
        Q_EMIT failed(trouble);
}

}  // namespace app::desk::preview
