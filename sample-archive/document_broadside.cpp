#include "sample-archive/broadside_features.h"
#include "sample-archive/document.h"
#include "sample-archive/lettering.h"
#include "sample-archive/marking.h"

#include <nlohmann/json.hpp>

#include <set>
#include <string>

namespace sample {

using Json = nlohmann::ordered_json;

namespace {

constexpr double kLettersMiddle = 47.5;

Json offPlane(double offset) {
    const PlateKnowledge plate;
    Json term;
    term["offset"] = offset;
    term["u"] = plate.uStandOff;
    term["distance"] = plate.distance;
    term["u_distance"] = plate.uDistance;
    term["basis"] = "gauged";
    term["reason"] =
        "The surviving hanger holds the plate 4 in outside the body side; the photographer's "
        "stand, the cinder path, is 40 ft from the plate by pacing.";
    return term;
}

std::string shortName(const std::string& dimension, std::set<std::string>& used) {
    std::string name = dimension.substr(2);
    if (!used.insert(name).second) name += "-again";
    used.insert(name);
    return name;
}

void addContactPrint(Json& document, const Broadside& view) {
    Marker marker(document, "works", "f-broadside", {"edge", 0.25, 0.12}, 31);
    const std::string plate = marker.mark("plate", "segment", plateEnds(view));
    const PlateKnowledge known;
    Json frame;
    frame["id"] = "g-works";
    frame["file"] = "f-broadside";
    frame["page"] = 1;
    frame["model"] = "uniform";
    frame["references"] = {
        {{"mark", plate},
         {"length",
          {{"value", "18 in"},
           {"half_width", known.halfWidth},
           {"source", "s-catalogue"},
           {"basis", "stated"},
           {"reason",
            "Plate No. 17 of the list of 1909; the ledger enters it on 3 March 1911."}}}}};
    frame["parallel_within"] = known.parallelWithin;
    document["frames"].push_back(std::move(frame));

    std::set<std::string> used;
    for (const BroadsideFeature& feature : broadsideFeatures(view)) {
        const bool circle = feature.kind == BroadsideFeature::Kind::Circle;
        Json& reading = marker.reading(feature.dimension, shortName(feature.dimension, used),
                                       "g-works", circle ? "circle" : "segment", feature.points);
        reading["off_plane"] = offPlane(feature.offset);
        if (circle) {
            reading["off_plane"]["u"] = 0.5;
            reading["off_plane"]["reason"] =
                "Outer faces of the tyres stand 10 1/4 in inside the body side by drawing 47.";
        }
        reading["by"] = "p-moran";
        reading["on"] = "2025-02-08";
    }
    // Taken before anyone had asked how far the step stands off; left so until it is settled.
    const double step = view.car.doorFrom + view.car.doorWidth / 2 - view.car.stepLength / 2;
    const double stepZ = view.bodyZ + 6;
    const double middle = view.car.stepTop - view.car.stepThickness / 2;
    Json& reading =
        marker.reading("d-step-length", "step-length", "g-works", "segment",
                       {view.camera.project({step, middle, stepZ}),
                        view.camera.project({step + view.car.stepLength, middle, stepZ})});
    reading["by"] = "p-moran";
    reading["on"] = "2025-02-08";
}

Json inOnePlane() {
    return {{"offset", 0},         {"u", 0.05},
            {"distance", 484},     {"u_distance", 24},
            {"basis", "geometry"}, {"reason", "Reference and feature lie in the body side alike."}};
}

/// The eaves by a chain of pictures: the cantrail scales the batten, the batten the overhang.
void addEaves(Json& document, const Broadside& view) {
    Marker marker(document, "eaves", "f-broadside", {"picked", 0.6, 0.3}, 35);
    const Railcar& car = view.car;
    const double top = car.cantrailTop + car.roofBatten;
    document["frames"].push_back(
        {{"id", "g-works-eaves"},
         {"file", "f-broadside"},
         {"page", 1},
         {"model", "uniform"},
         {"references",
          {{{"mark", "m-works-cantrail-depth"}, {"length", {{"dimension", "d-cantrail-depth"}}}}}},
         {"parallel_within", 0.5}});
    Json& batten = marker.reading("d-roof-batten", "roof-batten", "g-works-eaves", "segment",
                                  {view.onSide(157.5, car.cantrailTop), view.onSide(157.5, top)});
    batten["off_plane"] = inOnePlane();
    document["frames"].push_back(
        {{"id", "g-works-roof-end"},
         {"file", "f-broadside"},
         {"page", 1},
         {"model", "uniform"},
         {"references",
          {{{"mark", marker.mark("batten-at-end", "segment",
                                 {view.onSide(166, car.cantrailTop), view.onSide(166, top)})},
            {"length", {{"dimension", "d-roof-batten"}}}}}},
         {"parallel_within", 0.5}});
    const double middle = car.cantrailTop + car.roofBatten / 2;
    Json& overhang =
        marker.reading("d-roof-overhang", "roof-overhang", "g-works-roof-end", "segment",
                       {view.onSide(car.bodyLength, middle),
                        view.onSide(car.bodyLength + car.roofOverhang, middle)});
    overhang["off_plane"] = inOnePlane();
}

/// The lettering, scaled by itself in two prints: the argument in a circle that the analysis names.
void addLettering(Json& document, const Broadside& view) {
    const double half = wordLength("CORRAN", 5.0) / 2;
    const double middle = (view.car.sillTop + view.car.waistBottom) / 2;
    const std::vector<cv::Point2d> height = {
        view.onSide(kLettersMiddle - half + 1.5, middle - 2.5),
        view.onSide(kLettersMiddle - half + 1.5, middle + 2.5)};
    const std::vector<cv::Point2d> length = {view.onSide(kLettersMiddle - half, middle),
                                             view.onSide(kLettersMiddle + half, middle)};
    const auto printed = [](const std::vector<cv::Point2d>& points) {
        std::vector<cv::Point2d> result;
        for (const cv::Point2d& point : points) result.push_back(onPrint(point));
        return result;
    };
    const Hand hand{"picked", 0.8, 0.5};
    Marker works(document, "works-letter", "f-broadside", hand, 32);
    Marker print(document, "print-letter", "f-postcard", hand, 33);
    document["frames"].push_back({{"id", "g-works-letters"},
                                  {"file", "f-broadside"},
                                  {"page", 1},
                                  {"model", "uniform"},
                                  {"references",
                                   {{{"mark", works.mark("height", "segment", height)},
                                     {"length", {{"dimension", "d-letter-height"}}}}}},
                                  {"parallel_within", 0.5}});
    document["frames"].push_back({{"id", "g-print-letters"},
                                  {"file", "f-postcard"},
                                  {"page", 1},
                                  {"model", "uniform"},
                                  {"references",
                                   {{{"mark", print.mark("length", "segment", printed(length))},
                                     {"length", {{"dimension", "d-word-length"}}}}}},
                                  {"parallel_within", 0.5}});
    works.reading("d-word-length", "word", "g-works-letters", "segment", length)["off_plane"] =
        inOnePlane();
    print.reading("d-letter-height", "cap", "g-print-letters", "segment",
                  printed(height))["off_plane"] = inOnePlane();
}

void addOtherPrint(Json& document, const Broadside& view) {
    Marker marker(document, "print", "f-postcard", {"edge", 0.35, 0.2}, 34);
    const Railcar& car = view.car;
    const auto along = [&view](double from, double to, double y) {
        return std::vector<cv::Point2d>{onPrint(view.onSide(from, y)), onPrint(view.onSide(to, y))};
    };
    document["frames"].push_back(
        {{"id", "g-print"},
         {"file", "f-postcard"},
         {"page", 1},
         {"model", "uniform"},
         {"references",
          {{{"mark", marker.mark("front-to-door", "segment", along(0, car.doorFrom, 40.5))},
            {"length", {{"dimension", "d-front-to-door"}}}}}},
         {"parallel_within", 0.5}});
    for (std::size_t i = 1; i < 4; ++i) {
        const std::string name = "window-" + std::to_string(i + 1) + "-width";
        Json& reading = marker.reading(
            "d-" + name, name, "g-print", "segment",
            along(car.windows[i].from, car.windows[i].from + car.windows[i].width, 66));
        reading["off_plane"] = {
            {"offset", 0},         {"u", 0.05},
            {"distance", 484},     {"u_distance", 24},
            {"basis", "geometry"}, {"reason", "Reference and window lie in the body side alike."}};
    }
    // The door handle stands in the print with nothing of known size beside it in height.
    document["frames"].push_back({{"id", "g-print-bare"},
                                  {"file", "f-postcard"},
                                  {"page", 1},
                                  {"model", "uniform"},
                                  {"parallel_within", 0.5},
                                  {"references", Json::array()}});
    const double handle = car.doorFrom + 1.6;
    marker.reading("d-handle-height", "handle-height", "g-print-bare", "segment",
                   {onPrint(view.onSide(handle, car.doorBottom)),
                    onPrint(view.onSide(handle, car.doorBottom + 22))})["off_plane"] = inOnePlane();
    // Along and across together: what the printer's easel did shows once both are known.
    document["frames"].push_back(
        {{"id", "g-print-stretch"},
         {"file", "f-postcard"},
         {"page", 1},
         {"model", "stretch"},
         {"references",
          {{{"mark", "m-print-front-to-door"}, {"length", {{"dimension", "d-front-to-door"}}}},
           {{"mark", marker.mark("side-height", "segment",
                                 {onPrint(view.onSide(157.5, car.sidingBottom)),
                                  onPrint(view.onSide(157.5, car.cantrailTop))})},
            {"length", {{"dimension", "d-side-height"}}}}}}});
}

}  // namespace

void addBroadside(Json& document, const Pictures& pictures) {
    addContactPrint(document, pictures.broadside);
    addEaves(document, pictures.broadside);
    addLettering(document, pictures.broadside);
    addOtherPrint(document, pictures.broadside);
}

}  // namespace sample
