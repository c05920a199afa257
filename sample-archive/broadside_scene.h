#pragma once

#include "sample-archive/truth.h"

#include <opencv2/core.hpp>

#include <vector>

namespace sample {

/// What a ray meets: the car on the rails before a wooded hillside, as light from 0 (black) to 1.
/// Every visible part of the car lies where truth.h says, in its own depth, so that the picture is
/// a true projection and not a drawing made to look like one.
class BroadsideScene {
  public:
    explicit BroadsideScene(const Railcar& car);

    /// Light along the ray from `eye` in `direction` (z component negative).
    [[nodiscard]] double light(const cv::Vec3d& eye, const cv::Vec3d& direction) const;

    /// Depth of the body-side plane, of the plate's face and of the wheels' outer faces.
    [[nodiscard]] double bodyZ() const { return m_car.bodyWidth / 2; }
    [[nodiscard]] double plateZ() const { return bodyZ() + m_car.plateStandOff; }
    [[nodiscard]] double wheelZ() const { return m_car.gauge / 2 + 2.75; }

  private:
    [[nodiscard]] bool plate(double x, double y, double& tone) const;
    [[nodiscard]] bool step(double x, double y, double& tone) const;
    [[nodiscard]] bool bodySide(double x, double y, double& tone) const;
    [[nodiscard]] double panel(double x, double y) const;
    [[nodiscard]] double window(double x, double y, double from, double width, double bottom) const;
    [[nodiscard]] double door(double x, double y) const;
    [[nodiscard]] bool roof(const cv::Vec3d& eye, const cv::Vec3d& direction, double& tone) const;
    [[nodiscard]] double crown(double x) const;
    [[nodiscard]] bool headstock(double x, double y, double& tone) const;
    [[nodiscard]] bool wheel(double x, double y, double& tone) const;
    [[nodiscard]] bool flange(double x, double y, double& tone) const;
    [[nodiscard]] bool rail(double x, double y, double& tone) const;
    [[nodiscard]] bool channel(double x, double y, double& tone) const;
    [[nodiscard]] double ground(double x, double z) const;
    [[nodiscard]] double hillside(double along, double up) const;
    [[nodiscard]] bool nearJoinery(double x, double y) const;

    Railcar m_car;
    std::vector<double> m_roofShare;
    cv::Mat1f m_plateFace;    ///< lettering of the enamel plate, 24 px to the inch
    cv::Mat1f m_sideLetters;  ///< gilding on the lower panels, 12 px to the inch
};

}  // namespace sample
