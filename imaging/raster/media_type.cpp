#include "imaging/raster/media_type.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <string_view>

namespace imaging::raster {
namespace {

using namespace std::string_view_literals;

struct Signature {
    std::size_t at;
    std::string_view bytes;
    std::string_view mediaType;
};

constexpr std::array kSignatures = {
    Signature{0, "\xFF\xD8\xFF"sv, "image/jpeg"},
    Signature{0, "\x89PNG\r\n\x1A\n"sv, "image/png"},
    Signature{0, "II*\0"sv, "image/tiff"},
    Signature{0, "MM\0*"sv, "image/tiff"},
    Signature{0, "II+\0"sv, "image/tiff"},
    Signature{0, "MM\0+"sv, "image/tiff"},
    Signature{0, "\0\0\0\x0CjP  \r\n\x87\n"sv, "image/jp2"},
    Signature{0, "\xFF\x4F\xFF\x51"sv, "image/x-jp2-codestream"},
    Signature{8, "WEBP"sv, "image/webp"},
    Signature{0, "GIF8"sv, "image/gif"},
    Signature{0, "BM"sv, "image/bmp"},
    Signature{4, "ftypheic"sv, "image/heic"},
    Signature{4, "ftypmif1"sv, "image/heif"},
    Signature{4, "ftypavif"sv, "image/avif"},
    Signature{0, "PK\x03\x04"sv, "application/zip"},
    Signature{0, "SQLite format 3\0"sv, "application/vnd.sqlite3"},
};

std::string lower(std::string_view text) {
    std::string result(text);
    std::transform(result.begin(), result.end(), result.begin(), [](unsigned char c) {
        return static_cast<char>(c < 128 ? std::tolower(c) : c);
    });
    return result;
}

std::string byContent(std::string_view head) {
    if (head.empty()) {
        return "application/x-empty";
    }
    for (const Signature& signature : kSignatures) {
        if (head.substr(std::min(signature.at, head.size()), signature.bytes.size()) ==
            signature.bytes) {
            return std::string(signature.mediaType);
        }
    }
    // A PDF's mark may stand anywhere in the first kilobyte.
    if (head.find("%PDF-") != std::string_view::npos) {
        return "application/pdf";
    }
    const std::string text = lower(head);
    if (text.find("<!doctype html") != std::string::npos ||
        text.find("<html") != std::string::npos) {
        return "text/html";
    }
    const bool plain = std::all_of(head.begin(), head.end(), [](unsigned char c) {
        return c >= 32 || c == '\n' || c == '\r' || c == '\t';
    });
    return plain ? "text/plain" : "application/octet-stream";
}

std::optional<std::string> byName(const std::filesystem::path& file) {
    struct Extension {
        std::string_view extension;
        std::string_view mediaType;
    };
    static constexpr std::array kExtensions = {
        Extension{".jpg", "image/jpeg"},      Extension{".jpeg", "image/jpeg"},
        Extension{".jpe", "image/jpeg"},      Extension{".png", "image/png"},
        Extension{".tif", "image/tiff"},      Extension{".tiff", "image/tiff"},
        Extension{".jp2", "image/jp2"},       Extension{".webp", "image/webp"},
        Extension{".gif", "image/gif"},       Extension{".bmp", "image/bmp"},
        Extension{".pdf", "application/pdf"}, Extension{".txt", "text/plain"},
        Extension{".htm", "text/html"},       Extension{".html", "text/html"},
    };
    const std::string extension = lower(file.extension().string());
    for (const Extension& known : kExtensions) {
        if (known.extension == extension) {
            return std::string(known.mediaType);
        }
    }
    return std::nullopt;
}

}  // namespace

Result<Kind> recognise(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) {
        return refuse(Code::MissingFile, file.string(),
                      "there is no such file; check its path and name");
    }
    std::ifstream in(file, std::ios::binary);
    if (!in) {
        return refuse(Code::MissingFile, file.string(),
                      "the file cannot be opened; check that you may read it");
    }
    std::string head(1024, '\0');
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    head.resize(static_cast<std::size_t>(in.gcount()));
    Kind kind;
    kind.mediaType = byContent(head);
    kind.bytes = std::filesystem::file_size(file, error);
    if (const auto named = byName(file); named && *named != kind.mediaType) {
        kind.namedAs = named;
    }
    return kind;
}

std::optional<Refusal> notReadHere(const Kind& kind, const std::string& place) {
    const std::string& type = kind.mediaType;
    if (type == "image/jpeg" || type == "image/png" || type == "image/tiff") {
        return std::nullopt;
    }
    if (type == "application/x-empty") {
        return Refusal{Code::NotAPicture, place, "not a picture: the file is empty (0 bytes)"};
    }
    if (type == "application/pdf") {
        return Refusal{Code::UnsupportedFormat, place,
                       "a PDF is no picture file: its pages are rastered first"};
    }
    if (type.starts_with("image/")) {
        return Refusal{Code::UnsupportedFormat, place,
                       fmt::format("{} is recognised but not read by this version; convert a copy "
                                   "to TIFF, JPEG or PNG at full depth",
                                   type)};
    }
    return Refusal{
        Code::NotAPicture, place,
        fmt::format("not a picture: the content is {}; take in TIFF, JPEG or PNG", type)};
}

}  // namespace imaging::raster
