#pragma once

#include <tiffio.h>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace imaging::raster {

/// An open TIFF that collects libtiff's messages instead of printing them.
class TiffHandle {
  public:
    explicit TiffHandle(const std::filesystem::path& file);
    TiffHandle(const TiffHandle&) = delete;
    TiffHandle& operator=(const TiffHandle&) = delete;
    ~TiffHandle();

    [[nodiscard]] TIFF* get() const { return m_tiff; }  ///< null where it could not be opened
    [[nodiscard]] const std::vector<std::string>& messages() const { return m_messages; }

  private:
    TIFF* m_tiff = nullptr;
    std::vector<std::string> m_messages;
};

/// The tags of the current directory that imaging goes by, with the format's defaults.
struct TiffTags {
    std::uint32_t width = 0;
    std::uint32_t height = 0;
    std::uint16_t bits = 1;
    std::uint16_t samples = 1;
    std::uint16_t format = SAMPLEFORMAT_UINT;
    std::uint16_t photometric = PHOTOMETRIC_MINISBLACK;
    std::uint16_t planar = PLANARCONFIG_CONTIG;
    std::uint16_t compression = COMPRESSION_NONE;
    std::uint16_t orientation = ORIENTATION_TOPLEFT;
    std::uint16_t unit = RESUNIT_INCH;
    bool unitGiven = false;
    bool hasProfile = false;
    bool alphaAssociated = false;
    std::uint32_t subfile = 0;
    std::optional<double> xResolution;
    std::optional<double> yResolution;
};
[[nodiscard]] TiffTags readTags(TIFF* tiff);

}  // namespace imaging::raster
