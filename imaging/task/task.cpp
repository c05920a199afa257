#include "imaging/task/task.h"

#include "evidence-core/frame/printed.h"
#include "imaging/task/json_reader.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace imaging::task {
namespace {

constexpr std::size_t kMostBytes = std::size_t{32} << 20U;
constexpr double kNormal95 = 1.959963984540054;

using mark::Fit;
using mark::MarkKind;

template <class T, std::size_t N>
T oneOf(const std::string& text, const std::string& place,
        const std::array<std::pair<std::string_view, T>, N>& names) {
    std::string list;
    for (const auto& [name, value] : names) {
        if (name == text) {
            return value;
        }
        list += list.empty() ? "" : ", ";
        list += name;
    }
    fault(Code::BadValue, place, fmt::format("\"{}\" is not one of: {}", text, list));
}

constexpr std::array kKinds = {
    std::pair<std::string_view, MarkKind>{"point", MarkKind::Point},
    std::pair<std::string_view, MarkKind>{"segment", MarkKind::Segment},
    std::pair<std::string_view, MarkKind>{"line", MarkKind::Line},
    std::pair<std::string_view, MarkKind>{"circle", MarkKind::Circle},
    std::pair<std::string_view, MarkKind>{"ellipse", MarkKind::Ellipse},
    std::pair<std::string_view, MarkKind>{"curve", MarkKind::Curve},
    std::pair<std::string_view, MarkKind>{"pattern", MarkKind::Pattern},
};

constexpr std::array kFits = {
    std::pair<std::string_view, Fit>{"none", Fit::None},
    std::pair<std::string_view, Fit>{"edge", Fit::Edge},
    std::pair<std::string_view, Fit>{"line-centre", Fit::LineCentre},
    std::pair<std::string_view, Fit>{"corner", Fit::Corner},
};

constexpr std::array kModels = {
    std::pair<std::string_view, FrameModel>{"uniform", FrameModel::Uniform},
    std::pair<std::string_view, FrameModel>{"printed", FrameModel::Printed},
    std::pair<std::string_view, FrameModel>{"stretch", FrameModel::Stretch},
    std::pair<std::string_view, FrameModel>{"plane", FrameModel::Plane},
    std::pair<std::string_view, FrameModel>{"line", FrameModel::Line},
    std::pair<std::string_view, FrameModel>{"upright", FrameModel::Upright},
    std::pair<std::string_view, FrameModel>{"camera", FrameModel::Camera},
};

/// What each model is solved from; other keys have no place in it.
std::vector<std::string_view> keysOf(FrameModel model) {
    switch (model) {
        case FrameModel::Uniform:
            return {"references", "parallel_within"};
        case FrameModel::Printed:
            return {"print"};
        case FrameModel::Stretch:
            return {"references", "points", "print", "square"};
        case FrameModel::Plane:
            return {"references", "points", "parallel", "square"};
        case FrameModel::Line:
            return {"references", "points"};
        case FrameModel::Upright:
            return {"references", "ground", "vertical"};
        case FrameModel::Camera:
            break;
    }
    return {"references", "points", "parallel", "square", "ground", "vertical", "principal_point"};
}

mark::PixelPoint pointOf(const Json& json, const std::string& place) {
    if (!json.is_array() || json.size() != 2) {
        fault(Code::WrongType, place, "a point [x, y] in pixels is expected here");
    }
    return {ObjectReader::asNumber(json[0], place + "/0"),
            ObjectReader::asNumber(json[1], place + "/1")};
}

TaskMark markOf(const Json& json, const std::string& place, double edgeBias) {
    const ObjectReader object(
        json, place, {"id", "kind", "points", "fit", "search_px", "u_px", "repeats", "note"});
    TaskMark result;
    result.id = object.text("id");
    result.request.kind = oneOf(object.text("kind"), object.at("kind"), kKinds);
    if (object.find("fit") != nullptr) {
        result.request.fit = oneOf(object.text("fit"), object.at("fit"), kFits);
    }
    static_cast<void>(object.need("points"));
    const Json& points = object.list("points");
    for (std::size_t i = 0; i < points.size(); ++i) {
        result.request.points.push_back(pointOf(points[i], fmt::format("{}/points/{}", place, i)));
    }
    const Json& repeats = object.list("repeats");
    for (std::size_t i = 0; i < repeats.size(); ++i) {
        const std::string at = fmt::format("{}/repeats/{}", place, i);
        if (!repeats[i].is_array()) {
            fault(Code::WrongType, at, "a list of points is expected here");
        }
        std::vector<mark::PixelPoint> again;
        for (std::size_t k = 0; k < repeats[i].size(); ++k) {
            again.push_back(pointOf(repeats[i][k], fmt::format("{}/{}", at, k)));
        }
        result.request.repeats.push_back(std::move(again));
    }
    if (!repeats.empty() && result.request.fit != Fit::None) {
        fault(Code::BadValue, object.at("repeats"),
              "repeats tell how well a hand picks: they belong to fit none");
    }
    result.request.searchPx = object.number("search_px").value_or(mark::kSearchDefault);
    result.request.uPx = object.number("u_px");
    result.request.edgeBiasPx = edgeBias;
    return result;
}

using Ids = std::map<std::string, std::size_t, std::less<>>;

std::size_t markNamed(const Json& json, const std::string& place, const Ids& ids) {
    const std::string id = ObjectReader::asText(json, place);
    const auto it = ids.find(id);
    if (it == ids.end()) {
        fault(Code::MissingTarget, place, fmt::format("the task has no mark \"{}\"", id));
    }
    return it->second;
}

/// A length under `key`: a number in inches or a text with its unit.
std::optional<KnownLength> plainLength(const ObjectReader& object, const char* key,
                                       const LengthReader& read) {
    const Json* json = object.find(key);
    if (json == nullptr) {
        return std::nullopt;
    }
    KnownLength length;
    if (json->is_string()) {
        const auto text = read(json->get<std::string>(), "in");
        if (!text) {
            fault(Code::BadValue, object.at(key),
                  fmt::format("\"{}\" cannot be read as a length", json->get<std::string>()));
        }
        length.inches = text->inches;
    } else {
        length.inches = ObjectReader::asNumber(*json, object.at(key));
    }
    return length;
}

KnownLength knownLength(const Json& json, const std::string& place, const LengthReader& read) {
    const ObjectReader object(json, place,
                              {"value", "unit", "u", "half_width", "shape", "rounded_to", "source",
                               "basis", "reason", "floor_reason", "table_row", "dimension"});
    if (object.find("dimension") != nullptr) {
        fault(Code::NotAvailable, object.at("dimension"),
              "a task has no register to take a dimension from; give the length as a value");
    }
    const std::string unit = object.find("unit") == nullptr ? "in" : object.text("unit");
    const auto factor = inchesPer(unit);
    if (!factor) {
        fault(Code::BadUnit, object.at("unit"),
              fmt::format("\"{}\" is no unit of length; use in, ft, mm, cm or m", unit));
    }
    KnownLength length;
    double perUnit = *factor;
    const Json& value = object.need("value");
    if (value.is_string()) {
        const auto text = read(value.get<std::string>(), unit);
        if (!text) {
            fault(Code::BadValue, object.at("value"),
                  fmt::format("\"{}\" cannot be read as a length", value.get<std::string>()));
        }
        length.inches = text->inches;
        perUnit = text->inchesPerUnit;
    } else {
        length.inches = ObjectReader::asNumber(value, object.at("value")) * *factor;
    }
    if (!(length.inches > 0)) {
        fault(Code::BadValue, object.at("value"), "a reference length must be above zero");
    }
    int given = 0;
    const auto spread = [&](const char* key) -> double {
        const auto number = object.number(key);
        if (!number) {
            return 0;
        }
        ++given;
        if (*number < 0) {
            fault(Code::BadValue, object.at(key), "an uncertainty cannot be below zero");
        }
        return *number * perUnit;
    };
    length.normal = spread("u");
    const double half = spread("half_width");
    length.rectangular = half + 0.5 * spread("rounded_to");
    if (given > 1) {
        fault(Code::BadValue, place, "give one of u, half_width and rounded_to, not several");
    }
    length.exact = given == 0;
    if (object.find("shape") != nullptr) {
        if (object.find("half_width") == nullptr) {
            fault(Code::BadValue, object.at("shape"), "a shape needs a half_width");
        }
        enum class Shape { Rectangular, Triangular, Normal95 };
        static constexpr std::array kShapes = {
            std::pair<std::string_view, Shape>{"rectangular", Shape::Rectangular},
            std::pair<std::string_view, Shape>{"triangular", Shape::Triangular},
            std::pair<std::string_view, Shape>{"normal95", Shape::Normal95},
        };
        const Shape shape = oneOf(object.text("shape"), object.at("shape"), kShapes);
        if (shape != Shape::Rectangular) {
            length.normal = shape == Shape::Triangular ? half / std::sqrt(6.0) : half / kNormal95;
            length.rectangular = 0;
        }
    }
    return length;
}

TaskReference referenceOf(const Json& json, const std::string& place, const Ids& ids,
                          const LengthReader& read) {
    const ObjectReader object(json, place, {"mark", "length", "use", "set_aside"});
    TaskReference reference;
    reference.mark = markNamed(object.need("mark"), object.at("mark"), ids);
    reference.length = knownLength(object.need("length"), object.at("length"), read);
    if (object.find("use") != nullptr) {
        static constexpr std::array kUses = {
            std::pair<std::string_view, bool>{"adjust", false},
            std::pair<std::string_view, bool>{"check", true},
        };
        reference.checkOnly = oneOf(object.text("use"), object.at("use"), kUses);
    }
    return reference;
}

bool isSetAside(const Json* json) {
    return json != nullptr && *json != Json(false) && *json != Json("");
}

Printed printOf(const ObjectReader& frame) {
    const ObjectReader object(frame.need("print"), frame.at("print"),
                              {"dpi", "drawn_scale", "u_relative", "basis"});
    static_cast<void>(object.need("dpi"));
    static_cast<void>(object.need("drawn_scale"));
    Printed print;
    print.dpi = *object.number("dpi");
    print.drawnScale = *object.number("drawn_scale");
    print.uRelative =
        object.number("u_relative").value_or(evidence::frame::kPrintedRelativeDefault);
    if (!(print.dpi > 0)) {
        fault(Code::BadValue, object.at("dpi"), "the resolution must be above zero");
    }
    if (!(print.drawnScale > 0)) {
        fault(Code::BadValue, object.at("drawn_scale"),
              "the drawn scale is a number above zero, 24 for 1:24");
    }
    if (print.uRelative < 0) {
        fault(Code::BadValue, object.at("u_relative"), "an uncertainty cannot be below zero");
    }
    return print;
}

MarkGroup groupOf(const Json& json, const std::string& place, const Ids& ids, std::size_t least) {
    if (!json.is_array()) {
        fault(Code::WrongType, place, "a list of mark ids is expected here");
    }
    MarkGroup group;
    for (std::size_t i = 0; i < json.size(); ++i) {
        group.push_back(markNamed(json[i], fmt::format("{}/{}", place, i), ids));
    }
    if (group.size() < least) {
        fault(Code::BadValue, place, fmt::format("this list takes {} marks or more", least));
    }
    return group;
}

std::vector<MarkGroup> groupsOf(const ObjectReader& object, const char* key, const Ids& ids) {
    std::vector<MarkGroup> groups;
    const Json& lists = object.list(key);
    for (std::size_t i = 0; i < lists.size(); ++i) {
        groups.push_back(groupOf(lists[i], fmt::format("{}/{}", object.at(key), i), ids, 2));
    }
    return groups;
}

TaskPoint knownPointOf(const Json& json, const std::string& place, const Ids& ids,
                       std::size_t coordinates) {
    const ObjectReader object(json, place, {"mark", "at", "u", "source", "basis"});
    TaskPoint point;
    point.mark = markNamed(object.need("mark"), object.at("mark"), ids);
    static_cast<void>(object.need("at"));
    const Json& at = object.list("at");
    for (std::size_t i = 0; i < at.size(); ++i) {
        point.at.push_back(ObjectReader::asNumber(at[i], fmt::format("{}/at/{}", place, i)));
    }
    // Two coordinates of a point in space lie in the plane z = 0.
    if (coordinates == 3 && point.at.size() == 2) {
        point.at.push_back(0);
    }
    if (point.at.size() != coordinates) {
        fault(Code::BadValue, object.at("at"),
              fmt::format("{} number(s) in inches are expected here, not {}", coordinates,
                          at.size()));
    }
    point.u = object.number("u").value_or(0);
    if (point.u < 0) {
        fault(Code::BadValue, object.at("u"), "an uncertainty cannot be below zero");
    }
    return point;
}

void readPrincipal(const ObjectReader& frame, TaskFrame& result) {
    const Json* json = frame.find("principal_point");
    if (json == nullptr) {
        return;
    }
    const ObjectReader object(*json, frame.at("principal_point"), {"at", "u"});
    result.principal = pointOf(object.need("at"), object.at("at"));
    result.uPrincipal = object.number("u");
    if (result.uPrincipal && *result.uPrincipal < 0) {
        fault(Code::BadValue, object.at("u"), "an uncertainty cannot be below zero");
    }
}

void refuseForeignKeys(const ObjectReader& object, const TaskFrame& frame) {
    for (const char* key : {"references", "points", "print", "parallel", "square", "ground",
                            "vertical", "parallel_within", "principal_point"}) {
        const Json* json = object.find(key);
        const bool given = json != nullptr && !(json->is_array() && json->empty());
        const auto allowed = keysOf(frame.model);
        if (given && std::find(allowed.begin(), allowed.end(), key) == allowed.end()) {
            fault(Code::BadValue, object.at(key),
                  fmt::format("\"{}\" has no place in a frame of model {}", key, frame.modelName));
        }
    }
}

std::size_t coordinatesOf(FrameModel model) {
    return model == FrameModel::Camera ? 3 : model == FrameModel::Line ? 1 : 2;
}

TaskFrame frameOf(const Json& json, const Ids& ids, const LengthReader& read) {
    const std::string place = "/frame";
    const ObjectReader object(json, place,
                              {"id", "file", "page", "model", "region", "references", "points",
                               "print", "straight", "parallel", "square", "ground", "vertical",
                               "parallel_within", "principal_point", "set_aside"});
    TaskFrame frame;
    frame.modelName = object.text("model");
    frame.model = oneOf(frame.modelName, object.at("model"), kModels);
    refuseForeignKeys(object, frame);
    if (object.find("print") != nullptr || frame.model == FrameModel::Printed) {
        frame.print = printOf(object);
    }
    const Json& references = object.list("references");
    for (std::size_t i = 0; i < references.size(); ++i) {
        const std::string at = fmt::format("/frame/references/{}", i);
        auto reference = referenceOf(references[i], at, ids, read);
        reference.index = i;
        if (!references[i].contains("set_aside") || !isSetAside(&references[i]["set_aside"])) {
            frame.references.push_back(reference);
        }
    }
    const Json& points = object.list("points");
    for (std::size_t i = 0; i < points.size(); ++i) {
        frame.points.push_back(knownPointOf(points[i], fmt::format("/frame/points/{}", i), ids,
                                            coordinatesOf(frame.model)));
        frame.points.back().index = i;
    }
    frame.parallel = groupsOf(object, "parallel", ids);
    frame.square = groupsOf(object, "square", ids);
    frame.ground = groupsOf(object, "ground", ids);
    frame.vertical = groupOf(object.list("vertical"), object.at("vertical"), ids, 0);
    frame.straight = groupOf(object.list("straight"), object.at("straight"), ids, 0);
    readPrincipal(object, frame);
    if (frame.model == FrameModel::Uniform && frame.references.empty()) {
        fault(Code::NoSolution, "/frame/references",
              "a uniform frame needs at least one reference of known length");
    }
    frame.parallelWithin = object.number("parallel_within").value_or(0) * std::numbers::pi / 180;
    if (frame.parallelWithin < 0 || frame.parallelWithin >= std::numbers::pi / 2) {
        fault(Code::BadValue, object.at("parallel_within"),
              "parallel_within is an angle from 0 to less than 90 degrees");
    }
    return frame;
}

enum class DistanceIs { Needed, KnownToTheFrame };

OffPlane offPlaneOf(const Json& json, const std::string& place, const LengthReader& read,
                    DistanceIs distance) {
    const ObjectReader object(
        json, place, {"offset", "u", "low", "high", "distance", "u_distance", "basis", "reason"});
    OffPlane term;
    const auto low = plainLength(object, "low", read);
    const auto high = plainLength(object, "high", read);
    const auto offset = plainLength(object, "offset", read);
    if (offset) {
        term.offset = *offset;
    } else if (low && high && low->inches <= high->inches) {
        term.offset.inches = 0.5 * (low->inches + high->inches);
        term.offset.rectangular = 0.5 * (high->inches - low->inches);
    } else {
        fault(Code::MissingKey, object.at("offset"),
              "give the offset from the plane (+ toward the camera), or its low and high limits");
    }
    if (const auto u = plainLength(object, "u", read)) {
        term.offset.normal = u->inches;
        term.offset.rectangular = 0;
    }
    term.distance = plainLength(object, "distance", read);
    if (!term.distance) {
        if (distance == DistanceIs::Needed) {
            fault(Code::MissingKey, object.at("distance"),
                  "the distance from the camera to the frame's plane is needed for this "
                  "correction");
        }
        return term;
    }
    if (const auto u = plainLength(object, "u_distance", read)) {
        term.distance->normal = u->inches;
    }
    if (term.offset.normal < 0 || term.distance->normal < 0) {
        fault(Code::BadValue, place, "an uncertainty cannot be below zero");
    }
    if (!(term.distance->inches > 0 && term.offset.inches < term.distance->inches)) {
        fault(Code::BadValue, object.at("distance"),
              "the distance must be above zero and beyond the offset");
    }
    return term;
}

std::array<Eigen::Vector3d, 3> planeOf(const Json& json, const std::string& place) {
    if (!json.is_array() || json.size() != 3) {
        fault(Code::WrongType, place, "three points [x, y, z] in inches are expected here");
    }
    std::array<Eigen::Vector3d, 3> plane;
    for (std::size_t i = 0; i < 3; ++i) {
        if (!json[i].is_array() || json[i].size() != 3) {
            fault(Code::WrongType, fmt::format("{}/{}", place, i),
                  "a point [x, y, z] in inches is expected here");
        }
        for (std::size_t k = 0; k < 3; ++k) {
            plane[i](static_cast<Eigen::Index>(k)) =
                ObjectReader::asNumber(json[i][k], fmt::format("{}/{}/{}", place, i, k));
        }
    }
    return plane;
}

TaskEntry entryOf(const Json& json, const std::string& place, const Ids& ids,
                  const LengthReader& read, const std::optional<TaskFrame>& frame) {
    const ObjectReader object(json, place,
                              {"id", "mark", "between", "quantity", "off_plane", "plane"});
    TaskEntry entry;
    entry.id = object.text("id");
    static constexpr std::array kQuantities = {
        std::pair<std::string_view, Quantity>{"length", Quantity::Length},
        std::pair<std::string_view, Quantity>{"diameter", Quantity::Diameter},
        std::pair<std::string_view, Quantity>{"radius", Quantity::Radius},
        std::pair<std::string_view, Quantity>{"angle", Quantity::Angle},
        std::pair<std::string_view, Quantity>{"pitch", Quantity::Pitch},
        std::pair<std::string_view, Quantity>{"height", Quantity::Height},
    };
    entry.quantity = oneOf(object.text("quantity"), object.at("quantity"), kQuantities);
    const bool camera = frame && frame->model == FrameModel::Camera;
    if (const Json* plane = object.find("plane")) {
        if (!camera) {
            fault(Code::BadValue, object.at("plane"), "a plane belongs to a camera frame");
        }
        entry.plane = planeOf(*plane, object.at("plane"));
    } else if (camera) {
        fault(Code::MissingKey, object.at("plane"),
              fmt::format("entry \"{}\" needs the known plane that its mark lies in: \"plane\" "
                          "with three points in inches",
                          entry.id));
    }
    const bool single = object.find("mark") != nullptr;
    if (single == (object.find("between") != nullptr)) {
        fault(single ? Code::BadValue : Code::MissingKey, object.at("mark"),
              "an entry takes either \"mark\" or \"between\"");
    }
    if (single) {
        entry.marks.push_back(markNamed(object.need("mark"), object.at("mark"), ids));
    } else {
        const Json& between = object.list("between");
        if (between.size() != 2) {
            fault(Code::BadValue, object.at("between"), "\"between\" takes the ids of two marks");
        }
        for (std::size_t i = 0; i < 2; ++i) {
            entry.marks.push_back(
                markNamed(between[i], fmt::format("{}/between/{}", place, i), ids));
        }
        if (entry.marks[0] == entry.marks[1]) {
            fault(Code::BadValue, object.at("between"), "the two marks are the same one");
        }
    }
    if (const Json* term = object.find("off_plane")) {
        entry.offPlane = offPlaneOf(*term, object.at("off_plane"), read,
                                    camera ? DistanceIs::KnownToTheFrame : DistanceIs::Needed);
    }
    return entry;
}

void addId(Ids& ids, const std::string& id, const std::string& place, const char* what) {
    if (!ids.emplace(id, ids.size()).second) {
        fault(Code::DuplicateId, place, fmt::format("the {} id \"{}\" is used twice", what, id));
    }
}

Task taskOf(const Json& json, const LengthReader& read) {
    const ObjectReader object(json, "",
                              {"page", "marks", "frame", "edge_bias_px", "measure", "unit"});
    Task task;
    const double page = object.number("page").value_or(1);
    if (page < 1 || page > 1e6 || page != std::floor(page)) {
        fault(Code::BadValue, "/page", "the page is a whole number from 1");
    }
    task.page = static_cast<int>(page);
    if (object.find("unit") != nullptr) {
        task.unit = object.text("unit");
        if (!inchesPer(task.unit)) {
            fault(Code::BadUnit, "/unit",
                  fmt::format("\"{}\" is no unit of length; use in, ft, mm, cm or m", task.unit));
        }
    }
    const double edgeBias = object.number("edge_bias_px").value_or(0);
    if (edgeBias < 0) {
        fault(Code::BadValue, "/edge_bias_px", "an uncertainty cannot be below zero");
    }
    Ids ids;
    static_cast<void>(object.need("marks"));
    const Json& marks = object.list("marks");
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const std::string place = fmt::format("/marks/{}", i);
        task.marks.push_back(markOf(marks[i], place, edgeBias));
        addId(ids, task.marks.back().id, place + "/id", "mark");
    }
    if (const Json* frame = object.find("frame")) {
        task.frame = frameOf(*frame, ids, read);
    }
    Ids entryIds;
    const Json& entries = object.list("measure");
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const std::string place = fmt::format("/measure/{}", i);
        task.entries.push_back(entryOf(entries[i], place, ids, read, task.frame));
        addId(entryIds, task.entries.back().id, place + "/id", "entry");
    }
    if (!task.frame && !task.entries.empty()) {
        fault(Code::MissingKey, "/frame", "without a frame nothing can be measured in inches");
    }
    return task;
}

}  // namespace

double KnownLength::u() const {
    return std::sqrt(normal * normal + rectangular * rectangular / 3);
}

Result<Task> parseTask(std::string_view json, const LengthReader& readLength) {
    if (json.size() > kMostBytes) {
        return refuse(Code::BadDocument, "", "the task is larger than 32 MB");
    }
    try {
        return taskOf(Json::parse(json), readLength);
    } catch (const Fault& broken) {
        return tl::unexpected(broken.refusal);
    } catch (const Json::exception& error) {
        return refuse(Code::BadDocument, "", fmt::format("the task is not JSON: {}", error.what()));
    }
}

}  // namespace imaging::task
