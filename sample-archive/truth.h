#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <string>

namespace sample {

inline constexpr int kHoops = 10;

/// One hoop of the body: what changes from hoop to hoop. Inches.
struct Hoop {
    double station = 0;       ///< centre of the hoop from the outside of the front end
    double rise = 0;          ///< crown of the roof above the top of the cantrail
    double mouldedCrown = 0;  ///< depth of the hoop at the crown
    double mouldedKnee = 0;   ///< depth of the hoop at the knee
    double sided = 0;         ///< thickness along the car
    double kneeRadius = 0;    ///< inside radius where side turns into roof
};

/// A window opening in the body side, from its front edge. Inches.
struct Opening {
    double from = 0;
    double width = 0;
};

/// The ground truth: *Teal* as first built, one consistent railcar. Inches throughout; x along the
/// car from the outside of the front end, y above the rail, z across from the centre line, positive
/// toward the platform side, which the works photograph shows. All of it is invented.
struct Railcar {
    // along
    double bodyLength = 171.5;
    double headstockProjection = 3.5;
    double bufferProjection = 9.0;
    double frontOverhang = 44.0;
    double wheelbase = 84.0;
    std::array<Hoop, kHoops> hoops;
    std::array<Opening, 6> windows;
    double doorFrom = 77.5;
    double doorWidth = 20.0;
    double louvreFrom = 145.0;
    double louvreWidth = 14.0;
    // up
    double wheelDiameter = 24.0;
    double flangeDepth = 1.0;
    double sidingBottom = 21.0;
    double sillTop = 25.5;
    double waistBottom = 50.0;
    double waistTop = 53.5;
    double windowBottom = 55.0;
    double windowTop = 77.5;
    double cantrailBottom = 80.0;
    double cantrailTop = 84.0;
    double floorTop = 26.5;
    double doorBottom = 26.5;
    double doorTop = 78.5;
    double channelDepth = 6.0;
    double channelTop = 20.5;
    double bufferHeight = 17.75;
    double stepTop = 11.5;
    double stepThickness = 1.5;
    double stepLength = 22.0;
    // across
    double bodyWidth = 62.0;
    double gauge = 36.0;
    double tyreWidth = 4.0;
    double channelSpacing = 28.0;
    double sheathing = 0.625;
    // plate and fittings
    double plateLength = 18.0;
    double plateHeight = 4.5;
    double plateFrom = 57.75;    ///< front end of the enamel plate along the car
    double plateBottom = 12.75;  ///< lower edge above the rail
    double plateStandOff = 4.0;  ///< face of the plate outside the body-side plane
    double lampDiameter = 7.0;
    double roofBatten = 1.25;   ///< depth of the batten that holds the canvas at the eaves
    double roofOverhang = 1.5;  ///< roof canvas past the body end

    [[nodiscard]] double lengthOverHeadstocks() const {
        return bodyLength + 2 * headstockProjection;
    }
    [[nodiscard]] double lengthOverBuffers() const {
        return lengthOverHeadstocks() + 2 * bufferProjection;
    }
    [[nodiscard]] double rearOverhang() const { return bodyLength - frontOverhang - wheelbase; }
    [[nodiscard]] double bay(int index) const {
        return hoops.at(static_cast<std::size_t>(index)).station -
               hoops.at(static_cast<std::size_t>(index - 1)).station;
    }
    [[nodiscard]] double crownHeight(int hoop) const {
        return cantrailTop + hoops.at(static_cast<std::size_t>(hoop - 1)).rise;
    }
    [[nodiscard]] double totalHeight() const;
};

/// The car as its designer meant it.
[[nodiscard]] Railcar designed();

/// The one car that the shop made and the photographer saw: the design with the shop's workmanship
/// (standard deviation 0.02 in on what is cut and set out separately), and with the plate as it
/// left its maker and was screwed on: length rectangular within ± 1/16 in of the trade size,
/// stand-off normal with 0.2 in about the 4 in its bracket measures.
[[nodiscard]] Railcar built(std::uint64_t seed);

/// True values by dimension id, of the design and of the car as made; for tests only.
[[nodiscard]] std::map<std::string, double> trueValues(const Railcar& car);

}  // namespace sample
