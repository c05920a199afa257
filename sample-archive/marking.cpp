#include "sample-archive/marking.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace sample {

using Json = nlohmann::ordered_json;

namespace {

/// Hundredths of a pixel are as fine as a mark is worth writing.
double written(double pixels) {
    return std::round(pixels * 100) / 100;
}

}  // namespace

Marker::Marker(Json& document, std::string prefix, std::string file, Hand hand,
               std::uint64_t purpose)
    : m_document(document),
      m_prefix(std::move(prefix)),
      m_file(std::move(file)),
      m_hand(std::move(hand)),
      m_chance(1911, purpose) {}

std::string Marker::mark(const std::string& what, const std::string& kind,
                         const std::vector<cv::Point2d>& points) {
    Json record;
    record["id"] = "m-" + m_prefix + "-" + what;
    record["file"] = m_file;
    record["page"] = 1;
    record["kind"] = kind;
    for (const cv::Point2d& point : points) {
        record["points"].push_back({written(point.x + m_chance.normal(0, m_hand.scatter)),
                                    written(point.y + m_chance.normal(0, m_hand.scatter))});
    }
    record["u_px"] = m_hand.uPixels;
    record["made"] = m_hand.made;
    const std::string id = record["id"].get<std::string>();
    m_document["marks"].push_back(std::move(record));
    return id;
}

Json& Marker::reading(const std::string& dimension, const std::string& what,
                      const std::string& frame, const std::string& kind,
                      const std::vector<cv::Point2d>& points) {
    Json record;
    record["id"] = "r-" + m_prefix + "-" + what;
    record["of"] = dimension;
    record["basis"] = "scaled";
    record["frame"] = frame;
    record["mark"] = mark(what, kind, points);
    m_document["readings"].push_back(std::move(record));
    return m_document["readings"].back();
}

}  // namespace sample
