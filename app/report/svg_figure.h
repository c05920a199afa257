#pragma once

#include "app/report/document.h"

#include <QByteArray>
#include <QString>

#include <map>
#include <memory>

namespace app::report {

/// The pictures of one HTML file, as JPEG: each is stored where it is first shown, and referred to
/// wherever it is shown again.
class SvgPictures {
  public:
    /// The SVG element that shows `picture` from (0, 0) to `size`; empty where there are no pixels.
    [[nodiscard]] QByteArray element(const std::shared_ptr<const Picture>& picture, QSizeF size);

  private:
    std::map<std::shared_ptr<const Picture>, int> m_stored;
};

/// A drawing as one `<svg>` element for the inside of an HTML file: no declaration, its picture
/// from `pictures`, families that every machine has behind our own. Shown `enlarged` times its size
/// in points, so that its small type can be read on a screen.
[[nodiscard]] QByteArray inlineSvg(const Figure& figure, const QString& cssClass, double enlarged,
                                   SvgPictures& pictures);

}  // namespace app::report
