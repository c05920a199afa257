#include "sample-archive/drawings.h"
#include "sample-archive/figures.h"
#include "sample-archive/sheet_furniture.h"

#include <cmath>
#include <numbers>

namespace sample {

namespace {

constexpr double kHeavy = 0.022;
constexpr double kFine = 0.008;
constexpr double kHair = 0.005;

struct HoopFigures {
    const char* rise;
    const char* crown;
    const char* knee;
    const char* radius;
};

void drawHoop(Sheet& sheet, const View& view, const Railcar& car, const Hoop& hoop,
              const HoopFigures& figures, const std::string& name) {
    const double foot = car.sillTop;
    const double half = car.bodyWidth / 2 - car.sheathing;
    std::vector<cv::Point2d> outer;
    std::vector<cv::Point2d> inner;
    outer.push_back(view.at(half, foot));
    inner.push_back(view.at(half - hoop.mouldedKnee, foot));
    const std::vector<cv::Point2d> outline = hoopOutline(car, hoop, 0);
    for (std::size_t i = 0; i < outline.size(); ++i) {
        // The hoop is deepest at the knees and fines down to the crown.
        const double share = std::abs(std::cos(std::numbers::pi * static_cast<double>(i) /
                                               static_cast<double>(outline.size() - 1)));
        const double depth = hoop.mouldedCrown + (hoop.mouldedKnee - hoop.mouldedCrown) * share;
        const cv::Point2d place = outline[i];
        const double x = place.x * half / (car.bodyWidth / 2);
        outer.push_back(view.at(x, place.y));
        const double inside = (half - depth) / half;
        inner.push_back(view.at(x * inside, car.cantrailTop + (place.y - car.cantrailTop) *
                                                                  (hoop.rise - depth) / hoop.rise));
    }
    outer.push_back(view.at(-half, foot));
    inner.push_back(view.at(-half + hoop.mouldedKnee, foot));
    sheet.polyline(outer, kHeavy);
    sheet.polyline(inner, kHeavy);
    sheet.line(outer.front(), inner.front(), kHeavy);
    sheet.line(outer.back(), inner.back(), kHeavy);
    sheet.line(view.at(half, car.cantrailTop), view.at(-half, car.cantrailTop), kFine);
    for (const double y : {car.cantrailBottom, car.waistTop, car.waistBottom}) {
        for (const double side : {-1.0, 1.0}) {
            sheet.line(view.at(side * half, y), view.at(side * (half - 1.25), y), kFine);
        }
    }
    sheet.dashed(view.at(0, foot - 4), view.at(0, car.cantrailTop + hoop.rise + 5), kHair, 0.2,
                 0.06);
    dimensionLine(sheet, view.at(-half, foot), view.at(half, foot), -0.35, "5'-0 3/4\"");
    dimensionLine(sheet, view.at(0, car.cantrailTop), view.at(0, car.cantrailTop + hoop.rise), 0.0,
                  figures.rise, 0.10);
    dimensionLine(sheet, view.at(-7, car.cantrailTop + hoop.rise - 0.2),
                  view.at(-7, car.cantrailTop + hoop.rise - 0.2 - hoop.mouldedCrown), 0.0,
                  figures.crown, 0.09);
    dimensionLine(sheet, view.at(half - hoop.mouldedKnee, 66), view.at(half, 66), 0.0, figures.knee,
                  0.09);
    sheet.text(figures.radius, view.at(19, 77), 0.09);
    sheet.line(view.at(19, 79), view.at(25, 85), kHair);
    sheet.text(name, view.at(0, 48), 0.16);
    sheet.text("SIDED 1 3/4\" OAK", view.at(0, 42), 0.10);
}

}  // namespace

Drawing drawHoops(const Railcar& car, std::uint64_t seed) {
    SheetMaking making;
    making.width = 14.5;
    making.height = 9.5;
    making.dpi = 300;
    making.shrinkX = 0.9975;
    making.shrinkY = 0.9925;
    making.rotation = 0.0011;
    Sheet sheet(making);
    const View second{{3.9, 9.2}, 12, 1.0};
    const View ninth{{10.3, 9.2}, 12, 1.0};
    drawHoop(sheet, second, car, car.hoops[1], {"RISE 14\"", "2 1/4\"", "3\"", "RAD. 9\""},
             "HOOP No. 2");
    drawHoop(sheet, ninth, car, car.hoops[8], {"RISE 17 1/2\"", "2 3/4\"", "3 3/4\"", "RAD. 11\""},
             "HOOP No. 9");
    drawBorder(sheet, 0.4);
    sheet.text("ALL RADII TO INSIDE OF HOOP. RISE FROM TOP OF CANTRAIL TO OUTSIDE OF CROWN.",
               {5.2, 8.85}, 0.08);
    drawTitleBlock(sheet, {11.2, 7.8}, {14.0, 9.0},
                   {"C. V. L. R.  CORRAN SHOPS", "CAR \"TEAL\" BODY HOOPS", "Nos. 2 AND 9 ONLY",
                    "SCALE 1\" TO 1 FOOT", "J. A. P.  APRIL 1911", "DRG. No. 49"});
    Support paper;
    paper.tint = {0.74, 0.85, 0.90};
    paper.blotches = 0.03;
    paper.fibre = 0.004;
    const double w = making.width * making.dpi;
    const double h = making.height * making.dpi;
    paper.folds = {{{0.49 * w, 0}, {0.492 * w, 1.05 * h}}, {{0, 0.55 * h}, {1.05 * w, 0.548 * h}}};
    paper.stains = {{{0.83 * w, 0.22 * h}, 300, 0.08}, {{0.12 * w, 0.75 * h}, 200, 0.06}};
    cv::Mat3b picture = sheet.scanned(paper, 0.86, {0.20, 0.17, 0.17}, seed + 13);
    return {std::move(picture), std::move(sheet), second, ninth, second};
}

}  // namespace sample
