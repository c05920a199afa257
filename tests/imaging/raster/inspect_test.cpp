#include "imaging/raster/inspect.h"

#include "tests/imaging/raster/case_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace imaging::raster {
namespace {

using nlohmann::json;
using test::caseFile;

json inspected(const std::string& name, std::optional<InspectedPixel> at = {}) {
    const std::filesystem::path files[] = {caseFile(name)};
    const auto text = inspectJson(files, at);
    EXPECT_TRUE(text) << text.error().help;
    return json::parse(*text)["files"][0];
}

TEST(Inspect, TellsHashPagesAndUprightSize) {
    const json file = inspected("01_exif_orient6.jpg");
    // As coreutils' sha256sum prints it.
    EXPECT_EQ(file["sha256"], "f5d334cf4a27b63b22bc36ec488e94c2fa1ddbc6cc312bd1973850f023d60b40");
    EXPECT_EQ(file["bytes"], 18403);
    EXPECT_EQ(file["media_type"], "image/jpeg");
    EXPECT_TRUE(file["named_as"].is_null());
    EXPECT_TRUE(file["refused"].is_null());
    const json& sheet = file["sheets"][0];
    EXPECT_EQ(sheet["width"], 1000);
    EXPECT_EQ(sheet["height"], 800);
    EXPECT_EQ(sheet["orientation"], 6);
    EXPECT_EQ(sheet["resolution"][0]["claimed_by"], "EXIF");
    EXPECT_NEAR(sheet["size_in"][0].get<double>(), 10, 1e-9);
    EXPECT_EQ(sheet["complete"], true);
}

TEST(Inspect, HashOfNothingIsThePublishedOne) {
    // FIPS 180-4 test vector: SHA-256 of the empty message.
    EXPECT_EQ(inspected("23_empty.tif")["sha256"],
              "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Inspect, GivesStoredAndShownValueOfAPixel) {
    const json sixteen = inspected("10_gray16_low_contrast.tif", InspectedPixel{200, 300});
    EXPECT_EQ(sixteen["sheets"][0]["at"]["stored"], json::array({30000}));
    EXPECT_EQ(sixteen["sheets"][0]["at"]["shown"], json::array({117, 117, 117}));
    const json bit = inspected("06_g4_miniswhite_200x100dpi.tif", InspectedPixel{200, 300});
    EXPECT_EQ(bit["sheets"][0]["at"]["stored"], json::array({1}));
    EXPECT_EQ(bit["sheets"][0]["at"]["shown"], json::array({0, 0, 0}));
}

TEST(Inspect, RefusesAPixelOutsideTheSheet) {
    const std::filesystem::path files[] = {caseFile("01_exif_orient6.jpg")};
    const auto text = inspectJson(files, InspectedPixel{1000, 10});
    ASSERT_FALSE(text);
    EXPECT_EQ(text.error().code, Code::OutsideSheet);
}

TEST(Inspect, ListsUnreadableRows) {
    const json sheet = inspected("17_tiff_one_bad_strip.tif")["sheets"][0];
    EXPECT_EQ(sheet["complete"], false);
    EXPECT_EQ(sheet["unreadable_rows"], json::parse("[[500, 599]]"));
}

TEST(Inspect, SaysWhyAFileIsRefused) {
    const json huge = inspected("18a_png_header_60000x60000.png");
    EXPECT_THAT(huge["refused"].get<std::string>(), testing::HasSubstr("3600 megapixels"));
    EXPECT_EQ(huge["refused_code"], "too-large");
    EXPECT_EQ(huge["sheets"][0]["width"], 60000);
    const json html = inspected("23_html_error_page.jpg");
    EXPECT_EQ(html["media_type"], "text/html");
    EXPECT_EQ(html["named_as"], "image/jpeg");
    EXPECT_THAT(html["refused"].get<std::string>(), testing::HasSubstr("not a picture"));
}

TEST(Inspect, EveryClaimIsListedAndNoSizeChosenAmongThem) {
    const json sheet = inspected("07_jpeg_three_dpis.jpg")["sheets"][0];
    EXPECT_EQ(sheet["resolution"].size(), 3U);
    EXPECT_TRUE(sheet["size_in"].is_null());
}

TEST(Inspect, WordsHoldTheSameFacts) {
    const std::filesystem::path files[] = {caseFile("04_tiff_res_cm.tif")};
    const auto text = inspectText(files);
    ASSERT_TRUE(text);
    EXPECT_THAT(*text, testing::HasSubstr("40 x 40 px/cm claimed by TIFF"));
}

}  // namespace
}  // namespace imaging::raster
