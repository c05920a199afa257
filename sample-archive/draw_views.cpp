#include "sample-archive/draw_views.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sample {

namespace {

constexpr double kHeavy = 0.020;
constexpr double kOutline = 0.013;
constexpr double kFine = 0.007;
constexpr double kHair = 0.0045;

void box(Sheet& sheet, const View& view, double x, double y, double width, double height,
         double pen) {
    sheet.rectangle(view.at(x, y), view.at(x + width, y + height), pen);
}

void level(Sheet& sheet, const View& view, double from, double to, double y, double pen) {
    sheet.line(view.at(from, y), view.at(to, y), pen);
}

void drawWheel(Sheet& sheet, const View& view, const Railcar& car, double axle) {
    const double radius = car.wheelDiameter / 2;
    const cv::Point2d centre = view.at(axle, radius);
    const double unit = 1 / view.scale;
    sheet.circle(centre, radius * unit, kOutline);
    sheet.circle(centre, (radius - 2.0) * unit, kFine);
    sheet.circle(centre, (radius - 3.0) * unit, kFine);
    sheet.circle(centre, 3.5 * unit, kOutline);
    sheet.circle(centre, 1.5 * unit, kFine);
    for (int spoke = 0; spoke < 8; ++spoke) {
        const double turn = 2 * std::numbers::pi * (spoke + 0.25) / 8;
        const cv::Point2d out(std::cos(turn), std::sin(turn));
        const cv::Point2d side(-out.y * 0.75 * unit, out.x * 0.75 * unit);
        sheet.line(centre + out * 3.5 * unit + side, centre + out * (radius - 3) * unit + side,
                   kFine);
        sheet.line(centre + out * 3.5 * unit - side, centre + out * (radius - 3) * unit - side,
                   kFine);
    }
    sheet.dashed(view.at(axle - radius - 3, radius), view.at(axle + radius + 3, radius), kHair,
                 0.16, 0.05);
    sheet.dashed(view.at(axle, -3), view.at(axle, car.wheelDiameter + 3), kHair, 0.16, 0.05);
}

void drawBuffers(Sheet& sheet, const View& view, const Railcar& car) {
    const double end = car.bodyLength + car.headstockProjection;
    box(sheet, view, -car.headstockProjection, 13.5, car.headstockProjection, 8, kOutline);
    box(sheet, view, car.bodyLength, 13.5, car.headstockProjection, 8, kOutline);
    for (const double side : {-1.0, 1.0}) {
        const double face = side < 0 ? -car.headstockProjection : end;
        const double head = face + side * car.bufferProjection;
        box(sheet, view, std::min(face, face + side * 3.5), car.bufferHeight - 2.75, 3.5, 5.5,
            kFine);
        box(sheet, view, std::min(face + side * 3.5, head - side * 1.25), car.bufferHeight - 1.5,
            car.bufferProjection - 4.75, 3.0, kFine);
        box(sheet, view, std::min(head, head - side * 1.25), car.bufferHeight - 5, 1.25, 10,
            kOutline);
    }
}

void drawWindow(Sheet& sheet, const View& view, double from, double bottom, double width,
                double height) {
    box(sheet, view, from, bottom, width, height, kOutline);
    box(sheet, view, from + 1.75, bottom + 1.75, width - 3.5, height - 3.5, kFine);
}

}  // namespace

std::vector<cv::Point2d> hoopOutline(const Railcar& car, const Hoop& hoop, double inset) {
    std::vector<cv::Point2d> places;
    const double half = car.bodyWidth / 2 - inset;
    const double rise = hoop.rise - inset;
    constexpr int kSteps = 80;
    for (int i = 0; i <= kSteps; ++i) {
        const double turn = std::numbers::pi * i / kSteps;
        // Superellipse of index 2.3: flatter at the crown than an ellipse, tighter at the knee.
        const double c = std::cos(turn);
        const double s = std::sin(turn);
        places.emplace_back(half * std::copysign(std::pow(std::abs(c), 2 / 2.3), c),
                            car.cantrailTop + rise * std::pow(std::max(0.0, s), 2 / 2.3));
    }
    return places;
}

