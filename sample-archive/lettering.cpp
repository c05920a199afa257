#include "sample-archive/lettering.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace sample {

namespace {

constexpr int kOversize = 4;

void place(cv::Mat1f& onto, const cv::Mat1f& piece, cv::Point middle) {
    const cv::Rect whole(0, 0, onto.cols, onto.rows);
    const cv::Rect wanted(middle.x - piece.cols / 2, middle.y - piece.rows / 2, piece.cols,
                          piece.rows);
    const cv::Rect kept = wanted & whole;
    cv::Mat1f target = onto(kept);
    const cv::Mat1f source = piece(kept - wanted.tl());
    cv::Mat stronger;
    cv::max(cv::Mat(target), cv::Mat(source), stronger);
    stronger.copyTo(target);
}

int pixels(double inches, double resolution) {
    return static_cast<int>(std::lround(inches * resolution));
}

}  // namespace

cv::Mat1f lettered(const std::string& text, double capHeight, int font, double strokeWidth) {
    // Hershey capitals of OpenCV are 21 units high at scale 1 (22 with the stroke).
    const double scale = capHeight * kOversize / 21.0;
    const int thickness = std::max(1, static_cast<int>(std::lround(strokeWidth * kOversize)));
    int baseline = 0;
    const cv::Size size = cv::getTextSize(text, font, scale, thickness, &baseline);
    const int margin = 2 * thickness + 4 * kOversize;
    cv::Mat1b large(size.height + baseline + 2 * margin, size.width + 2 * margin, uchar{0});
    cv::putText(large, text, {margin, margin + size.height}, font, scale, 255, thickness,
                cv::LINE_AA);
    cv::Mat1b small;
    cv::resize(large, small, {large.cols / kOversize, large.rows / kOversize}, 0, 0,
               cv::INTER_AREA);
    cv::Mat1f coverage;
    small.convertTo(coverage, CV_32F, 1.0 / 255);
    return coverage;
}

cv::Mat1f plateFace(double length, double height, double resolution) {
    const cv::Size size(pixels(length, resolution), pixels(height, resolution));
    cv::Mat1f ink(size, 0.0F);
    const int rule = pixels(0.16, resolution);
    // A broad white margin: nothing runs beside the plate's edge that could be taken for it.
    const int inset = pixels(0.85, resolution);
    cv::rectangle(ink, {inset, inset}, {size.width - 1 - inset, size.height - 1 - inset}, 1.0,
                  rule);
    const cv::Mat1f name =
        lettered("TEAL", 1.6 * resolution, cv::FONT_HERSHEY_TRIPLEX, 0.20 * resolution);
    const cv::Mat1f owner =
        lettered("C.V.L.R.", 0.75 * resolution, cv::FONT_HERSHEY_DUPLEX, 0.09 * resolution);
    const cv::Mat1f number =
        lettered("No. 4", 0.75 * resolution, cv::FONT_HERSHEY_DUPLEX, 0.09 * resolution);
    const int middle = size.height / 2;
    place(ink, name, {size.width / 2, middle});
    place(ink, owner, {pixels(3.75, resolution), middle});
    place(ink, number, {size.width - pixels(3.35, resolution), middle});
    for (const int x : {pixels(0.5, resolution), size.width - pixels(0.5, resolution)}) {
        cv::circle(ink, {x, pixels(0.5, resolution)}, pixels(0.13, resolution), 0.8, cv::FILLED);
    }
    cv::Mat1f light;
    ink.convertTo(light, CV_32F, -0.85, 0.93);
    return light;
}

cv::Mat1f sideLetters(double length, double height, double resolution) {
    cv::Mat1f gilt(pixels(height, resolution), pixels(length, resolution), 0.0F);
    const auto place1 = [&](const std::string& text, double x) {
        const cv::Mat1f word =
            lettered(text, 5.0 * resolution, cv::FONT_HERSHEY_TRIPLEX, 0.55 * resolution);
        place(gilt, word, {pixels(x, resolution), pixels(height / 2, resolution)});
    };
    place1("CORRAN", 47.5);
    place1("VALLEY", 128.5);
    return gilt;
}

double wordLength(const std::string& text, double capHeight) {
    constexpr double kFine = 40.0;
    const cv::Mat1f word =
        lettered(text, capHeight * kFine, cv::FONT_HERSHEY_TRIPLEX, 0.11 * capHeight * kFine);
    cv::Mat1f columns;
    cv::reduce(word, columns, 0, cv::REDUCE_MAX);
    int first = 0;
    int last = columns.cols - 1;
    while (first < last && columns(0, first) < 0.5F) ++first;
    while (last > first && columns(0, last) < 0.5F) --last;
    return (last - first + 1) / kFine;
}

}  // namespace sample
