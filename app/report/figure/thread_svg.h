#pragma once

#include "evidence-core/judgement/thread.h"

#include <string>

namespace app::report::figure {

/// The thread of one value as an SVG document of its own. Needs a QGuiApplication (fonts).
[[nodiscard]] std::string threadSvg(const evidence::judgement::Thread& thread,
                                    const std::string& title);

}  // namespace app::report::figure
