#include "sample-archive/sheet.h"

#include "sample-archive/figures.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sample {

Sheet::Sheet(const SheetMaking& making)
    : m_making(making),
      m_ink(static_cast<int>(std::lround((making.height + 2 * making.margin) * making.dpi)),
            static_cast<int>(std::lround((making.width + 2 * making.margin) * making.dpi)), 0.0F) {}

cv::Point2d Sheet::pixel(const cv::Point2d& place) const {
    const cv::Point2d middle(m_making.width / 2, m_making.height / 2);
    const cv::Point2d from((place.x - middle.x) * m_making.shrinkX,
                           (place.y - middle.y) * m_making.shrinkY);
    const double c = std::cos(m_making.rotation);
    const double s = std::sin(m_making.rotation);
    const cv::Point2d turned(c * from.x - s * from.y, s * from.x + c * from.y);
    const cv::Point2d bed((m_ink.cols - 1) / 2.0, (m_ink.rows - 1) / 2.0);
    return bed + turned * m_making.dpi;
}

void Sheet::line(const cv::Point2d& a, const cv::Point2d& b, double width) {
    const cv::Point2d p = pixel(a);
    const cv::Point2d along = pixel(b) - p;
    const double half = width * m_making.dpi / 2;
    const double length2 = std::max(1e-12, along.dot(along));
    const int margin = static_cast<int>(half) + 2;
    const int top = std::max(0, static_cast<int>(std::min(p.y, p.y + along.y)) - margin);
    const int bottom =
        std::min(m_ink.rows - 1, static_cast<int>(std::max(p.y, p.y + along.y)) + margin);
    const bool steep = std::abs(along.y) > 1e-9;
    for (int y = top; y <= bottom; ++y) {
        // Only the columns the stroke can reach in this row.
        double low = std::min(p.x, p.x + along.x);
        double high = std::max(p.x, p.x + along.x);
        if (steep && std::abs(along.x) > 1e-9) {
            const double reach = (half + 2) / std::abs(along.y) * std::sqrt(length2) + 1;
            const double at = p.x + along.x * std::clamp((y - p.y) / along.y, 0.0, 1.0);
            low = std::max(low, at - reach);
            high = std::min(high, at + reach);
        }
        const int left = std::max(0, static_cast<int>(low) - margin);
        const int right = std::min(m_ink.cols - 1, static_cast<int>(high) + margin);
        float* row = m_ink.ptr<float>(y);
        for (int x = left; x <= right; ++x) {
            const cv::Point2d from(x - p.x, y - p.y);
            const double share = std::clamp(from.dot(along) / length2, 0.0, 1.0);
            const cv::Point2d off = from - along * share;
            const double covered = std::clamp(0.5 + half - std::hypot(off.x, off.y), 0.0, 1.0);
            row[x] = std::max(row[x], static_cast<float>(covered));
        }
    }
}

void Sheet::polyline(const std::vector<cv::Point2d>& places, double width) {
    for (std::size_t i = 1; i < places.size(); ++i) line(places[i - 1], places[i], width);
}

void Sheet::dashed(const cv::Point2d& a, const cv::Point2d& b, double width, double dash,
                   double gap) {
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const cv::Point2d unit = (b - a) / length;
    for (double at = 0; at < length; at += dash + gap) {
        line(a + unit * at, a + unit * std::min(length, at + dash), width);
    }
}

void Sheet::rectangle(const cv::Point2d& a, const cv::Point2d& b, double width) {
    polyline({a, {b.x, a.y}, b, {a.x, b.y}, a}, width);
}

void Sheet::circle(const cv::Point2d& centre, double radius, double width) {
    constexpr int kSides = 96;
    std::vector<cv::Point2d> places;
    for (int i = 0; i <= kSides; ++i) {
        const double turn = 2 * std::numbers::pi * i / kSides;
        places.push_back(centre + cv::Point2d(std::cos(turn), std::sin(turn)) * radius);
    }
    polyline(places, width);
}

