#include "sample-archive/drawings.h"
#include "sample-archive/figures.h"
#include "sample-archive/sheet_furniture.h"

namespace sample {

namespace {

/// What differs between the drawing and its tracing.
struct Hand {
    const char* lowerPanel = "24 1/2\"";
    double planStretch = 1.0;
};

void dimensionSide(Sheet& sheet, const View& view, const Railcar& car, const Hand& hand) {
    const double length = car.bodyLength;
    const double rear = length + 16;
    // Below the rail: axles and ends. Above the roof: hoops. Right: heights.
    dimensionLine(sheet, view.at(0, -5), view.at(44, -5), -0.28, "3'-8\"");
    dimensionLine(sheet, view.at(44, -5), view.at(128, -5), -0.28, "7'-0\" WHEEL BASE");
    dimensionLine(sheet, view.at(128, -5), view.at(length, -5), -0.28, "3'-7 1/2\"");
    dimensionLine(sheet, view.at(0, -12), view.at(length, -12), -0.28, "14'-3 1/2\" OVER BODY");
    dimensionLine(sheet, view.at(-12.5, -19), view.at(length + 12.5, -19), -0.28,
                  "16'-4 1/2\" OVER BUFFERS");
    const double top = 104;
    const auto station = [&](int hoop) {
        return car.hoops.at(static_cast<std::size_t>(hoop - 1)).station;
    };
    dimensionLine(sheet, view.at(station(1), top), view.at(station(2), top), 0.22, "1'-6 1/2\"");
    dimensionLine(sheet, view.at(station(2), top), view.at(station(5), top), 0.22,
                  "3 BAYS @ 1'-7\" = 4'-9\"");
    dimensionLine(sheet, view.at(station(5), top), view.at(station(6), top), 0.22, "1'-11\"");
    dimensionLine(sheet, view.at(station(6), top), view.at(station(8), top), 0.22,
                  "2 BAYS @ 1'-7\"");
    dimensionLine(sheet, view.at(station(8), top), view.at(station(9), top), 0.22, "16 1/2\"",
                  0.075);
    dimensionLine(sheet, view.at(station(9), top), view.at(station(10), top), 0.22, "16\"", 0.075);
    dimensionLine(sheet, view.at(rear, 0), view.at(rear, car.cantrailTop), 0.0, "7'-0\"");
    dimensionLine(sheet, view.at(rear + 7, 0), view.at(rear + 7, car.totalHeight()), 0.0, "8'-6\"");
    dimensionLine(sheet, view.at(length, 25.5), view.at(length, 50), -0.22, hand.lowerPanel, 0.08);
}

void dimensionOthers(Sheet& sheet, const View& end, const View& plan, const Railcar& car) {
    dimensionLine(sheet, end.at(-31, -5), end.at(31, -5), -0.55, "5'-2\" OVER BODY");
    dimensionLine(sheet, end.at(-18, -5), end.at(18, -5), -0.28, "3'-0\" GAUGE");
    dimensionLine(sheet, plan.at(-4, -14), plan.at(-4, 14), -0.42, "2'-4\"");
    dimensionLine(sheet, plan.at(car.doorFrom, -31), plan.at(car.doorFrom + car.doorWidth, -31),
                  -0.28, "DOOR 1'-8\"", 0.075);
    dimensionLine(sheet, plan.at(40.25, -31), plan.at(56.25, -31), -0.28, "1'-4\"", 0.075);
}

void furnish(Sheet& sheet, const View& side, const View& end, const View& plan,
             const TitleBlock& title) {
    drawBorder(sheet, 0.45);
    drawTitleBlock(sheet, {10.55, 8.35}, {14.4, 10.45}, title);
    drawScaleBar(sheet, {10.75, 7.55}, 24, 6);
    sheet.text("SIDE ELEVATION", side.at(85, -31), 0.11);
    sheet.text("FRONT END", end.at(0, -28), 0.11);
    sheet.text("PLAN OF UNDERFRAME AND FLOOR", plan.at(85, -44), 0.11);
    sheet.text("WHEELS 2'-0\" DIA. ON TREAD.", {12.55, 6.88}, 0.08);
    sheet.text("SHEATHING 5/8\" MATCHBOARD ON OAK HOOPS.", {12.55, 7.07}, 0.08);
}

}  // namespace

Drawing drawArrangement(const Railcar& car, std::uint64_t seed) {
    SheetMaking making;
    making.shrinkX = 0.9965;
    making.shrinkY = 0.9935;
    making.rotation = 0.0016;
    Sheet sheet(making);
    const View side{{1.35, 5.35}, 24, 1.0};
    const View end{{12.55, 5.35}, 24, 1.0};
    const View plan{{1.35, 8.4}, 24, 1.0};
    drawSideView(sheet, side, car);
    drawEndView(sheet, end, car);
    drawPlan(sheet, plan, car);
    dimensionSide(sheet, side, car, Hand{});
    dimensionOthers(sheet, end, plan, car);
    furnish(
        sheet, side, end, plan,
        {"CORRAN VALLEY LIGHT RAILWAY", "PETROL INSPECTION CAR  \"TEAL\"", "GENERAL ARRANGEMENT",
         "SCALE 1/2\" TO 1 FOOT", "DRAWN  J. A. P.   MARCH 1911", "DRG. No. 47"});
    Support linen;
    linen.tint = {0.79, 0.87, 0.88};
    linen.weave = 0.006;
    linen.blotches = 0.022;
    linen.fibre = 0.0025;
    const double w = making.width * making.dpi;
    const double h = making.height * making.dpi;
    linen.folds = {{{0.335 * w, 0}, {0.338 * w, 1.05 * h}},
                   {{0.672 * w, 0}, {0.669 * w, 1.05 * h}},
                   {{0, 0.523 * h}, {1.04 * w, 0.526 * h}}};
    linen.stains = {{{0.79 * w, 0.16 * h}, 330, 0.075}, {{0.93 * w, 0.72 * h}, 520, 0.05}};
    cv::Mat3b picture = sheet.scanned(linen, 0.90, {0.13, 0.11, 0.12}, seed + 11);
    return {std::move(picture), std::move(sheet), side, end, plan};
}

Drawing drawTracing(const Railcar& car, std::uint64_t seed) {
    SheetMaking making;
    making.dpi = 250;
    making.shrinkX = 0.9985;
    making.shrinkY = 0.9955;
    making.rotation = -0.0024;
    Sheet sheet(making);
    const Hand hand{"42 1/2\"", 0.988};
    const View side{{1.35, 5.35}, 24, 1.0};
    const View end{{12.55, 5.35}, 24, 1.0};
    const View plan{{1.40, 8.4}, 24, hand.planStretch};
    drawSideView(sheet, side, car);
    drawEndView(sheet, end, car);
    drawPlan(sheet, plan, car);
    dimensionSide(sheet, side, car, hand);
    dimensionOthers(sheet, end, plan, car);
    furnish(sheet, side, end, plan,
            {"CORRAN VALLEY LIGHT RAILWAY", "PETROL INSPECTION CAR  \"TEAL\"", "GENERAL ARRANGMENT",
             "SCALE 1/2\" TO 1 FOOT", "TRACED  W. H.   FROM DRG. 47   1951", "SHEET 1"});
    Support paper;
    paper.tint = {0.70, 0.86, 0.91};
    paper.blotches = 0.035;
    paper.fibre = 0.006;
    const double w = making.width * making.dpi;
    const double h = making.height * making.dpi;
    paper.folds = {{{0.515 * w, 0}, {0.512 * w, 1.05 * h}}};
    paper.stains = {{{0.16 * w, 0.93 * h}, 420, 0.06}};
    cv::Mat3b picture = sheet.scanned(paper, 0.72, {0.30, 0.22, 0.20}, seed + 12);
    return {std::move(picture), std::move(sheet), side, end, plan};
}

Railcar lengthened(Railcar car) {
    car.hoops[8].station += 6;
    car.hoops[9].station += 12;
    car.bodyLength += 12;
    car.louvreWidth += 4;
    return car;
}

Drawing drawAlteration(const Railcar& car, std::uint64_t seed) {
    SheetMaking making;
    making.width = 12;
    making.height = 7.5;
    making.dpi = 200;
    making.shrinkX = 0.994;
    making.shrinkY = 0.990;
    making.rotation = 0.003;
    Sheet sheet(making);
    const Railcar altered = lengthened(car);
    const View side{{1.35, 5.55}, 24, 1.0};
    drawSideView(sheet, side, altered);
    const double length = altered.bodyLength;
    dimensionLine(sheet, side.at(44, -5), side.at(128, -5), -0.28, "7'-0\" WHEEL BASE");
    dimensionLine(sheet, side.at(128, -5), side.at(length, -5), -0.28, "4'-7 1/2\"");
    dimensionLine(sheet, side.at(0, -12), side.at(length, -12), -0.28, "15'-3 1/2\" OVER BODY");
    const double top = 104;
    dimensionLine(sheet, side.at(altered.hoops[7].station, top),
                  side.at(altered.hoops[8].station, top), 0.22, "1'-10 1/2\"", 0.075);
    dimensionLine(sheet, side.at(altered.hoops[8].station, top),
                  side.at(altered.hoops[9].station, top), 0.22, "1'-10\"", 0.075);
    drawBorder(sheet, 0.35);
    sheet.text("LUGGAGE BAY TO BE LENGTHENED 1'-0\". BODY FORWARD OF HOOP 8 NOT DISTURBED.",
               {5.3, 0.75}, 0.09);
    drawTitleBlock(sheet, {9.75, 5.2}, {11.6, 7.1},
                   {"C. V. L. R.", "CAR \"TEAL\"", "LENGTHENING", "1/2\" TO 1 FT.", "NOV. 1913",
                    "DRG. No. 61"});
    Support blue;
    blue.tint = {0.62, 0.40, 0.24};
    blue.blotches = 0.03;
    blue.fibre = 0.006;
    blue.folds = {{{0.5 * 2400, 0}, {0.5 * 2400, 1700}}};
    // White lines on a blue ground: a print by the wet process.
    cv::Mat3b picture = sheet.scanned(blue, 0.85, {0.93, 0.92, 0.88}, seed + 14);
    return {std::move(picture), std::move(sheet), side, side, side};
}

}  // namespace sample
