#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <optional>
#include <string>
#include <vector>

namespace evidence::record {

enum class MarkKind { Point, Segment, Line, Circle, Ellipse, Curve, Pattern };

template <>
struct Names<MarkKind> {
    static constexpr std::array<NameList<MarkKind>, 7> all{{{"point", MarkKind::Point},
                                                            {"segment", MarkKind::Segment},
                                                            {"line", MarkKind::Line},
                                                            {"circle", MarkKind::Circle},
                                                            {"ellipse", MarkKind::Ellipse},
                                                            {"curve", MarkKind::Curve},
                                                            {"pattern", MarkKind::Pattern}}};
};

enum class Made { Picked, Edge, LineCentre, Corner };

template <>
struct Names<Made> {
    static constexpr std::array<NameList<Made>, 4> all{{{"picked", Made::Picked},
                                                        {"edge", Made::Edge},
                                                        {"line-centre", Made::LineCentre},
                                                        {"corner", Made::Corner}}};
};

/// The fitted circle (centre, radius) or ellipse (centre, axes [a, b], angle in radians) of a mark,
/// in pixels. The mark's `points` stay as placed.
struct ConicFit {
    PixelPoint centre;
    std::optional<double> radius;
    std::optional<std::array<double, 2>> axes;
    std::optional<double> angle;
    std::vector<std::vector<double>> covariance;

    static constexpr auto fields() {
        return std::tuple{field("centre", &ConicFit::centre), field("radius", &ConicFit::radius),
                          field("axes", &ConicFit::axes), field("angle", &ConicFit::angle),
                          field("covariance", &ConicFit::covariance)};
    }
    friend bool operator==(const ConicFit&, const ConicFit&) = default;
};

/// The sheet as it was when marked, so that a later change of decoding can be detected.
struct SheetSeen {
    int width = 0;
    int height = 0;
    std::optional<int> orientation;

    static constexpr auto fields() {
        return std::tuple{field("width", &SheetSeen::width), field("height", &SheetSeen::height),
                          field("orientation", &SheetSeen::orientation)};
    }
    friend bool operator==(const SheetSeen&, const SheetSeen&) = default;
};

/// A feature placed or fitted on a sheet, in upright pixels.
struct Mark {
    MarkId id;
    FileId file;
    std::optional<int> page;  ///< 1 where absent
    MarkKind kind = MarkKind::Point;
    std::vector<PixelPoint> points;
    std::optional<double> uPx;                    ///< standard, per point and axis
    std::vector<std::vector<double>> covariance;  ///< 2n × 2n px², order x1, y1, x2, y2 …
    std::optional<Made> made;
    std::optional<ConicFit> fit;
    std::optional<SheetSeen> seen;
    std::vector<std::vector<PixelPoint>> repeats;
    std::optional<std::string> setAside;
    std::optional<std::string> note;

    static constexpr auto fields() {
        return std::tuple{field("id", &Mark::id),
                          field("file", &Mark::file),
                          field("page", &Mark::page),
                          field("kind", &Mark::kind),
                          field("points", &Mark::points),
                          field("u_px", &Mark::uPx),
                          field("covariance", &Mark::covariance),
                          field("made", &Mark::made),
                          field("fit", &Mark::fit),
                          field("seen", &Mark::seen),
                          field("repeats", &Mark::repeats),
                          field("set_aside", &Mark::setAside),
                          field("note", &Mark::note)};
    }
    friend bool operator==(const Mark&, const Mark&) = default;
};

}  // namespace evidence::record
