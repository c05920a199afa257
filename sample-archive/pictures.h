#pragma once

#include "sample-archive/draw_broadside.h"
#include "sample-archive/drawings.h"

#include <cstdint>
#include <filesystem>

namespace sample {

/// Every picture of the archive with its geometry.
struct Pictures {
    Drawing arrangement;
    Drawing tracing;
    Drawing hoops;
    Drawing alteration;
    Broadside broadside;
    cv::Mat3b otherPrint;
};

[[nodiscard]] Pictures drawPictures(std::uint64_t seed);

/// Names of the files beside the exchange document.
struct FileNames {
    static constexpr const char* arrangement = "drg-47-general-arrangement.tif";
    static constexpr const char* tracing = "drg-47-tracing-1951.jpg";
    static constexpr const char* hoops = "drg-49-hoops.tif";
    static constexpr const char* alteration = "drg-61-lengthening.tif";
    static constexpr const char* broadside = "works-photograph-218.jpg";
    static constexpr const char* otherPrint = "postcard-print.png";
    static constexpr const char* ledger = "works-ledger.pdf";
    static constexpr const char* newspaper = "corran-courant.pdf";
    static constexpr const char* catalogue = "orrin-plates-1909.pdf";
    static constexpr const char* linePlan = "deposited-plan-1898.pdf";
    static constexpr const char* handbook = "timber-table-1908.pdf";
};

/// Writes pictures and papers into the folder. Throws std::runtime_error when the disk refuses.
void writePictures(const std::filesystem::path& folder, const Pictures& pictures);

}  // namespace sample
