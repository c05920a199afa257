#include "tests/app/desk/page/drawn_page.h"

#include <QTest>
#include <gtest/gtest.h>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

namespace tests::app::page {

namespace {

constexpr double kDark = 60;
constexpr double kLight = 200;

cv::Mat softened(cv::Mat page) {
    cv::GaussianBlur(page, page, {0, 0}, 1.0);
    cv::Mat noise(page.size(), CV_32F);
    cv::RNG chance(20260511);
    chance.fill(noise, cv::RNG::NORMAL, 0, 1.5);
    cv::Mat pixels;
    page.convertTo(page, CV_32F);
    cv::Mat(page + noise).convertTo(pixels, CV_8U);
    return pixels;
}

}  // namespace

cv::Mat pageWithBars(int width, int height, const std::vector<Bar>& bars) {
    cv::Mat page(height, width, CV_32F, cv::Scalar(kLight));
    for (const Bar& bar : bars)
        page(cv::Rect(bar.left, bar.top, bar.width, bar.height)).setTo(cv::Scalar(kDark));
    return softened(page);
}

cv::Mat pageWithDisc(int width, int height, double x, double y, double radius) {
    // Each pixel by the share of it that the disc covers, from 8 × 8 samples.
    constexpr int kSamples = 8;
    cv::Mat page(height, width, CV_32F);
    for (int row = 0; row < height; ++row)
        for (int column = 0; column < width; ++column) {
            int inside = 0;
            for (int i = 0; i < kSamples; ++i)
                for (int j = 0; j < kSamples; ++j) {
                    const double px = column - 0.5 + (j + 0.5) / kSamples;
                    const double py = row - 0.5 + (i + 0.5) / kSamples;
                    if (std::hypot(px - x, py - y) < radius) ++inside;
                }
            const double share = static_cast<double>(inside) / (kSamples * kSamples);
            page.at<float>(row, column) = static_cast<float>(kLight + share * (kDark - kLight));
        }
    return softened(page);
}

void writePage(const std::filesystem::path& file, const cv::Mat& pixels) {
    ASSERT_TRUE(cv::imwrite(file.string(), pixels));
}

Desk::Desk(const std::filesystem::path& folder) {
    auto archive = ::app::session::Archive::create(
        folder, "Test", {"Anna", [] { return std::string("2026-05-11T09:00:00Z"); }});
    if (!archive) throw std::runtime_error(archive.error().help);
    open = std::make_unique<::app::desk::OpenRegister>(std::move(*archive));
    analyst = std::make_unique<::app::desk::Analyst>(*open);
    selection = std::make_unique<::app::desk::Selection>(*open);
}

void Desk::takeIn(const std::filesystem::path& file) {
    const auto outcome = open->takeIn({file});
    ASSERT_TRUE(outcome) << outcome.error().help;
    const auto& source = open->snapshot()->reg.sources.back();
    selection->choose(evidence::record::any(source.id));
}

void Desk::waitUntilJudged() {
    ASSERT_TRUE(QTest::qWaitFor(
        [this] {
            return !analyst->atWork() && analyst->judged() &&
                   analyst->judged()->snapshot->version == open->snapshot()->version;
        },
        20000));
}

}  // namespace tests::app::page
