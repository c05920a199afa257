#pragma once

#include <QByteArray>

namespace app::report {

/// The style sheet of the HTML reports: paper on the screen, plain white when printed.
[[nodiscard]] QByteArray htmlStyle();

}  // namespace app::report
