#include "imaging/raster/inspect.h"

#include "imaging/raster/file_bytes.h"
#include "imaging/raster/media_type.h"
#include "imaging/raster/raster.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace imaging::raster {
namespace {

using Json = nlohmann::ordered_json;

Json resolutionJson(const SheetHeader& sheet) {
    Json claims = Json::array();
    for (const ResolutionClaim& claim : sheet.resolution) {
        claims.push_back(
            {{"x", claim.x}, {"y", claim.y}, {"per", claim.per}, {"claimed_by", claim.claimedBy}});
    }
    return claims;
}

/// Damage as ranges [first, last] of rows, or of columns for pages turned by 90 degrees.
void addDamage(const Raster& raster, Json& sheet) {
    sheet["complete"] = raster.complete;
    Json rows = Json::array();
    Json columns = Json::array();
    const bool turned = raster.header.orientation >= 5;
    for (const cv::Rect& area : raster.unreadable) {
        if (turned && area.width < raster.pixels.cols) {
            columns.push_back(Json::array({area.x, area.x + area.width - 1}));
        } else {
            rows.push_back(Json::array({area.y, area.y + area.height - 1}));
        }
    }
    sheet["unreadable_rows"] = rows;
    if (!columns.empty()) {
        sheet["unreadable_columns"] = columns;
    }
}

Json pixelJson(const Raster& raster, InspectedPixel at) {
    const cv::Mat shown = toDisplay8(raster, cv::Rect(at.x, at.y, 1, 1));
    const auto* p = shown.ptr<std::uint8_t>(0);
    const int step = shown.channels() == 1 ? 0 : 1;
    return {{"x", at.x},
            {"y", at.y},
            {"stored", storedValue(raster, at.x, at.y)},
            {"shown", {p[0], p[step], p[2 * step]}}};
}

struct Page {
    Json json;
    std::optional<Refusal> refused;
};

Result<Page> inspectPage(const std::filesystem::path& file, const SheetHeader& header,
                         std::optional<InspectedPixel> at, const Budget& budget) {
    Page page;
    Json& sheet = page.json;
    sheet = {{"page", header.page},
             {"width", header.width},
             {"height", header.height},
             {"orientation", header.orientation},
             {"bits", header.bits},
             {"channels", header.channels},
             {"resolution", resolutionJson(header)}};
    const auto size = claimedSize(header);
    sheet["size_in"] = size ? Json::array({size->width, size->height}) : Json(nullptr);
    if (header.pixelAspect) {
        sheet["pixel_aspect"] = *header.pixelAspect;
    }
    Json notes = header.notes;
    const auto raster = decodePage(file, header.page, budget);
    if (!raster) {
        page.refused = raster.error();
        sheet["complete"] = false;
        sheet["unreadable_rows"] = Json::array();
        sheet["notes"] = notes;
        return page;
    }
    for (const std::string& note : raster->notes) {
        notes.push_back(note);
    }
    addDamage(*raster, sheet);
    if (at && header.page == 1) {
        if (at->x < 0 || at->y < 0 || at->x >= header.width || at->y >= header.height) {
            return refuse(Code::OutsideSheet, file.string(),
                          fmt::format("pixel {},{} is outside page 1, which is {} x {} px", at->x,
                                      at->y, header.width, header.height));
        }
        sheet["at"] = pixelJson(*raster, *at);
    }
    sheet["notes"] = notes;
    return page;
}

Result<Json> inspectFile(const std::filesystem::path& file, std::optional<InspectedPixel> at,
                         const Budget& budget) {
    const auto kind = recognise(file);
    if (!kind) {
        return tl::unexpected(kind.error());
    }
    Json json = {{"path", file.string()},
                 {"sha256", fileDigest(file)},
                 {"bytes", kind->bytes},
                 {"media_type", kind->mediaType},
                 {"named_as", kind->namedAs ? Json(*kind->namedAs) : Json(nullptr)},
                 {"refused", nullptr}};
    Json notes = Json::array();
    Json sheets = Json::array();
    const auto setRefused = [&json](const Refusal& refusal) {
        json["refused"] = refusal.help;
        json["refused_code"] = codeName(refusal.code);
    };
    const auto header = readHeader(file);
    if (!header) {
        setRefused(header.error());
        if (kind->namedAs) {
            notes.push_back(fmt::format("{} named as {}", kind->mediaType, *kind->namedAs));
        }
    } else {
        notes = header->notes;
        if (header->taken) {
            json["taken"] = *header->taken;
        }
        std::size_t refusedPages = 0;
        for (const SheetHeader& sheet : header->sheets) {
            auto page = inspectPage(file, sheet, at, budget);
            if (!page) {
                return tl::unexpected(page.error());
            }
            if (page->refused) {
                ++refusedPages;
                page->json["refused"] = page->refused->help;
                if (refusedPages == 1) {
                    notes.push_back(page->refused->help);
                }
                if (refusedPages == header->sheets.size()) {
                    setRefused(*page->refused);
                }
            }
            sheets.push_back(std::move(page->json));
        }
    }
    json["notes"] = notes;
    json["sheets"] = sheets;
    return json;
}

Result<Json> inspectAll(std::span<const std::filesystem::path> files,
                        std::optional<InspectedPixel> at, const Budget& budget) {
    Json list = Json::array();
    for (const std::filesystem::path& file : files) {
        auto json = inspectFile(file, at, budget);
        if (!json) {
            return json;
        }
        list.push_back(*std::move(json));
    }
    Json all;
    all["files"] = list;
    return all;
}

std::string inWords(const Json& file) {
    std::string text =
        fmt::format("{}\n  {}, {} bytes, SHA-256 {}\n", file["path"].get<std::string>(),
                    file["media_type"].get<std::string>(), file["bytes"].get<std::uint64_t>(),
                    file["sha256"].get<std::string>());
    if (!file["refused"].is_null()) {
        text += fmt::format("  refused: {}\n", file["refused"].get<std::string>());
    }
    for (const Json& note : file["notes"]) {
        text += fmt::format("  note: {}\n", note.get<std::string>());
    }
    for (const Json& sheet : file["sheets"]) {
        text += fmt::format(
            "  page {}: {} x {} px, {} bits, {} channel(s){}\n", sheet["page"].get<int>(),
            sheet["width"].get<int>(), sheet["height"].get<int>(), sheet["bits"].get<int>(),
            sheet["channels"].get<int>(), sheet["complete"].get<bool>() ? "" : ", incomplete");
        for (const Json& claim : sheet["resolution"]) {
            text +=
                fmt::format("    {:.10g} x {:.10g} px/{} claimed by {}\n", claim["x"].get<double>(),
                            claim["y"].get<double>(), claim["per"].get<std::string>(),
                            claim["claimed_by"].get<std::string>());
        }
        for (const Json& rows : sheet["unreadable_rows"]) {
            text += fmt::format("    rows {} to {} cannot be read\n", rows[0].get<int>(),
                                rows[1].get<int>());
        }
        for (const Json& note : sheet["notes"]) {
            text += fmt::format("    note: {}\n", note.get<std::string>());
        }
        if (sheet.contains("at")) {
            const Json& at = sheet["at"];
            text += fmt::format("    at {},{}: stored {}, shown {}\n", at["x"].get<int>(),
                                at["y"].get<int>(), at["stored"].dump(), at["shown"].dump());
        }
    }
    return text;
}

}  // namespace

Result<std::string> inspectJson(std::span<const std::filesystem::path> files,
                                std::optional<InspectedPixel> at, const Budget& budget) {
    const auto json = inspectAll(files, at, budget);
    if (!json) {
        return tl::unexpected(json.error());
    }
    // Text from files may hold any bytes; what is no UTF-8 is replaced, not refused.
    return json->dump(2, ' ', false, Json::error_handler_t::replace);
}

Result<std::string> inspectText(std::span<const std::filesystem::path> files,
                                std::optional<InspectedPixel> at, const Budget& budget) {
    const auto json = inspectAll(files, at, budget);
    if (!json) {
        return tl::unexpected(json.error());
    }
    std::string text;
    for (const Json& file : (*json)["files"]) {
        text += inWords(file);
    }
    return text;
}

}  // namespace imaging::raster
