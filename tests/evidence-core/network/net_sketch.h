#pragma once

#include "evidence-core/record/register.h"

#include <optional>
#include <string>

/// Writes small registers for tests, in inches, with ids of their own: sources `s1` …, dimensions
/// `d1` … with codes `D1` …, readings `r1` …, and so on, in the order they are made.
namespace testsupport {

class NetSketch {
  public:
    evidence::record::Register reg;

    std::string source(
        evidence::record::SourceKind kind = evidence::record::SourceKind::Text,
        std::optional<evidence::record::Authority> authority = evidence::record::Authority::Maker);
    /// `child` is a copy, tracing … of `parent`.
    void descends(const std::string& child, const std::string& parent,
                  evidence::record::DescentKind as = evidence::record::DescentKind::Copy);
    std::string dimension(
        evidence::record::DimensionQuantity quantity = evidence::record::DimensionQuantity::Length);
    /// A direct reading with a standard uncertainty; change it through the reference returned.
    evidence::record::Reading& reading(
        const std::string& of, double value, std::optional<double> u,
        const std::string& source = {},
        evidence::record::Basis basis = evidence::record::Basis::Stated);
    evidence::record::Reading& limits(const std::string& of, std::optional<double> low,
                                      std::optional<double> high);
    /// A horizontal segment `pixels` long on the file of `source`.
    std::string segment(const std::string& source, double pixels, double u = 0.5);
    evidence::record::Frame& frame(
        const std::string& source,
        evidence::record::FrameModel model = evidence::record::FrameModel::Uniform);
    static evidence::record::Reference reference(const std::string& mark, double length, double u,
                                                 const std::string& source = {},
                                                 std::optional<evidence::record::Basis> basis = {});
    static evidence::record::Reference reference(const std::string& mark,
                                                 const std::string& dimension);
    evidence::record::Reading& scaled(const std::string& of, const std::string& frame,
                                      const std::string& mark);
    evidence::record::Relation& relation(
        const std::string& formula, double u = 0,
        evidence::record::Basis basis = evidence::record::Basis::Geometry);
    evidence::record::SharedError& sharedError(evidence::record::SharedErrorKind kind, double u);

  private:
    int m_segments = 0;
};

}  // namespace testsupport