void drawSideView(Sheet& sheet, const View& view, const Railcar& car) {
    const double length = car.bodyLength;
    level(sheet, view, -16, length + 16, 0, kOutline);
    level(sheet, view, -16, length + 16, -4.5, kFine);
    box(sheet, view, 0, car.sidingBottom, length, car.cantrailTop - car.sidingBottom, kHeavy);
    level(sheet, view, 0, length, car.sillTop, kOutline);
    level(sheet, view, 0, length, car.waistBottom, kOutline);
    level(sheet, view, 0, length, car.waistTop, kOutline);
    level(sheet, view, 0, length, car.cantrailBottom, kOutline);
    box(sheet, view, -car.roofOverhang, car.cantrailTop, length + 2 * car.roofOverhang,
        car.roofBatten, kOutline);
    for (const Opening& window : car.windows) {
        drawWindow(sheet, view, window.from, car.windowBottom, window.width,
                   car.windowTop - car.windowBottom);
    }
    box(sheet, view, car.louvreFrom, car.windowBottom, car.louvreWidth,
        car.windowTop - car.windowBottom, kOutline);
    for (double y = car.windowBottom + 1.5; y < car.windowTop - 0.5; y += 1.5) {
        level(sheet, view, car.louvreFrom, car.louvreFrom + car.louvreWidth, y, kHair);
    }
    // Door over what is behind it.
    box(sheet, view, car.doorFrom, car.doorBottom, car.doorWidth, car.doorTop - car.doorBottom,
        kOutline);
    drawWindow(sheet, view, car.doorFrom + 3.25, car.windowBottom, car.doorWidth - 6.5, 20);
    box(sheet, view, car.doorFrom + 3.25, car.doorBottom + 4, car.doorWidth - 6.5, 18, kFine);
    for (double x = 3; x < length - 1; x += 3) {
        if (x > car.doorFrom - 1 && x < car.doorFrom + car.doorWidth + 1) continue;
        sheet.line(view.at(x, car.sillTop), view.at(x, car.waistBottom), kHair);
    }
    // The draughtsman ruled the roof straight from end to end: it does not speak for single hoops.
    const double eaves = car.cantrailTop + car.roofBatten;
    const std::vector<cv::Point2d> crown = {
        view.at(-car.roofOverhang, eaves), view.at(-car.roofOverhang, car.crownHeight(1)),
        view.at(length + car.roofOverhang, car.crownHeight(kHoops)),
        view.at(length + car.roofOverhang, eaves)};
    for (const Hoop& hoop : car.hoops) {
        box(sheet, view, hoop.station - hoop.sided / 2, car.cantrailBottom + 1, hoop.sided, 2,
            kFine);
        sheet.dashed(view.at(hoop.station, eaves), view.at(hoop.station, eaves + 8), kHair, 0.08,
                     0.05);
    }
    sheet.polyline(crown, kHeavy);
    box(sheet, view, 0.5, car.channelTop - car.channelDepth, length - 1, car.channelDepth, kFine);
    drawBuffers(sheet, view, car);
    drawWheel(sheet, view, car, car.frontOverhang);
    drawWheel(sheet, view, car, car.frontOverhang + car.wheelbase);
    const double step = car.doorFrom + car.doorWidth / 2 - car.stepLength / 2;
    box(sheet, view, step, car.stepTop - car.stepThickness, car.stepLength, car.stepThickness,
        kOutline);
    for (const double iron : {step + 2, step + car.stepLength - 3.25}) {
        sheet.line(view.at(iron, car.stepTop), view.at(iron, car.sidingBottom), kFine);
        sheet.line(view.at(iron + 1.25, car.stepTop), view.at(iron + 1.25, car.sidingBottom),
                   kFine);
    }
    box(sheet, view, car.plateFrom, car.plateBottom, car.plateLength, car.plateHeight, kFine);
}

