#include "sample-archive/pictures.h"

#include "sample-archive/papers.h"
#include "sample-archive/write_files.h"

namespace sample {

Pictures drawPictures(std::uint64_t seed) {
    const Railcar design = designed();
    Broadside broadside = drawBroadside(seed);
    cv::Mat3b otherPrint = drawOtherPrint(broadside, seed);
    return {drawArrangement(design, seed), drawTracing(design, seed), drawHoops(design, seed),
            drawAlteration(design, seed),  std::move(broadside),      std::move(otherPrint)};
}

void writePictures(const std::filesystem::path& folder, const Pictures& pictures) {
    writeTiff(folder / FileNames::arrangement, pictures.arrangement.picture, {400, 1});
    writeJpeg(folder / FileNames::tracing, pictures.tracing.picture, 88);
    writeTiff(folder / FileNames::hoops, pictures.hoops.picture, {300, 1});
    // Scanned lying on its side by a machine that stamps 72 dpi on everything.
    writeTiff(folder / FileNames::alteration, pictures.alteration.picture, {72, 6});
    writeJpeg(folder / FileNames::broadside, pictures.broadside.picture, 90);
    writePng(folder / FileNames::otherPrint, pictures.otherPrint);
    writeLedger(folder / FileNames::ledger);
    writeNewspaper(folder / FileNames::newspaper);
    writeCatalogue(folder / FileNames::catalogue);
    writeLinePlan(folder / FileNames::linePlan);
    writeHandbook(folder / FileNames::handbook);
}

}  // namespace sample
