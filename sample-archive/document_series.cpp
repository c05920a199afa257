#include "sample-archive/document.h"
#include "sample-archive/truth.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <string>

namespace sample {

using Json = nlohmann::ordered_json;

namespace {

struct Measure {
    const char* name;
    double atSecond;
    double atNinth;
    double fairness;  ///< half-width at mid-gap by which a fair batten may leave the straight run
    double floor;     ///< half-width near the known hoops
};

constexpr Measure kMeasures[] = {{"rise", 14.0, 17.5, 0.60, 0.25},
                                 {"crown", 2.25, 2.75, 0.15, 0.10},
                                 {"knee", 3.0, 3.75, 0.18, 0.10},
                                 {"radius", 9.0, 11.0, 0.60, 0.30}};

double rounded(double value, double step) {
    return std::round(value / step) * step;
}

/// Hoops 3 to 8 by a straight run from 2 to 9 at their stations, with a band that grows to mid-gap.
void interpolate(Json& document, const Railcar& car) {
    for (int number = 3; number <= 8; ++number) {
        const double along =
            (car.hoops.at(static_cast<std::size_t>(number - 1)).station - car.hoops[1].station) /
            (car.hoops[8].station - car.hoops[1].station);
        for (const Measure& measure : kMeasures) {
            Json record;
            record["id"] = fmt::format("r-series-hoop-{}-{}", number, measure.name);
            record["of"] = fmt::format("d-hoop-{}-{}", number, measure.name);
            record["basis"] = "interpolated";
            record["value"] =
                rounded(measure.atSecond + (measure.atNinth - measure.atSecond) * along, 1.0 / 64);
            record["half_width"] =
                rounded(measure.floor + measure.fairness * 4 * along * (1 - along), 0.01);
            record["shape"] = "triangular";
            record["reason"] = fmt::format(
                "Straight run from hoop 2 to hoop 9 at the hoop's station; the band is what a fair "
                "batten can leave it by, widest at mid-gap.");
            record["depends_on"] = {fmt::format("r-hp-fig-hoop-2-{}", measure.name),
                                    fmt::format("r-hp-fig-hoop-9-{}", measure.name)};
            record["by"] = "p-moran";
            record["on"] = "2025-03-01";
            document["readings"].push_back(std::move(record));
        }
    }
}

/// Hoops 1 and 10 lie outside the known ones; they come from what the pictures confine.
void confine(Json& document) {
    struct Confine {
        int number;
        const char* name;
        const char* low;
        const char* high;
        const char* source;
        const char* reason;
    };
    constexpr Confine kConfines[] = {
        {1, "rise", "12 3/4 in", "14 in", "s-broadside",
         "The roof falls toward the front in the works photograph: lower than hoop 2; the lamp "
         "iron under it keeps it above 12 3/4."},
        {10, "rise", "17 1/2 in", "18 1/4 in", "s-arrangement",
         "Not below hoop 9, for the roof still climbs; the height over all leaves no more."},
        {1, "crown", "1 7/8 in", "2 1/4 in", "s-broadside",
         "Not deeper than hoop 2; the screws of the end boards need 1 7/8."},
        {10, "crown", "2 3/4 in", "3 in", "s-broadside",
         "Not thinner than hoop 9; the end boards' rebate shows no more than 3."},
        {1, "knee", "2 5/8 in", "3 in", "s-broadside",
         "Not deeper than hoop 2; must take the "
         "corner strap's bolt."},
        {10, "knee", "3 3/4 in", "4 in", "s-broadside",
         "Not thinner than hoop 9; clears the end "
         "window by the strap."},
        {1, "radius", "8 in", "9 in", "s-broadside",
         "Tighter than hoop 2, as the corner of the front end shows."},
        {10, "radius", "11 in", "11 3/4 in", "s-arrangement",
         "Easier than hoop 9, but the end window leaves no more than 11 3/4."}};
    for (const Confine& one : kConfines) {
        Json record;
        record["id"] = fmt::format("r-confine-hoop-{}-{}", one.number, one.name);
        record["of"] = fmt::format("d-hoop-{}-{}", one.number, one.name);
        record["basis"] = "limit";
        record["source"] = one.source;
        record["low"] = one.low;
        record["high"] = one.high;
        record["reason"] = one.reason;
        record["by"] = "p-moran";
        record["on"] = "2025-03-01";
        document["readings"].push_back(std::move(record));
    }
}

}  // namespace

void addSeries(Json& document) {
    interpolate(document, designed());
    confine(document);
}

}  // namespace sample
