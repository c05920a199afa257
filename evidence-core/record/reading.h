#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace evidence::record {

enum class Feature { Original, Altered, Uncertain };

template <>
struct Names<Feature> {
    static constexpr std::array<NameList<Feature>, 3> all{{{"original", Feature::Original},
                                                           {"altered", Feature::Altered},
                                                           {"uncertain", Feature::Uncertain}}};
};

/// How much nearer (+) or farther (−) than the frame's plane a mark lies, inches.
struct OffPlane {
    double offset = 0;
    std::optional<double> u;
    std::optional<double> low;
    std::optional<double> high;
    double distance = 0;  ///< camera to frame plane
    std::optional<double> uDistance;
    std::optional<Basis> basis;
    std::optional<std::string> reason;

    static constexpr auto fields() {
        return std::tuple{
            field("offset", &OffPlane::offset),     field("u", &OffPlane::u),
            field("low", &OffPlane::low),           field("high", &OffPlane::high),
            field("distance", &OffPlane::distance), field("u_distance", &OffPlane::uDistance),
            field("basis", &OffPlane::basis),       field("reason", &OffPlane::reason)};
    }
    friend bool operator==(const OffPlane&, const OffPlane&) = default;
};

/// One correction of a reading: a line of its own, added to or multiplying it.
struct Correction {
    std::string label;
    std::optional<double> add;  ///< in the unit of the reading's value
    std::optional<double> factor;
    std::optional<double> u;
    std::optional<std::string> reason;
    std::optional<Basis> basis;
    std::optional<SourceId> source;
    std::optional<std::string> tableRow;

    static constexpr auto fields() {
        return std::tuple{
            field("label", &Correction::label),   field("add", &Correction::add),
            field("factor", &Correction::factor), field("u", &Correction::u),
            field("reason", &Correction::reason), field("basis", &Correction::basis),
            field("source", &Correction::source), field("table_row", &Correction::tableRow)};
    }
    friend bool operator==(const Correction&, const Correction&) = default;
};

/// Where on the source something stands, in pixels.
struct Place {
    FileId file;
    std::optional<int> page;
    std::optional<std::array<double, 4>> box;  ///< x, y, width, height

    static constexpr auto fields() {
        return std::tuple{field("file", &Place::file), field("page", &Place::page),
                          field("box", &Place::box)};
    }
    friend bool operator==(const Place&, const Place&) = default;
};

/// One piece of evidence for one dimension or particular.
struct Reading {
    ReadingId id;
    AnyId of;
    Basis basis = Basis::Stated;
    std::optional<SourceId> source;
    std::optional<Written> value;
    std::optional<Written> low;
    std::optional<Written> high;
    std::optional<std::string> unit;
    std::optional<double> u;
    std::optional<double> halfWidth;
    std::optional<Shape> shape;
    std::optional<double> roundedTo;
    std::optional<MarkId> mark;
    std::optional<std::array<MarkId, 2>> between;
    std::optional<FrameId> frame;
    std::optional<OffPlane> offPlane;
    std::optional<std::array<std::array<double, 3>, 3>> plane;  ///< three points, `camera` only
    std::vector<Correction> corrections;
    std::optional<Feature> feature;  ///< uncertain where absent
    std::optional<std::string> article;
    std::optional<std::string> instrument;
    std::optional<int> dof;
    std::optional<std::string> tableRow;
    std::vector<StateId> states;
    std::optional<std::string> excerpt;
    std::optional<Place> at;
    std::optional<std::string> reason;
    std::optional<std::string> floorReason;
    std::optional<PersonId> by;
    std::optional<std::string> on;        ///< date
    std::optional<std::string> setAside;  ///< why
    std::vector<AnyId> dependsOn;

    static constexpr auto fields() {
        return std::tuple{field("id", &Reading::id),
                          field("of", &Reading::of),
                          field("basis", &Reading::basis),
                          field("source", &Reading::source),
                          field("value", &Reading::value),
                          field("low", &Reading::low),
                          field("high", &Reading::high),
                          field("unit", &Reading::unit),
                          field("u", &Reading::u),
                          field("half_width", &Reading::halfWidth),
                          field("shape", &Reading::shape),
                          field("rounded_to", &Reading::roundedTo),
                          field("mark", &Reading::mark),
                          field("between", &Reading::between),
                          field("frame", &Reading::frame),
                          field("off_plane", &Reading::offPlane),
                          field("plane", &Reading::plane),
                          field("corrections", &Reading::corrections),
                          field("feature", &Reading::feature),
                          field("article", &Reading::article),
                          field("instrument", &Reading::instrument),
                          field("dof", &Reading::dof),
                          field("table_row", &Reading::tableRow),
                          field("states", &Reading::states),
                          field("excerpt", &Reading::excerpt),
                          field("at", &Reading::at),
                          field("reason", &Reading::reason),
                          field("floor_reason", &Reading::floorReason),
                          field("by", &Reading::by),
                          field("on", &Reading::on),
                          field("set_aside", &Reading::setAside),
                          field("depends_on", &Reading::dependsOn)};
    }
    friend bool operator==(const Reading&, const Reading&) = default;
};

}  // namespace evidence::record
