#include "sample-archive/document.h"
#include "sample-archive/marking.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace sample {

using Json = nlohmann::ordered_json;

namespace {

using Ends = std::vector<cv::Point2d>;

/// A size on a drawing: what it measures and where its two lines lie, car inches.
struct Taken {
    std::string dimension;
    double from;
    double to;
    double beside;  ///< height of a length, or place along of a height
};

Json reference(const std::string& mark, const std::string& dimension) {
    return {{"mark", mark}, {"length", {{"dimension", dimension}}}};
}

Json uniformFrame(const std::string& id, const std::string& file, Json references) {
    return {{"id", id},
            {"file", file},
            {"page", 1},
            {"model", "uniform"},
            {"references", std::move(references)}};
}

Json printedFrame(const std::string& id, const std::string& file, double dpi, double scale,
                  double uRelative) {
    return {
        {"id", id},
        {"file", file},
        {"page", 1},
        {"model", "printed"},
        {"print",
         {{"dpi", dpi}, {"drawn_scale", scale}, {"u_relative", uRelative}, {"basis", "measured"}}}};
}

std::string shortName(const Taken& taken) {
    return taken.dimension.substr(2);
}

Ends along(const Drawing& drawing, const Taken& taken) {
    return {drawing.onSide(taken.from, taken.beside), drawing.onSide(taken.to, taken.beside)};
}

Ends up(const Drawing& drawing, const Taken& taken) {
    return {drawing.onSide(taken.beside, taken.from), drawing.onSide(taken.beside, taken.to)};
}

std::vector<Taken> lengthsAlong(const Railcar& car) {
    std::vector<Taken> list = {
        {"d-front-to-window", 0, car.windows[0].from, 66},
        {"d-front-to-door", 0, car.doorFrom, 40},
        {"d-door-width", car.doorFrom, car.doorFrom + car.doorWidth, 46},
        {"d-louvre-width", car.louvreFrom, car.louvreFrom + car.louvreWidth, 60},
        {"d-headstock-thickness", -car.headstockProjection, 0, 16},
        {"d-buffer-projection", -car.headstockProjection - car.bufferProjection,
         -car.headstockProjection, 15},
        {"d-channel-length", 0.5, car.bodyLength - 0.5, 15.5},
        {"d-hoop-sided", car.hoops[3].station - 0.875, car.hoops[3].station + 0.875, 82},
        {"d-end-hoop-sided", car.hoops[9].station - 1.25, car.hoops[9].station + 1.25, 82},
        {"d-step-length", 77.25, 99.25, 10.75},
        {"d-plate-length", car.plateFrom, car.plateFrom + car.plateLength, 15}};
    for (std::size_t i = 0; i < car.windows.size(); ++i) {
        list.push_back({fmt::format("d-window-{}-width", i + 1), car.windows[i].from,
                        car.windows[i].from + car.windows[i].width, 63});
    }
    for (const std::size_t i : {0U, 1U, 2U, 4U}) {
        list.push_back({fmt::format("d-pillar-{}-{}", i + 1, i + 2),
                        car.windows[i].from + car.windows[i].width, car.windows[i + 1].from, 61});
    }
    for (std::size_t i = 0; i + 1 < car.hoops.size(); ++i) {
        list.push_back(
            {fmt::format("d-bay-{}", i + 1), car.hoops[i].station, car.hoops[i + 1].station, 88});
    }
    return list;
}

std::vector<Taken> heights(const Railcar& car) {
    return {{"d-sill-depth", car.sidingBottom, car.sillTop, 10.5},
            {"d-lower-panel", car.sillTop, car.waistBottom, 10.5},
            {"d-waist-depth", car.waistBottom, car.waistTop, 10.5},
            {"d-waist-to-window", car.waistTop, car.windowBottom, 30},
            {"d-window-height", car.windowBottom, car.windowTop, 30},
            {"d-window-to-cantrail", car.windowTop, car.cantrailBottom, 30},
            {"d-cantrail-depth", car.cantrailBottom, car.cantrailTop, 160},
            {"d-siding-bottom", 0, car.sidingBottom, 150},
            {"d-door-height", car.doorBottom, car.doorTop, 96.5},
            {"d-door-panel-height", car.doorBottom + 4, car.doorBottom + 22, 85},
            {"d-channel-depth", car.channelTop - car.channelDepth, car.channelTop, 20},
            {"d-channel-top", 0, car.channelTop, 110},
            {"d-headstock-depth", 13.5, 21.5, -1.5},
            {"d-buffer-height", 0, car.bufferHeight, -12},
            {"d-step-height", 0, car.stepTop, 90},
            {"d-step-thickness", car.stepTop - car.stepThickness, car.stepTop, 94},
            {"d-floor-height", 0, car.floorTop, 90},
            {"d-plate-height", car.plateBottom, car.plateBottom + car.plateHeight, 66}};
}

void addArrangement(Json& document, const Drawing& drawing, const Railcar& car) {
    Marker marker(document, "ga", "f-arrangement", {"line-centre", 0.4, 0.25}, 41);
    const Taken body{"d-body-length", 0, car.bodyLength, 40};
    const Taken base{"d-wheelbase", car.frontOverhang, car.frontOverhang + car.wheelbase, -2};
    document["frames"].push_back(uniformFrame(
        "g-ga-along", "f-arrangement",
        {reference(marker.mark("body", "segment", along(drawing, body)), "d-body-length"),
         reference(marker.mark("wheelbase", "segment", along(drawing, base)), "d-wheelbase")}));
    const Taken rise{"d-cantrail-height", 0, car.cantrailTop, 120};
    document["frames"].push_back(
        uniformFrame("g-ga-up", "f-arrangement",
                     {reference(marker.mark("cantrail-height", "segment", up(drawing, rise)),
                                "d-cantrail-height")}));
    document["frames"].push_back(printedFrame("g-ga-printed", "f-arrangement", 400, 24, 0.006));
    for (const Taken& taken : lengthsAlong(car)) {
        marker.reading(taken.dimension, shortName(taken), "g-ga-along", "segment",
                       along(drawing, taken));
    }
    for (const Taken& taken : heights(car)) {
        marker.reading(taken.dimension, shortName(taken), "g-ga-up", "segment", up(drawing, taken));
    }
    // The front end is drawn level with the side: the same paper, the same scale along.
    const std::vector<Taken> across = {{"d-buffer-centres", -22, 22, 17.75},
                                       {"d-headstock-length", -27, 27, 15},
                                       {"d-end-window-width", 6, 24, 70},
                                       {"d-tyre-width", 16.75, 20.75, 6}};
    for (const Taken& taken : across) {
        marker.reading(
            taken.dimension, shortName(taken), "g-ga-along", "segment",
            {drawing.onEnd(taken.from, taken.beside), drawing.onEnd(taken.to, taken.beside)});
    }
    const std::vector<Taken> inPlan = {{"d-engine-bed-length", 20, 50, 3},
                                       {"d-seat-length", 58, 138, -22}};
    for (const Taken& taken : inPlan) {
        marker.reading(
            taken.dimension, shortName(taken), "g-ga-along", "segment",
            {drawing.onPlan(taken.from, taken.beside), drawing.onPlan(taken.to, taken.beside)});
    }
    marker.reading("d-engine-bed-width", "engine-bed-width", "g-ga-printed", "segment",
                   {drawing.onPlan(35, -9), drawing.onPlan(35, 9)});
    marker.reading("d-lamp-height", "lamp-height", "g-ga-printed", "segment",
                   {drawing.onEnd(3, 0), drawing.onEnd(3, 68)});
    Ends wheel;
    for (const double x : {car.frontOverhang - 12, car.frontOverhang + 12}) {
        wheel.push_back(drawing.onSide(x, 12));
    }
    marker.reading("d-wheel-diameter", "wheel", "g-ga-along", "segment", wheel);
    marker.reading("d-buffer-head", "buffer-head", "g-ga-up", "segment",
                   {drawing.onSide(-12.0, 12.75), drawing.onSide(-12.0, 22.75)});
}

void addTracing(Json& document, const Drawing& drawing, const Railcar& car) {
    Marker marker(document, "tr", "f-tracing", {"line-centre", 0.5, 0.3}, 42);
    document["frames"].push_back(printedFrame("g-tr-printed", "f-tracing", 250, 24, 0.006));
    for (const Taken& taken :
         {Taken{"d-window-2-width", car.windows[1].from, car.windows[1].from + 16, 63},
          Taken{"d-window-3-width", car.windows[2].from, car.windows[2].from + 16, 63},
          Taken{"d-louvre-width", car.louvreFrom, car.louvreFrom + 10, 60},
          Taken{"d-bay-5", car.hoops[4].station, car.hoops[5].station, 88},
          Taken{"d-channel-length", 0.5, car.bodyLength - 0.5, 15.5}}) {
        marker.reading(taken.dimension, shortName(taken), "g-tr-printed", "segment",
                       along(drawing, taken));
    }
    for (const Taken& taken : {Taken{"d-window-height", car.windowBottom, car.windowTop, 30},
                               Taken{"d-waist-depth", car.waistBottom, car.waistTop, 10.5}}) {
        marker.reading(taken.dimension, shortName(taken), "g-tr-printed", "segment",
                       up(drawing, taken));
    }
    // The plan was traced after the paper had moved: 1.2 % short, which the engine bed shows.
    Json& bed = marker.reading("d-engine-bed-length", "engine-bed-length", "g-tr-printed",
                               "segment", {drawing.onPlan(20, 3), drawing.onPlan(50, 3)});
    bed["set_aside"] =
        "The tracer's plan is 1.2 % short of his own side view; drawing 47 itself is used.";
    document["frames"].push_back(
        {{"id", "g-tr-bed"},
         {"file", "f-tracing"},
         {"page", 1},
         {"model", "uniform"},
         {"references",
          {{{"mark",
             marker.mark("bed-width", "segment", {drawing.onPlan(35, -9), drawing.onPlan(35, 9)})},
            {"length", {{"value", "18 in"}, {"u", 0.5}}}}}}});
    marker.reading("d-seat-depth", "seat-depth", "g-tr-bed", "segment",
                   {drawing.onPlan(70, -30), drawing.onPlan(70, -14)});
}

void addHoopSheet(Json& document, const Drawing& drawing, const Railcar& car) {
    Marker marker(document, "hp", "f-hoops", {"line-centre", 0.4, 0.25}, 43);
    const double half = car.bodyWidth / 2 - car.sheathing;
    const double foot = car.sillTop + 4;
    Json references = Json::array();
    for (const auto& [name, view] : {std::pair{"width-2", 0}, std::pair{"width-9", 1}}) {
        const auto at = [&drawing, view = view](double x, double y) {
            return view == 0 ? drawing.onSide(x, y) : drawing.onEnd(x, y);
        };
        references.push_back(
            {{"mark", marker.mark(name, "segment", {at(-half, foot), at(half, foot)})},
             {"length",
              {{"value", "5'-0 3/4\""},
               {"rounded_to", 0.25},
               {"source", "s-hoops"},
               {"basis", "figured"}}}});
    }
    document["frames"].push_back(uniformFrame("g-hp-along", "f-hoops", references));
    document["frames"].push_back(printedFrame("g-hp-printed", "f-hoops", 300, 12, 0.006));
    for (const int number : {2, 9}) {
        const Hoop& hoop = car.hoops.at(static_cast<std::size_t>(number - 1));
        const auto at = [&drawing, number](double x, double y) {
            return number == 2 ? drawing.onSide(x, y) : drawing.onEnd(x, y);
        };
        const auto take = [&](const char* what, const char* frame, const Ends& ends) {
            marker.reading(fmt::format("d-hoop-{}-{}", number, what),
                           fmt::format("hoop-{}-{}", number, what), frame, "segment", ends);
        };
        const double crown = car.cantrailTop + hoop.rise;
        take("rise", "g-hp-printed", {at(0, car.cantrailTop), at(0, crown)});
        take("crown", "g-hp-printed", {at(0, crown - hoop.mouldedCrown), at(0, crown)});
        take("knee", "g-hp-along", {at(half - hoop.mouldedKnee, 62), at(half, 62)});
    }
}

void addAlteration(Json& document, const Drawing& drawing, const Railcar& car) {
    Marker marker(document, "al", "f-alteration", {"line-centre", 0.5, 0.3}, 44);
    const Taken base{"d-wheelbase", car.frontOverhang, car.frontOverhang + car.wheelbase, -2};
    document["frames"].push_back(
        uniformFrame("g-al-along", "f-alteration",
                     {{{"mark", marker.mark("wheelbase", "segment", along(drawing, base))},
                       {"length",
                        {{"value", "7'-0\""},
                         {"rounded_to", 0.5},
                         {"source", "s-alteration"},
                         {"basis", "figured"}}}}}));
    for (const Taken& taken :
         {Taken{"d-door-width", car.doorFrom, car.doorFrom + car.doorWidth, 46},
          Taken{"d-bay-4", car.hoops[3].station, car.hoops[4].station, 88}}) {
        Json& reading = marker.reading(taken.dimension, shortName(taken), "g-al-along", "segment",
                                       along(drawing, taken));
        reading["states"] = {"w-lengthened"};
    }
}

}  // namespace

void addDrawings(Json& document, const Pictures& pictures) {
    const Railcar car = designed();
    addArrangement(document, pictures.arrangement, car);
    addTracing(document, pictures.tracing, car);
    addHoopSheet(document, pictures.hoops, car);
    addAlteration(document, pictures.alteration, car);
}

}  // namespace sample
