#include "imaging/raster/tiff_handle.h"

#include <cstdarg>
#include <cstdio>

namespace imaging::raster {
namespace {

constexpr std::size_t kMostMessages = 5;

int collect(TIFF* /*tiff*/, void* list, const char* /*module*/, const char* format, va_list args) {
    auto* messages = static_cast<std::vector<std::string>*>(list);
    if (messages->size() < kMostMessages) {
        char text[300];
        std::vsnprintf(text, sizeof text, format, args);
        messages->emplace_back(text);
    }
    return 1;
}

int ignore(TIFF* /*tiff*/, void* /*list*/, const char* /*module*/, const char* /*format*/,
           va_list /*args*/) {
    return 1;
}

}  // namespace

TiffHandle::TiffHandle(const std::filesystem::path& file) {
    TIFFOpenOptions* options = TIFFOpenOptionsAlloc();
    TIFFOpenOptionsSetErrorHandlerExtR(options, collect, &m_messages);
    TIFFOpenOptionsSetWarningHandlerExtR(options, ignore, nullptr);
    // No single block beyond a gigabyte: a header may claim any size.
    TIFFOpenOptionsSetMaxSingleMemAlloc(options, tmsize_t{1} << 30);
    m_tiff = TIFFOpenExt(file.c_str(), "rm", options);
    TIFFOpenOptionsFree(options);
}

TiffHandle::~TiffHandle() {
    if (m_tiff != nullptr) {
        TIFFClose(m_tiff);
    }
}

TiffTags readTags(TIFF* tiff) {
    TiffTags tags;
    TIFFGetField(tiff, TIFFTAG_IMAGEWIDTH, &tags.width);
    TIFFGetField(tiff, TIFFTAG_IMAGELENGTH, &tags.height);
    TIFFGetFieldDefaulted(tiff, TIFFTAG_BITSPERSAMPLE, &tags.bits);
    TIFFGetFieldDefaulted(tiff, TIFFTAG_SAMPLESPERPIXEL, &tags.samples);
    TIFFGetFieldDefaulted(tiff, TIFFTAG_SAMPLEFORMAT, &tags.format);
    TIFFGetField(tiff, TIFFTAG_PHOTOMETRIC, &tags.photometric);
    TIFFGetFieldDefaulted(tiff, TIFFTAG_PLANARCONFIG, &tags.planar);
    TIFFGetFieldDefaulted(tiff, TIFFTAG_COMPRESSION, &tags.compression);
    TIFFGetFieldDefaulted(tiff, TIFFTAG_ORIENTATION, &tags.orientation);
    tags.unitGiven = TIFFGetField(tiff, TIFFTAG_RESOLUTIONUNIT, &tags.unit) == 1;
    TIFFGetFieldDefaulted(tiff, TIFFTAG_SUBFILETYPE, &tags.subfile);
    float x = 0;
    float y = 0;
    if (TIFFGetField(tiff, TIFFTAG_XRESOLUTION, &x) == 1) {
        tags.xResolution = static_cast<double>(x);
    }
    if (TIFFGetField(tiff, TIFFTAG_YRESOLUTION, &y) == 1) {
        tags.yResolution = static_cast<double>(y);
    }
    std::uint32_t profileSize = 0;
    void* profile = nullptr;
    tags.hasProfile = TIFFGetField(tiff, TIFFTAG_ICCPROFILE, &profileSize, &profile) == 1;
    std::uint16_t extras = 0;
    std::uint16_t* kinds = nullptr;
    if (TIFFGetField(tiff, TIFFTAG_EXTRASAMPLES, &extras, &kinds) == 1 && extras > 0) {
        tags.alphaAssociated = kinds[0] == EXTRASAMPLE_ASSOCALPHA;
    }
    return tags;
}

}  // namespace imaging::raster
