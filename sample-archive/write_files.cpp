#include "sample-archive/write_files.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <tiffio.h>

#include <stdexcept>

namespace sample {

namespace {

constexpr int kRowsPerStrip = 64;

[[noreturn]] void refused(const std::filesystem::path& path) {
    throw std::runtime_error("cannot write " + path.string());
}

void writeOrRefuse(const std::filesystem::path& path, const cv::Mat3b& picture,
                   const std::vector<int>& parameters) {
    if (!cv::imwrite(path.string(), picture, parameters)) refused(path);
}

}  // namespace

void writeTiff(const std::filesystem::path& path, const cv::Mat3b& upright, const TiffTags& tags) {
    cv::Mat3b stored = upright;
    if (tags.orientation == 6) cv::rotate(upright, stored, cv::ROTATE_90_COUNTERCLOCKWISE);
    cv::Mat3b rgb;
    cv::cvtColor(stored, rgb, cv::COLOR_BGR2RGB);
    TIFF* tiff = TIFFOpen(path.c_str(), "w");
    if (tiff == nullptr) refused(path);
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, static_cast<std::uint32_t>(rgb.cols));
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, static_cast<std::uint32_t>(rgb.rows));
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, 3);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_RGB);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_ADOBE_DEFLATE);
    TIFFSetField(tiff, TIFFTAG_PREDICTOR, PREDICTOR_HORIZONTAL);
    TIFFSetField(tiff, TIFFTAG_ZIPQUALITY, 4);
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, static_cast<std::uint32_t>(kRowsPerStrip));
    TIFFSetField(tiff, TIFFTAG_ORIENTATION, tags.orientation);
    if (tags.dpi > 0) {
        TIFFSetField(tiff, TIFFTAG_XRESOLUTION, tags.dpi);
        TIFFSetField(tiff, TIFFTAG_YRESOLUTION, tags.dpi);
        TIFFSetField(tiff, TIFFTAG_RESOLUTIONUNIT, RESUNIT_INCH);
    }
    bool written = true;
    for (int row = 0; row < rgb.rows && written; ++row) {
        written = TIFFWriteScanline(tiff, rgb.ptr(row), static_cast<std::uint32_t>(row), 0) >= 0;
    }
    TIFFClose(tiff);
    if (!written) refused(path);
}

void writeJpeg(const std::filesystem::path& path, const cv::Mat3b& picture, int quality) {
    writeOrRefuse(path, picture, {cv::IMWRITE_JPEG_QUALITY, quality});
}

void writePng(const std::filesystem::path& path, const cv::Mat3b& picture) {
    writeOrRefuse(path, picture, {cv::IMWRITE_PNG_COMPRESSION, 6});
}

}  // namespace sample
