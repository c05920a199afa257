#pragma once

#include <memory>

class QGuiApplication;

namespace app::command {

/// A Qt application without a display, for verbs that need fonts or PDF pages: the platform is
/// "offscreen" whatever the environment says, so that no verb but `desk` needs a display.
class Headless {
  public:
    Headless();
    ~Headless();
    Headless(const Headless&) = delete;
    Headless& operator=(const Headless&) = delete;

  private:
    std::unique_ptr<QGuiApplication> m_application;  ///< empty where one runs already
};

}  // namespace app::command