void Sheet::arrow(const cv::Point2d& tip, const cv::Point2d& direction, double size) {
    const double length = std::hypot(direction.x, direction.y);
    const cv::Point2d unit = direction / length;
    const cv::Point2d across(-unit.y, unit.x);
    constexpr int kStrokes = 36;
    for (int i = 1; i <= kStrokes; ++i) {
        const double back = size * i / kStrokes;
        const double half = back * 0.16;
        const cv::Point2d middle = tip - unit * back;
        line(middle - across * half, middle + across * half, 1.6 * size / kStrokes);
    }
}

void Sheet::fill(const cv::Point2d& a, const cv::Point2d& b) {
    const double step = 0.8 / m_making.dpi;
    const double top = std::min(a.y, b.y);
    const double bottom = std::max(a.y, b.y);
    for (double y = top; y <= bottom; y += step) line({a.x, y}, {b.x, y}, 1.2 / m_making.dpi);
}

double Sheet::textWidth(const std::string& words, double capHeight) const {
    return figureStrip(words, capHeight * m_making.dpi).cols / m_making.dpi;
}

void Sheet::text(const std::string& words, const cv::Point2d& centre, double capHeight, Turn turn) {
    cv::Mat1f strip = figureStrip(words, capHeight * m_making.dpi);
    if (turn == Turn::Upward) cv::rotate(strip, strip, cv::ROTATE_90_COUNTERCLOCKWISE);
    stamp(strip, pixel(centre));
}

void Sheet::stamp(const cv::Mat1f& coverage, const cv::Point2d& centrePixel) {
    const cv::Rect wanted(static_cast<int>(std::lround(centrePixel.x)) - coverage.cols / 2,
                          static_cast<int>(std::lround(centrePixel.y)) - coverage.rows / 2,
                          coverage.cols, coverage.rows);
    const cv::Rect kept = wanted & cv::Rect(0, 0, m_ink.cols, m_ink.rows);
    for (int y = kept.y; y < kept.y + kept.height; ++y) {
        for (int x = kept.x; x < kept.x + kept.width; ++x) {
            m_ink(y, x) = std::max(m_ink(y, x), coverage(y - wanted.y, x - wanted.x));
        }
    }
}

cv::Mat3b Sheet::scanned(const Support& support, double inkStrength, const cv::Vec3d& inkColour,
                         std::uint64_t seed) const {
    cv::Mat1f ink = m_ink.clone();
    blur(ink, 0.0022 * m_making.dpi);
    const cv::Mat3f ground = supportGround(m_ink.size(), support, seed);
    const cv::Point2d corner1 = pixel({0, 0});
    const cv::Point2d corner2 = pixel({m_making.width, m_making.height});
    cv::Mat3b scan(m_ink.size());
    cv::parallel_for_({0, scan.rows}, [&](const cv::Range& rows) {
        for (int y = rows.start; y < rows.end; ++y) {
            for (int x = 0; x < scan.cols; ++x) {
                // Outside the sheet lies the scanner's pale lid.
                const double edge =
                    std::min({x - corner1.x, corner2.x - x, y - corner1.y, corner2.y - y});
                const double onSheet = std::clamp(edge / 2 + 0.5, 0.0, 1.0);
                const double lip = edge < 0 ? -0.10 * std::exp(edge / 8) : 0.0;
                const double share = inkStrength * static_cast<double>(ink(y, x));
                for (int channel = 0; channel < 3; ++channel) {
                    const double paper = onSheet * static_cast<double>(ground(y, x)[channel]) +
                                         (1 - onSheet) * (0.985 + lip);
                    const double value = paper * (1 - share) + inkColour[channel] * share;
                    scan(y, x)[channel] = cv::saturate_cast<uchar>(value * 255);
                }
            }
        }
    });
    return scan;
}

}  // namespace sample
