#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <optional>
#include <string>
#include <vector>

namespace evidence::record {

enum class FrameModel { Uniform, Stretch, Printed, Plane, Line, Upright, Camera };

template <>
struct Names<FrameModel> {
    static constexpr std::array<NameList<FrameModel>, 7> all{{{"uniform", FrameModel::Uniform},
                                                              {"stretch", FrameModel::Stretch},
                                                              {"printed", FrameModel::Printed},
                                                              {"plane", FrameModel::Plane},
                                                              {"line", FrameModel::Line},
                                                              {"upright", FrameModel::Upright},
                                                              {"camera", FrameModel::Camera}}};
};

/// What a record is used for: it adjusts, or it only checks.
enum class Use { Adjust, Check };

template <>
struct Names<Use> {
    static constexpr std::array<NameList<Use>, 2> all{
        {{"adjust", Use::Adjust}, {"check", Use::Check}}};
};

/// A known length: a value with an uncertainty and a source, or another dimension of the register.
struct KnownLength {
    std::optional<Written> value;
    std::optional<std::string> unit;
    std::optional<double> u;
    std::optional<double> halfWidth;
    std::optional<Shape> shape;
    std::optional<double> roundedTo;
    std::optional<SourceId> source;
    std::optional<Basis> basis;
    std::optional<std::string> reason;
    std::optional<std::string> floorReason;
    std::optional<std::string> tableRow;
    std::optional<DimensionId> dimension;

    static constexpr auto fields() {
        return std::tuple{field("value", &KnownLength::value),
                          field("unit", &KnownLength::unit),
                          field("u", &KnownLength::u),
                          field("half_width", &KnownLength::halfWidth),
                          field("shape", &KnownLength::shape),
                          field("rounded_to", &KnownLength::roundedTo),
                          field("source", &KnownLength::source),
                          field("basis", &KnownLength::basis),
                          field("reason", &KnownLength::reason),
                          field("floor_reason", &KnownLength::floorReason),
                          field("table_row", &KnownLength::tableRow),
                          field("dimension", &KnownLength::dimension)};
    }
    friend bool operator==(const KnownLength&, const KnownLength&) = default;
};

struct Reference {
    MarkId mark;
    KnownLength length;
    std::optional<Use> use;
    std::optional<std::string> setAside;

    static constexpr auto fields() {
        return std::tuple{field("mark", &Reference::mark), field("length", &Reference::length),
                          field("use", &Reference::use), field("set_aside", &Reference::setAside)};
    }
    friend bool operator==(const Reference&, const Reference&) = default;
};

/// A point whose place in inches is known, in one, two or three numbers.
struct KnownPoint {
    MarkId mark;
    std::vector<double> at;
    std::optional<double> u;
    std::optional<SourceId> source;
    std::optional<Basis> basis;

    static constexpr auto fields() {
        return std::tuple{field("mark", &KnownPoint::mark), field("at", &KnownPoint::at),
                          field("u", &KnownPoint::u), field("source", &KnownPoint::source),
                          field("basis", &KnownPoint::basis)};
    }
    friend bool operator==(const KnownPoint&, const KnownPoint&) = default;
};

/// Resolution of the scan and the drawing's stated scale (24 for 1:24).
struct Print {
    std::optional<double> dpi;
    std::optional<double> drawnScale;
    std::optional<double> uRelative;
    std::optional<Basis> basis;

    static constexpr auto fields() {
        return std::tuple{field("dpi", &Print::dpi), field("drawn_scale", &Print::drawnScale),
                          field("u_relative", &Print::uRelative), field("basis", &Print::basis)};
    }
    friend bool operator==(const Print&, const Print&) = default;
};

struct PrincipalPoint {
    PixelPoint at;
    std::optional<double> u;

    static constexpr auto fields() {
        return std::tuple{field("at", &PrincipalPoint::at), field("u", &PrincipalPoint::u)};
    }
    friend bool operator==(const PrincipalPoint&, const PrincipalPoint&) = default;
};

/// Turns pixels of a sheet, or of a region of it, into inches.
struct Frame {
    FrameId id;
    FileId file;
    std::optional<int> page;
    FrameModel model = FrameModel::Uniform;
    std::vector<PixelPoint> region;
    std::vector<Reference> references;
    std::vector<KnownPoint> points;
    std::optional<Print> print;
    std::vector<MarkId> straight;
    std::vector<std::vector<MarkId>> parallel;
    std::vector<std::vector<MarkId>> square;
    std::vector<std::vector<MarkId>> ground;
    std::vector<MarkId> vertical;
    std::optional<double> parallelWithin;  ///< standard, degrees: plane to film of a photograph
    std::optional<PrincipalPoint> principalPoint;
    std::optional<std::string> setAside;

    static constexpr auto fields() {
        return std::tuple{field("id", &Frame::id),
                          field("file", &Frame::file),
                          field("page", &Frame::page),
                          field("model", &Frame::model),
                          field("region", &Frame::region),
                          field("references", &Frame::references),
                          field("points", &Frame::points),
                          field("print", &Frame::print),
                          field("straight", &Frame::straight),
                          field("parallel", &Frame::parallel),
                          field("square", &Frame::square),
                          field("ground", &Frame::ground),
                          field("vertical", &Frame::vertical),
                          field("parallel_within", &Frame::parallelWithin),
                          field("principal_point", &Frame::principalPoint),
                          field("set_aside", &Frame::setAside)};
    }
    friend bool operator==(const Frame&, const Frame&) = default;
};

}  // namespace evidence::record
