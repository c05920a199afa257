#pragma once

#include <QTemporaryDir>

#include <memory>

class QGuiApplication;

namespace app::command {

/// A Qt application without a display, for verbs that need fonts or PDF pages: the platform is
/// "offscreen" whatever the environment says, so that no verb but `desk` needs a display. It has a
/// runtime folder of its own, because Qt warns of one that is absent or open to others.
class Headless {
  public:
    Headless();
    ~Headless();
    Headless(const Headless&) = delete;
    Headless& operator=(const Headless&) = delete;

  private:
    QTemporaryDir m_runtime;
    std::unique_ptr<QGuiApplication> m_application;  ///< empty where one runs already
};

}  // namespace app::command
