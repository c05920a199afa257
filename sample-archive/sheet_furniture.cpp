#include "sample-archive/sheet_furniture.h"

#include <fmt/format.h>

#include <algorithm>

namespace sample {

void drawBorder(Sheet& sheet, double margin) {
    const SheetMaking& making = sheet.making();
    const cv::Point2d far(making.width - margin, making.height - margin);
    sheet.rectangle({margin, margin}, far, 0.028);
    constexpr double kInner = 0.07;
    sheet.rectangle({margin + kInner, margin + kInner}, far - cv::Point2d(kInner, kInner), 0.006);
}

void drawTitleBlock(Sheet& sheet, const cv::Point2d& from, const cv::Point2d& to,
                    const TitleBlock& block) {
    sheet.rectangle(from, to, 0.018);
    const double width = to.x - from.x;
    const double height = to.y - from.y;
    const auto row = [&](const std::string& words, double share, double cap) {
        const double room = width - 0.2;
        const double fitted = std::min(cap, cap * room / sheet.textWidth(words, cap));
        sheet.text(words, {from.x + width / 2, from.y + height * share}, fitted);
    };
    row(block.owner, 0.13, 0.13);
    row(block.subject, 0.34, 0.15);
    row(block.title, 0.53, 0.13);
    row(block.scale, 0.69, 0.09);
    row(block.drawn, 0.82, 0.08);
    row(block.number, 0.93, 0.09);
    sheet.line({from.x, from.y + height * 0.22}, {to.x, from.y + height * 0.22}, 0.006);
    sheet.line({from.x, from.y + height * 0.61}, {to.x, from.y + height * 0.61}, 0.006);
}

void drawScaleBar(Sheet& sheet, const cv::Point2d& from, double scale, int feet) {
    const double foot = 12 / scale;
    constexpr double kDepth = 0.05;
    sheet.rectangle(from, from + cv::Point2d(foot * (feet + 1), kDepth), 0.007);
    for (int part = 0; part < 12; part += 3) {
        const double x = from.x + foot * part / 12;
        sheet.line({x, from.y - 0.03}, {x, from.y + kDepth}, 0.006);
        if (part % 6 == 0) sheet.fill({x, from.y}, {x + foot / 4, from.y + kDepth});
    }
    for (int i = 0; i <= feet; ++i) {
        const double x = from.x + foot * (i + 1);
        sheet.line({x, from.y - 0.06}, {x, from.y + kDepth}, 0.008);
        sheet.text(fmt::format("{}", i), {x, from.y - 0.13}, 0.07);
        if (i < feet && i % 2 == 0) sheet.fill({x, from.y}, {x + foot, from.y + kDepth});
    }
    sheet.line({from.x, from.y - 0.06}, {from.x, from.y + kDepth}, 0.008);
    sheet.text("12", {from.x, from.y - 0.13}, 0.07);
    sheet.text("INCHES", {from.x + foot / 2, from.y + 0.14}, 0.06);
    sheet.text("FEET", {from.x + foot * (1 + feet / 2.0), from.y + 0.14}, 0.06);
}

}  // namespace sample
