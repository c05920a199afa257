#pragma once

#include "evidence-core/record/mark.h"

#include <QPointF>

#include <optional>
#include <vector>

namespace app::desk::page {

/// An ellipse in page pixels that holds the true point with 95 % probability.
struct SpreadEllipse {
    QPointF centre;
    double major = 0;  ///< half axes, px
    double minor = 0;
    double angle = 0;  ///< of the major axis, radians from x towards y
};

/// A rim that lies with 95 % probability within ± `halfWidth` of the drawn one, px.
struct SpreadRim {
    QPointF centre;
    double radius = 0;
    double halfWidth = 0;
};

/// How sure the places of a mark are: an ellipse per point from its covariance (else from `uPx`,
/// else from `defaultU`, px per axis), scaled by √χ²₀.₉₅(2) = 2.4477; for a fitted circle a band
/// about its rim of ± 1.96 u(radius). Source: JCGM 102:2011, 7.7 (coverage ellipse).
struct MarkSpread {
    std::vector<SpreadEllipse> points;
    std::optional<SpreadRim> rim;
};
[[nodiscard]] MarkSpread spreadOf(const evidence::record::Mark& mark, double defaultU);

}  // namespace app::desk::page
