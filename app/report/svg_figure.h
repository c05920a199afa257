#pragma once

#include "app/report/document.h"

#include <QByteArray>
#include <QString>

namespace app::report {

/// A drawing as one `<svg>` element for the inside of an HTML file: no declaration, pictures as
/// data URIs, families that every machine has behind our own.
[[nodiscard]] QByteArray inlineSvg(const Figure& figure, const QString& cssClass);

}  // namespace app::report
