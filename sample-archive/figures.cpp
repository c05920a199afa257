#include "sample-archive/figures.h"

#include "sample-archive/lettering.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <regex>
#include <vector>

namespace sample {

namespace {

cv::Mat1f trimmed(const cv::Mat1f& strip, int side) {
    // Letters come with margins all round; take those at the sides away but `side` pixels.
    cv::Mat1f columns;
    cv::reduce(strip, columns, 0, cv::REDUCE_MAX);
    int left = 0;
    int right = strip.cols - 1;
    while (left < right && columns(0, left) < 0.02F) ++left;
    while (right > left && columns(0, right) < 0.02F) --right;
    left = std::max(0, left - side);
    right = std::min(strip.cols - 1, right + side);
    return strip.colRange(left, right + 1).clone();
}

cv::Mat1f fraction(const std::string& above, const std::string& below, double capHeight) {
    const double small = capHeight * 0.62;
    const double pen = capHeight * 0.095;
    const cv::Mat1f top = trimmed(lettered(above, small, cv::FONT_HERSHEY_SIMPLEX, pen), 1);
    const cv::Mat1f bottom = trimmed(lettered(below, small, cv::FONT_HERSHEY_SIMPLEX, pen), 1);
    const int width = std::max(top.cols, bottom.cols) + 4;
    const int height = static_cast<int>(capHeight * 2.6);
    cv::Mat1f strip(height, width, 0.0F);
    const auto put = [&](const cv::Mat1f& piece, double middle) {
        const int y0 = static_cast<int>(middle) - piece.rows / 2;
        for (int y = 0; y < piece.rows; ++y) {
            for (int x = 0; x < piece.cols; ++x) {
                const int ty = y + y0;
                const int tx = x + (width - piece.cols) / 2;
                if (ty >= 0 && ty < height) strip(ty, tx) = std::max(strip(ty, tx), piece(y, x));
            }
        }
    };
    put(top, height / 2.0 - capHeight * 0.52);
    put(bottom, height / 2.0 + capHeight * 0.55);
    const int bar = std::max(1, static_cast<int>(std::lround(pen)));
    strip.rowRange(height / 2 - bar / 2, height / 2 - bar / 2 + bar).setTo(1.0);
    return strip;
}

}  // namespace

cv::Mat1f figureStrip(const std::string& words, double capHeight) {
    const double pen = capHeight * 0.11;
    const int gap = std::max(1, static_cast<int>(capHeight * 0.12));
    std::vector<cv::Mat1f> pieces;
    const auto plain = [&](const std::string& text) {
        if (text.find_first_not_of(' ') == std::string::npos) return;
        pieces.push_back(trimmed(lettered(text, capHeight, cv::FONT_HERSHEY_SIMPLEX, pen), gap));
    };
    static const std::regex kFraction(R"( ?(\d+)/(\d+))");
    auto begin = words.cbegin();
    std::smatch found;
    while (std::regex_search(begin, words.cend(), found, kFraction)) {
        plain(std::string(begin, begin + found.position()));
        if (found.position() > 0 &&
            std::isalpha(static_cast<unsigned char>(*(begin + found.position() - 1))) != 0) {
            const int space = static_cast<int>(capHeight * 0.5);
            pieces.emplace_back(pieces.back().rows, space, 0.0F);
        }
        pieces.push_back(fraction(found[1], found[2], capHeight));
        begin += found.position() + found.length();
    }
    plain(std::string(begin, words.cend()));
    int width = 0;
    int height = 0;
    for (const cv::Mat1f& piece : pieces) {
        width += piece.cols;
        height = std::max(height, piece.rows);
    }
    cv::Mat1f strip(std::max(1, height), std::max(1, width), 0.0F);
    int x = 0;
    for (const cv::Mat1f& piece : pieces) {
        piece.copyTo(strip(cv::Rect(x, (height - piece.rows) / 2, piece.cols, piece.rows)));
        x += piece.cols;
    }
    return strip;
}

void dimensionLine(Sheet& sheet, const cv::Point2d& a, const cv::Point2d& b, double offset,
                   const std::string& figure, double capHeight) {
    constexpr double kPen = 0.0055;
    constexpr double kArrow = 0.11;
    const cv::Point2d along = (b - a) / std::hypot(b.x - a.x, b.y - a.y);
    const cv::Point2d out = cv::Point2d(along.y, -along.x) * (offset < 0 ? -1.0 : 1.0);
    const double run = std::abs(offset);
    const cv::Point2d from = a + out * run;
    const cv::Point2d to = b + out * run;
    sheet.line(a + out * 0.05, from + out * 0.06, kPen);
    sheet.line(b + out * 0.05, to + out * 0.06, kPen);
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const bool upward = std::abs(along.y) > std::abs(along.x);
    const double width = sheet.textWidth(figure, capHeight) + 0.06;
    const cv::Point2d middle = (from + to) / 2;
    const Turn turn = upward ? Turn::Upward : Turn::None;
    if (length > width + 2.2 * kArrow) {
        sheet.line(from, middle - along * (width / 2), kPen);
        sheet.line(middle + along * (width / 2), to, kPen);
        sheet.arrow(from, -along, kArrow);
        sheet.arrow(to, along, kArrow);
        sheet.text(figure, middle, capHeight, turn);
    } else {
        // No room between the arrows: they point inward and the figure stands beyond.
        sheet.line(from - along * 0.28, from, kPen);
        sheet.line(to, to + along * 0.28, kPen);
        sheet.arrow(from, along, kArrow);
        sheet.arrow(to, -along, kArrow);
        if (length > width) {
            sheet.text(figure, middle, capHeight, turn);
        } else {
            sheet.text(figure, to + along * (0.32 + width / 2), capHeight, turn);
        }
    }
}

}  // namespace sample
