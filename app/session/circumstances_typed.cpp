#include "app/session/from_table.h"
#include "app/session/given_text.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <vector>

namespace app::session {

namespace record = evidence::record;
namespace trade = evidence::trade;

using evidence::Code;
using evidence::Result;
using record::TableRowKind;
using trade::Circumstances;
using trade::Known;

namespace {

constexpr double kMoistureU = 1;  ///< per cent, where nothing is said: ours
constexpr double kDegreesU = 5;   ///< Fahrenheit, of the day it was measured: ours

/// Numbers in a text, each with what "±" behind it says.
struct Figure {
    double value = 0;
    std::optional<double> u;
};

std::vector<Figure> figuresIn(std::string_view text) {
    std::vector<Figure> figures;
    bool spread = false;
    for (std::size_t at = 0; at < text.size();) {
        constexpr std::string_view kPlusMinus = "±";
        if (text.substr(at).starts_with(kPlusMinus)) {
            spread = !figures.empty();
            at += kPlusMinus.size();
            continue;
        }
        if (text[at] < '0' || text[at] > '9') {
            ++at;
            continue;
        }
        Figure figure;
        const auto [end, error] =
            std::from_chars(text.data() + at, text.data() + text.size(), figure.value);
        if (error != std::errc{}) break;
        at = static_cast<std::size_t>(end - text.data());
        if (spread)
            figures.back().u = figure.value;
        else
            figures.push_back(figure);
        spread = false;
    }
    return figures;
}

tl::unexpected<evidence::Refusal> wanted(TableRowKind kind, Code code) {
    return evidence::refuse(code, "circumstances", circumstancesWanted(kind));
}

Known known(const Figure& figure, double standard) {
    return {figure.value, figure.u.value_or(standard)};
}

}  // namespace

std::string circumstancesWanted(TableRowKind kind) {
    switch (kind) {
        case TableRowKind::WoodMovement:
        case TableRowKind::WoodShrinkage:
            return "moisture now and when made, such as 7 to 12";
        case TableRowKind::CastingContraction:
            return "pattern, or copy (cast from an old part)";
        case TableRowKind::SurfaceLoss:
            return "time and open faces, such as 80 years, 2 faces";
        case TableRowKind::Coating:
            return "on how many faces: 1 or 2";
        case TableRowKind::Expansion:
            return "degrees F as measured and as meant: 40 to 68";
        case TableRowKind::SheetChange:
        case TableRowKind::Length:
        case TableRowKind::Density:
            break;
    }
    return {};
}

Result<Circumstances> circumstancesTyped(TableRowKind kind, const std::string& text) {
    Circumstances given;
    if (circumstancesWanted(kind).empty()) return given;
    if (isBlank(text)) return wanted(kind, Code::MissingKey);
    const auto figures = figuresIn(text);
    switch (kind) {
        case TableRowKind::WoodMovement:
        case TableRowKind::WoodShrinkage:
            if (figures.size() != 2) return wanted(kind, Code::BadValue);
            given.moistureNow = known(figures[0], kMoistureU);
            given.moistureThen = known(figures[1], kMoistureU);
            break;
        case TableRowKind::CastingContraction:
            if (text.find("copy") != std::string::npos)
                given.inHand = trade::InHand::CopyCasting;
            else if (text.find("pattern") != std::string::npos)
                given.inHand = trade::InHand::Pattern;
            else
                return wanted(kind, Code::BadValue);
            break;
        case TableRowKind::SurfaceLoss:
            if (figures.size() != 2) return wanted(kind, Code::BadValue);
            given.years = known(figures[0], 0);
            given.faces = static_cast<int>(std::lround(figures[1].value));
            break;
        case TableRowKind::Coating:
            if (figures.size() != 1) return wanted(kind, Code::BadValue);
            given.faces = static_cast<int>(std::lround(figures[0].value));
            break;
        case TableRowKind::Expansion:
            if (figures.size() != 2) return wanted(kind, Code::BadValue);
            given.degreesNow = known(figures[0], kDegreesU);
            given.degreesThen = known(figures[1], 0);
            break;
        case TableRowKind::SheetChange:
        case TableRowKind::Length:
        case TableRowKind::Density:
            break;
    }
    return given;
}

}  // namespace app::session
