#include "app/command/headless.h"

#include <QGuiApplication>

namespace app::command {

Headless::Headless() {
    if (QCoreApplication::instance()) return;
    qputenv("QT_QPA_PLATFORM", "offscreen");
    // QGuiApplication keeps references to both for as long as it lives.
    static int argumentCount = 1;
    static char name[] = "lostlines";
    static char* arguments[] = {name, nullptr};
    m_application = std::make_unique<QGuiApplication>(argumentCount, arguments);
}

Headless::~Headless() = default;

}  // namespace app::command
