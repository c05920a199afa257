#include "imaging/raster/exif_block.h"

#include <exiv2/error.hpp>
#include <exiv2/exif.hpp>
#include <exiv2/tags.hpp>

#include <exception>

namespace imaging::raster {
namespace {

const Exiv2::Exifdatum* find(const Exiv2::ExifData& data, const char* key) {
    const auto it = data.findKey(Exiv2::ExifKey(key));
    return it == data.end() || it->count() == 0 ? nullptr : &*it;
}

std::optional<double> rational(const Exiv2::Exifdatum* datum) {
    if (datum == nullptr) {
        return std::nullopt;
    }
    const Exiv2::Rational value = datum->toRational();
    // A zero denominator is kept as a claim that is no number, so that it is told and left out.
    return value.second == 0 ? 0.0 : static_cast<double>(value.first) / value.second;
}

}  // namespace

ExifFacts readExif(std::span<const std::uint8_t> block) {
    ExifFacts facts;
    if (block.empty()) {
        return facts;
    }
    try {
        Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
        Exiv2::ExifData data;
        Exiv2::ExifParser::decode(data, block.data(), static_cast<std::uint32_t>(block.size()));
        if (const auto* datum = find(data, "Exif.Image.Orientation")) {
            facts.orientation = static_cast<int>(datum->toLong());
        }
        if (const auto* datum = find(data, "Exif.Photo.DateTimeOriginal")) {
            facts.taken = datum->toString();
        }
        const auto x = rational(find(data, "Exif.Image.XResolution"));
        const auto y = rational(find(data, "Exif.Image.YResolution"));
        if (x && y) {
            const auto* unit = find(data, "Exif.Image.ResolutionUnit");
            const long code = unit == nullptr ? 2 : unit->toLong();
            facts.unitAssumed = unit == nullptr;
            if (code == 1) {
                if (*x > 0 && *y > 0) {
                    facts.pixelAspect = *y / *x;
                }
            } else {
                facts.resolution = ResolutionClaim{*x, *y, code == 3 ? "cm" : "in", "EXIF"};
            }
        }
    } catch (const std::exception&) {
        // Metadata may be anything; what was read before the fault stays.
        return facts;
    }
    return facts;
}

void applyExif(const ExifFacts& exif, SheetHeader& sheet) {
    if (exif.orientation) {
        sheet.orientation = *exif.orientation;
    }
    if (exif.resolution) {
        sheet.resolution.push_back(*exif.resolution);
        if (exif.unitAssumed) {
            sheet.notes.emplace_back(
                "EXIF gives a resolution without a unit: inch, by the format's default");
        }
    }
    if (exif.pixelAspect && !sheet.pixelAspect) {
        sheet.pixelAspect = exif.pixelAspect;
    }
}

}  // namespace imaging::raster
