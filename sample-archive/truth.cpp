#include "sample-archive/truth.h"

#include "sample-archive/chance.h"

#include <fmt/format.h>

#include <algorithm>

namespace sample {

namespace {

constexpr double kWorkmanship = 0.02;

std::array<Hoop, kHoops> designedHoops() {
    // Centres from the front end; nine bays that add up to 169 in between the end hoops.
    constexpr std::array<double, kHoops> kStations = {1.25,  19.75,  38.75,  57.75,  76.75,
                                                      99.75, 118.75, 137.75, 154.25, 170.25};
    std::array<Hoop, kHoops> hoops;
    for (std::size_t i = 0; i < hoops.size(); ++i) {
        const double along = (kStations[i] - kStations[1]) / (kStations[8] - kStations[1]);
        // A straight run from hoop 2 to hoop 9 with a slight swell between, as a batten would lie.
        const double swell = 4 * along * (1 - along);
        Hoop& hoop = hoops[i];
        hoop.station = kStations[i];
        hoop.rise = 14.0 + 3.5 * along + 0.25 * swell;
        hoop.mouldedCrown = 2.25 + 0.5 * along + 0.05 * swell;
        hoop.mouldedKnee = 3.0 + 0.75 * along + 0.06 * swell;
        hoop.kneeRadius = 9.0 + 2.0 * along + 0.15 * swell;
        hoop.sided = 1.75;
    }
    hoops.front().sided = 2.5;
    hoops.back().sided = 2.5;
    return hoops;
}

}  // namespace

double Railcar::totalHeight() const {
    double crown = 0;
    for (int hoop = 1; hoop <= kHoops; ++hoop) crown = std::max(crown, crownHeight(hoop));
    return crown;
}

Railcar designed() {
    Railcar car;
    car.hoops = designedHoops();
    // Bays 1 to 4 have a window each, bay 5 the door, bays 6 and 7 a window; 8 and 9 are luggage.
    car.windows = {{{3.25, 14.75},
                    {21.25, 16.0},
                    {40.25, 16.0},
                    {59.25, 16.0},
                    {101.25, 16.0},
                    {120.25, 16.0}}};
    car.doorFrom = 78.25;
    car.louvreFrom = 141.25;
    car.louvreWidth = 10.0;
    return car;
}

Railcar built(std::uint64_t seed) {
    Chance chance(seed, 1);
    Railcar car = designed();
    const auto made = [&chance](double& size) { size = chance.normal(size, kWorkmanship); };
    for (double* size :
         {&car.bodyLength,     &car.frontOverhang, &car.wheelbase,    &car.doorFrom,
          &car.doorWidth,      &car.wheelDiameter, &car.sidingBottom, &car.sillTop,
          &car.waistBottom,    &car.waistTop,      &car.windowBottom, &car.windowTop,
          &car.cantrailBottom, &car.cantrailTop,   &car.doorBottom,   &car.doorTop,
          &car.stepTop,        &car.stepLength,    &car.bodyWidth,    &car.louvreFrom,
          &car.louvreWidth,    &car.roofBatten}) {
        made(*size);
    }
    for (Hoop& hoop : car.hoops) {
        made(hoop.station);
        made(hoop.rise);
    }
    for (Opening& window : car.windows) {
        made(window.from);
        made(window.width);
    }
    car.plateLength = chance.between(18.0 - 1.0 / 16, 18.0 + 1.0 / 16);
    car.plateStandOff = chance.normal(4.0, 0.2);
    return car;
}

}  // namespace sample
