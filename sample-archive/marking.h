#pragma once

#include "sample-archive/chance.h"

#include <nlohmann/json_fwd.hpp>
#include <opencv2/core.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace sample {

/// How the marks of one sheet were made, and how good they are.
struct Hand {
    std::string made = "line-centre";
    double uPixels = 0.4;   ///< standard uncertainty stated with each mark
    double scatter = 0.25;  ///< standard deviation by which a mark really misses
};

/// Puts marks and scaled readings of one file into the document. Mark ids are `m-<prefix>-<what>`,
/// reading ids `r-<prefix>-<what>`.
class Marker {
  public:
    Marker(nlohmann::ordered_json& document, std::string prefix, std::string file, Hand hand,
           std::uint64_t purpose);

    /// Adds a mark at the given true pixels, missing them by the hand's scatter; returns its id.
    std::string mark(const std::string& what, const std::string& kind,
                     const std::vector<cv::Point2d>& points);
    /// Adds a mark and a reading of `dimension` through it; returns the reading, to be added to.
    nlohmann::ordered_json& reading(const std::string& dimension, const std::string& what,
                                    const std::string& frame, const std::string& kind,
                                    const std::vector<cv::Point2d>& points);

  private:
    nlohmann::ordered_json& m_document;
    std::string m_prefix;
    std::string m_file;
    Hand m_hand;
    Chance m_chance;
};

}  // namespace sample
