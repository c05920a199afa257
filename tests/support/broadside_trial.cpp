#include "tests/support/broadside_trial.h"

#include "imaging/task/measure.h"
#include "sample-archive/broadside_features.h"
#include "sample-archive/chance.h"
#include "sample-archive/draw_broadside.h"
#include "sample-archive/write_files.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <stdexcept>

namespace test {

using Json = nlohmann::json;

namespace {

constexpr double kHandPixels = 2.0;
constexpr double kSearchPixels = 6.0;
// Light spreads into the dark at every edge of a print; a tenth to three tenths of a pixel is
// usual.
constexpr double kHalationPixels = 0.15;
constexpr int kQuality = 90;

Json roughMark(const std::string& id, const std::string& kind,
               const std::vector<cv::Point2d>& truth, sample::Chance& hand) {
    Json mark;
    mark["id"] = id;
    mark["kind"] = kind;
    mark["fit"] = "edge";
    mark["search_px"] = kSearchPixels;
    for (const cv::Point2d& point : truth) {
        mark["points"].push_back({point.x + hand.between(-kHandPixels, kHandPixels),
                                  point.y + hand.between(-kHandPixels, kHandPixels)});
    }
    return mark;
}

Json taskOf(const sample::Broadside& view, const std::vector<sample::BroadsideFeature>& features,
            sample::Chance& hand) {
    const sample::PlateKnowledge plate;
    Json task;
    task["page"] = 1;
    task["edge_bias_px"] = kHalationPixels;
    task["marks"].push_back(roughMark("plate", "segment", sample::plateEnds(view), hand));
    task["frame"] = {
        {"model", "uniform"},
        {"parallel_within", plate.parallelWithin},
        {"references",
         {{{"mark", "plate"},
           {"length",
            {{"value", plate.length}, {"unit", "in"}, {"half_width", plate.halfWidth}}}}}}};
    for (std::size_t i = 0; i < features.size(); ++i) {
        const sample::BroadsideFeature& feature = features[i];
        const bool circle = feature.kind == sample::BroadsideFeature::Kind::Circle;
        const std::string id = fmt::format("m{}", i);
        task["marks"].push_back(roughMark(id, circle ? "circle" : "segment", feature.points, hand));
        task["measure"].push_back({{"id", fmt::format("x{}", i)},
                                   {"mark", id},
                                   {"quantity", circle ? "diameter" : "length"},
                                   {"off_plane",
                                    {{"offset", feature.offset},
                                     {"u", plate.uStandOff},
                                     {"distance", plate.distance},
                                     {"u_distance", plate.uDistance}}}});
    }
    return task;
}

}  // namespace

std::vector<BroadsideResult> measureBroadside(std::uint64_t seed,
                                              const std::filesystem::path& folder) {
    const sample::Broadside view = sample::drawBroadside(seed);
    const std::filesystem::path path = folder / fmt::format("broadside-{}.jpg", seed);
    sample::writeJpeg(path, view.picture, kQuality);
    const std::vector<sample::BroadsideFeature> features = sample::broadsideFeatures(view);
    sample::Chance hand(seed, 51);
    const auto answer = imaging::task::measure(path, taskOf(view, features, hand).dump());
    if (!answer) {
        throw std::runtime_error(
            fmt::format("seed {}: {}: {}", seed, answer.error().place, answer.error().help));
    }
    const Json results = Json::parse(*answer).at("results");
    std::vector<BroadsideResult> measured;
    for (std::size_t i = 0; i < features.size(); ++i) {
        const Json& result = results.at(i);
        measured.push_back({features[i].dimension, features[i].truth,
                            result.at("value").get<double>(), result.at("u").get<double>(),
                            result.at("low95").get<double>(), result.at("high95").get<double>()});
    }
    return measured;
}

}  // namespace test
