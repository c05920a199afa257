#include "app/command/headless.h"

#include <QDir>
#include <QGuiApplication>

namespace app::command {

Headless::Headless() : m_runtime(QDir::tempPath() + QStringLiteral("/lostlines-XXXXXX")) {
    if (QCoreApplication::instance()) return;
    qputenv("QT_QPA_PLATFORM", "offscreen");
    if (m_runtime.isValid()) qputenv("XDG_RUNTIME_DIR", m_runtime.path().toUtf8());
    // QGuiApplication keeps references to both for as long as it lives.
    static int argumentCount = 1;
    static char name[] = "lostlines";
    static char* arguments[] = {name, nullptr};
    m_application = std::make_unique<QGuiApplication>(argumentCount, arguments);
}

Headless::~Headless() = default;

}  // namespace app::command
