#include "sample-archive/document.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <optional>
#include <string>

namespace sample {

using Json = nlohmann::ordered_json;

namespace {

struct Figure {
    const char* dimension;
    const char* written;
    cv::Point2d middle;  ///< of the figure on the sheet, pixels
    double halfWidth;    ///< of the box round it, pixels
    std::optional<double> roundedTo;
};

void figure(Json& document, const std::string& prefix, const std::string& source,
            const std::string& file, const Figure& figure) {
    Json record;
    record["id"] = "r-" + prefix + "-fig-" + std::string(figure.dimension).substr(2);
    record["of"] = figure.dimension;
    record["basis"] = "figured";
    record["source"] = source;
    record["value"] = figure.written;
    if (figure.roundedTo) record["rounded_to"] = *figure.roundedTo;
    record["excerpt"] = figure.written;
    const auto whole = [](double pixels) { return static_cast<int>(pixels); };
    record["at"] = {
        {"file", file},
        {"page", 1},
        {"box",
         {whole(figure.middle.x - figure.halfWidth), whole(figure.middle.y - figure.halfWidth / 3),
          whole(2 * figure.halfWidth), whole(figure.halfWidth * 2 / 3)}}};
    document["readings"].push_back(std::move(record));
}

void addArrangementFigures(Json& document, const Drawing& sheet) {
    const auto side = [&sheet](double x, double y) { return sheet.onSide(x, y); };
    const auto put = [&document](const Figure& one) {
        figure(document, "ga", "s-arrangement", "f-arrangement", one);
    };
    put({"d-front-overhang", "3'-8\"", side(22, -11.7), 90, {}});
    put({"d-wheelbase", "7'-0\"", side(86, -11.7), 300, {}});
    put({"d-rear-overhang", "3'-7 1/2\"", side(150, -11.7), 120, {}});
    put({"d-body-length", "14'-3 1/2\"", side(85.75, -18.7), 330, {}});
    put({"d-over-buffers", "16'-4 1/2\"", side(85.75, -25.7), 360, {}});
    put({"d-bay-1", "1'-6 1/2\"", side(10.5, 109.3), 110, {}});
    for (const char* bay : {"d-bay-2", "d-bay-3", "d-bay-4"}) {
        put({bay, "1'-7\"", side(48, 109.3), 360, {}});
    }
    put({"d-bay-5", "1'-11\"", side(88, 109.3), 100, {}});
    for (const char* bay : {"d-bay-6", "d-bay-7"}) {
        put({bay, "1'-7\"", side(119, 109.3), 240, {}});
    }
    put({"d-bay-8", "16 1/2\"", side(146, 109.3), 90, {}});
    put({"d-bay-9", "16\"", side(162, 109.3), 70, {}});
    put({"d-cantrail-height", "7'-0\"", side(187.5, 42), 80, {}});
    // 8 ft 6 in is 8 ft 5 3/4 in to the whole inch, as the sheet's other figures show.
    put({"d-total-height", "8'-6\"", side(194.5, 51), 80, 1.0});
    put({"d-lower-panel", "24 1/2\"", side(176.8, 37.7), 90, {}});
    put({"d-body-width", "5'-2\"", sheet.onEnd(0, -18), 290, {}});
    put({"d-channel-spacing", "2'-4\"", sheet.onPlan(-14, 0), 90, {}});
    put({"d-door-width", "1'-8\"", sheet.onPlan(88, -37.5), 160, {}});
    put({"d-window-3-width", "1'-4\"", sheet.onPlan(48, -37.5), 160, {}});
    put({"d-wheel-diameter", "2'-0\"", sheet.onEnd(0, -36.5), 420, {}});
    put({"d-sheathing", "5/8\"", sheet.onEnd(0, -41), 600, 0.125});
}

void addTracingFigures(Json& document, const Drawing& sheet) {
    const auto side = [&sheet](double x, double y) { return sheet.onSide(x, y); };
    const auto put = [&document](const Figure& one) {
        figure(document, "tr", "s-tracing", "f-tracing", one);
    };
    put({"d-wheelbase", "7'-0\"", side(86, -11.7), 190, {}});
    put({"d-body-length", "14'-3 1/2\"", side(85.75, -18.7), 200, {}});
    put({"d-lower-panel", "42 1/2\"", side(176.8, 37.7), 56, {}});
    put({"d-cantrail-height", "7'-0\"", side(187.5, 42), 50, {}});
    put({"d-bay-5", "1'-11\"", side(88, 109.3), 62, {}});
    put({"d-body-width", "5'-2\"", sheet.onEnd(0, -18), 180, {}});
}

void addHoopFigures(Json& document, const Drawing& sheet) {
    const auto put = [&document](const Figure& one) {
        figure(document, "hp", "s-hoops", "f-hoops", one);
    };
    put({"d-hoop-2-rise", "14\"", sheet.onSide(0, 91), 90, {}});
    put({"d-hoop-2-crown", "2 1/4\"", sheet.onSide(-7, 92), 60, {}});
    put({"d-hoop-2-knee", "3\"", sheet.onSide(29, 66), 60, {}});
    put({"d-hoop-2-radius", "9\"", sheet.onSide(19, 77), 100, {}});
    put({"d-hoop-9-rise", "17 1/2\"", sheet.onEnd(0, 93), 100, {}});
    put({"d-hoop-9-crown", "2 3/4\"", sheet.onEnd(-7, 95), 60, {}});
    put({"d-hoop-9-knee", "3 3/4\"", sheet.onEnd(29, 66), 60, {}});
    put({"d-hoop-9-radius", "11\"", sheet.onEnd(19, 77), 100, {}});
    put({"d-hoop-sided", "1 3/4\"", sheet.onSide(0, 42), 200, {}});
}

void addAlterationFigures(Json& document, const Drawing& sheet) {
    const auto side = [&sheet](double x, double y) { return sheet.onSide(x, y); };
    figure(document, "al", "s-alteration", "f-alteration",
           {"d-wheelbase", "7'-0\"", side(86, -11.7), 150, {}});
    document["readings"].back()["states"] = {"w-lengthened"};
    figure(document, "al", "s-alteration", "f-alteration",
           {"d-body-length", "15'-3 1/2\"", side(91, -18.7), 160, {}});
    document["readings"].back()["set_aside"] =
        "Length after the alteration of 1913; kept for the later states.";
    figure(document, "al", "s-alteration", "f-alteration",
           {"d-bay-9", "1'-10\"", side(174, 109.3), 50, {}});
    document["readings"].back()["set_aside"] =
        "Bay after the alteration of 1913; kept for the later states.";
}

}  // namespace

void addFigures(Json& document, const Pictures& pictures) {
    addArrangementFigures(document, pictures.arrangement);
    addTracingFigures(document, pictures.tracing);
    addHoopFigures(document, pictures.hoops);
    addAlterationFigures(document, pictures.alteration);
}

}  // namespace sample
