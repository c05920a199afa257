#include "sample-archive/document.h"
#include "sample-archive/pictures.h"
#include "sample-archive/sizes.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <charconv>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

namespace {

constexpr std::uint64_t kDefaultSeed = 1911;
constexpr const char* kUsage =
    "usage: lostlines-sample OUT_DIR [--seed N]\n"
    "Writes the invented sample archive: OUT_DIR/teal.json with its pictures and papers,\n"
    "and OUT_DIR/truth/truth.json with the true values, for tests.\n";

void writeJson(const std::filesystem::path& path, const nlohmann::ordered_json& json) {
    std::ofstream out(path, std::ios::binary);
    out << json.dump(1) << '\n';
    out.close();
    if (!out) throw std::runtime_error("cannot write " + path.string());
}

nlohmann::ordered_json truthOf(const sample::Pictures& pictures, std::uint64_t seed) {
    nlohmann::ordered_json truth;
    truth["seed"] = seed;
    truth["design"] = sample::trueValues(sample::designed());
    truth["as_made"] = sample::trueValues(pictures.broadside.car);
    const sample::Camera& camera = pictures.broadside.camera;
    truth["works_camera"] = {{"distance_to_plate", camera.position[2] - pictures.broadside.plateZ},
                             {"focal_px", camera.focal},
                             {"yaw_rad", camera.yaw},
                             {"pitch_rad", camera.pitch},
                             {"roll_rad", camera.roll},
                             {"distortion_at_corner", camera.distortion}};
    return truth;
}

void generate(const std::filesystem::path& folder, std::uint64_t seed) {
    std::filesystem::create_directories(folder / "truth");
    const sample::Pictures pictures = sample::drawPictures(seed);
    sample::writePictures(folder, pictures);
    writeJson(folder / "teal.json", sample::exchangeDocument(pictures));
    writeJson(folder / "truth" / "truth.json", truthOf(pictures, seed));
}

}  // namespace

int main(int count, char** arguments) {
    std::string folder;
    std::uint64_t seed = kDefaultSeed;
    for (int i = 1; i < count; ++i) {
        const std::string word = arguments[i];
        if (word == "--help") {
            fmt::print("{}", kUsage);
            return 0;
        }
        if (word == "--seed" && i + 1 < count) {
            const std::string number = arguments[++i];
            const auto [end, error] =
                std::from_chars(number.data(), number.data() + number.size(), seed);
            if (error != std::errc{} || end != number.data() + number.size()) {
                fmt::print(stderr, "--seed takes a whole number, not '{}'\n", number);
                return 2;
            }
        } else if (folder.empty() && !word.starts_with("-")) {
            folder = word;
        } else {
            fmt::print(stderr, "{}", kUsage);
            return 2;
        }
    }
    if (folder.empty()) {
        fmt::print(stderr, "{}", kUsage);
        return 2;
    }
    try {
        generate(folder, seed);
    } catch (const std::exception& fault) {
        fmt::print(stderr, "lostlines-sample: {}\n", fault.what());
        return 5;
    }
    return 0;
}