void drawEndView(Sheet& sheet, const View& view, const Railcar& car) {
    const double half = car.bodyWidth / 2;
    const Hoop& hoop = car.hoops.back();
    std::vector<cv::Point2d> outline;
    outline.push_back(view.at(half, car.sidingBottom));
    for (const cv::Point2d& place : hoopOutline(car, hoop, 0)) {
        outline.push_back(view.at(place.x, place.y));
    }
    outline.push_back(view.at(-half, car.sidingBottom));
    outline.push_back(outline.front());
    sheet.polyline(outline, kHeavy);
    std::vector<cv::Point2d> inner;
    for (const cv::Point2d& place : hoopOutline(car, hoop, hoop.mouldedCrown)) {
        inner.push_back(view.at(place.x, place.y));
    }
    sheet.polyline(inner, kHair);
    for (const double y :
         {car.sillTop, car.waistBottom, car.waistTop, car.cantrailBottom, car.cantrailTop}) {
        level(sheet, view, -half, half, y, kFine);
    }
    for (const double x : {-24.0, 6.0}) {
        drawWindow(sheet, view, x, car.windowBottom, 18, car.windowTop - car.windowBottom);
    }
    for (double x = -27; x < 28; x += 3) {
        sheet.line(view.at(x, car.sillTop), view.at(x, car.waistBottom), kHair);
    }
    box(sheet, view, -27, 13.5, 54, 8, kOutline);
    for (const double x : {-22.0, 22.0}) {
        sheet.circle(view.at(x, car.bufferHeight), 5 / view.scale, kOutline);
        sheet.circle(view.at(x, car.bufferHeight), 2.75 / view.scale, kFine);
    }
    const double gauge = car.gauge / 2;
    for (const double side : {-1.0, 1.0}) {
        box(sheet, view, side < 0 ? -gauge - 2.75 : gauge - 1.25, 0, car.tyreWidth, 13.5, kOutline);
        box(sheet, view, side < 0 ? -gauge - 2.5 : gauge, -1.3, 2.5, 1.3, kOutline);
        sheet.line(view.at(side * (gauge + 1.25), -1.3), view.at(side * (gauge + 1.25), -3.6),
                   kHeavy);
        box(sheet, view, side * (gauge + 1.25) - 2.25, -4.5, 4.5, 0.9, kFine);
    }
    sheet.circle(view.at(0, 68), car.lampDiameter / 2 / view.scale, kOutline);
    sheet.circle(view.at(0, 68), (car.lampDiameter / 2 - 0.75) / view.scale, kFine);
    sheet.dashed(view.at(0, -7), view.at(0, car.totalHeight() + 6), kHair, 0.2, 0.06);
}

void drawPlan(Sheet& sheet, const View& view, const Railcar& car) {
    const double half = car.bodyWidth / 2;
    const double length = car.bodyLength;
    box(sheet, view, 0, -half, length, car.bodyWidth, kHeavy);
    box(sheet, view, car.sheathing, -half + car.sheathing, length - 2 * car.sheathing,
        car.bodyWidth - 2 * car.sheathing, kFine);
    const double channel = car.channelSpacing / 2;
    for (const double y : {-channel, channel}) {
        level(sheet, view, 0.5, length - 0.5, y, kOutline);
        level(sheet, view, 0.5, length - 0.5, y + (y < 0 ? 2.5 : -2.5), kFine);
    }
    for (const Hoop& hoop : car.hoops) {
        for (const double edge : {-0.5, 0.5}) {
            sheet.dashed(view.at(hoop.station + edge * hoop.sided, -half),
                         view.at(hoop.station + edge * hoop.sided, half), kHair, 0.09, 0.04);
        }
    }
    for (const double axle : {car.frontOverhang, car.frontOverhang + car.wheelbase}) {
        sheet.dashed(view.at(axle, -half - 4), view.at(axle, half + 4), kHair, 0.16, 0.05);
        for (const double side : {-1.0, 1.0}) {
            const double inner = side * (car.gauge / 2 - 1.25);
            box(sheet, view, axle - 12, std::min(inner, inner + side * car.tyreWidth), 24,
                car.tyreWidth, kFine);
        }
        sheet.line(view.at(axle - 1.5, -16.75), view.at(axle - 1.5, 16.75), kFine);
        sheet.line(view.at(axle + 1.5, -16.75), view.at(axle + 1.5, 16.75), kFine);
    }
    for (const double x : {2.0, 62.0, 108.0, length - 4.5}) {
        box(sheet, view, x, -channel + 2.5, 2.5, car.channelSpacing - 5, kFine);
    }
    // Engine bed, and the seats along the sides.
    box(sheet, view, 20, -9, 30, 18, kFine);
    box(sheet, view, 58, half - 17, 18, 16, kHair);
    box(sheet, view, 100, half - 17, 38, 16, kHair);
    box(sheet, view, 58, -half + 1, 80, 16, kHair);
    for (const double end : {-car.headstockProjection, length}) {
        box(sheet, view, end, -27, car.headstockProjection, 54, kOutline);
    }
    for (const double side : {-1.0, 1.0}) {
        for (const double y : {-22.0, 22.0}) {
            const double face =
                side < 0 ? -car.headstockProjection : length + car.headstockProjection;
            const double head = face + side * car.bufferProjection;
            box(sheet, view, std::min(face, head), y - 1.5, car.bufferProjection, 3, kFine);
            box(sheet, view, std::min(head, head - side * 1.25), y - 5, 1.25, 10, kOutline);
        }
    }
    sheet.dashed(view.at(-14, 0), view.at(length + 14, 0), kHair, 0.2, 0.06);
}

}  // namespace sample
