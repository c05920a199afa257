#include "app/session/print_of_page.h"

#include "app/session/given_text.h"
#include "evidence-core/frame/printed.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/record/lookup.h"
#include "imaging/raster/header.h"

#include <fmt/format.h>

namespace app::session {

namespace quantity = evidence::quantity;
namespace record = evidence::record;

using evidence::Code;
using evidence::Result;

namespace {

Result<double> positive(const std::string& text, quantity::Unit bare, const char* place,
                        const char* help) {
    const auto number = quantity::parseQuantity(text, quantity::Measure::Number, bare);
    if (!number || !(number->canonical > 0)) return evidence::refuse(Code::BadValue, place, help);
    return number->canonical;
}

Result<double> drawnScaleOf(const std::string& text) {
    constexpr auto kPlace = "print/drawn_scale";
    constexpr auto kHelp = "Write the drawn scale as 1:24, or as 24.";
    const auto colon = text.find(':');
    if (colon == std::string::npos) return positive(text, quantity::Unit::One, kPlace, kHelp);
    auto paper = positive(text.substr(0, colon), quantity::Unit::One, kPlace, kHelp);
    auto thing = positive(text.substr(colon + 1), quantity::Unit::One, kPlace, kHelp);
    if (!paper) return paper;
    if (!thing) return thing;
    return *thing / *paper;
}

}  // namespace

Result<record::Print> printTyped(const std::string& dpi, const std::string& drawnScale,
                                 const std::string& withinPercent) {
    record::Print print;
    if (!isBlank(dpi)) {
        const auto number =
            positive(dpi, quantity::Unit::One, "print/dpi",
                     "Write the resolution of the scan in pixels per inch, as 400.");
        if (!number) return tl::unexpected(number.error());
        print.dpi = *number;
    }
    if (!isBlank(drawnScale)) {
        const auto scale = drawnScaleOf(drawnScale);
        if (!scale) return tl::unexpected(scale.error());
        print.drawnScale = *scale;
    }
    if (!isBlank(withinPercent)) {
        const auto within = positive(withinPercent, quantity::Unit::Percent, "print/u_relative",
                                     "Write a standard uncertainty above 0 in per cent, as 0.5.");
        if (!within) return tl::unexpected(within.error());
        print.uRelative = *within;
    }
    return print;
}

std::vector<std::string> resolutionClaims(const std::filesystem::path& original, int page) {
    std::vector<std::string> claims;
    const auto header = imaging::raster::readHeader(original);
    if (!header) return claims;
    for (const auto& sheet : header->sheets) {
        if (sheet.page != page) continue;
        for (const auto& claim : sheet.resolution) {
            const auto figure = claim.x == claim.y ? fmt::format("{:g}", claim.x)
                                                   : fmt::format("{:g} × {:g}", claim.x, claim.y);
            claims.push_back(fmt::format("{} per {} ({})", figure, claim.per, claim.claimedBy));
        }
    }
    return claims;
}

double defaultShrinkagePercent(const record::Register& reg) {
    const auto settings = reg.archive.settings.value_or(record::Settings{});
    return 100 * settings.printURelative.value_or(evidence::frame::kPrintedRelativeDefault);
}

std::string pageName(const PageOfFile& page, const record::Register& reg) {
    const auto* source = record::sourceOf(reg, page.file);
    const auto* file = record::find(reg, page.file);
    if (!source || !file) return fmt::format("page {}", page.page);
    auto name = source->code ? fmt::format("{} ({})", source->title, *source->code) : source->title;
    if (file->pages.value_or(1) > 1) name += fmt::format(", page {}", page.page);
    return name;
}

}  // namespace app::session
