#pragma once

#include "evidence-core/network/mark_length.h"
#include "evidence-core/network/origin.h"
#include "evidence-core/network/register_index.h"
#include "evidence-core/network/solution.h"
#include "evidence-core/network/worth.h"

#include <optional>
#include <string>
#include <vector>

/// What of the register can be used in the network, and what it is worth.
namespace evidence::network {

/// A dimension as the network sees it.
struct TriagedDimension {
    quantity::Measure measure = quantity::Measure::Length;
    quantity::Unit unit = quantity::Unit::Inch;
    std::string key;  ///< content, for order: component, name, quantity, then id
};

/// A reading of a dimension.
struct TriagedReading {
    std::size_t record = 0;  ///< index in the register
    std::size_t dimension = 0;
    ReadingUse use = ReadingUse::Used;
    std::string why;
    record::Basis basis = record::Basis::Stated;
    std::optional<record::Grade> strength;
    std::optional<record::SourceId> source;
    std::optional<record::SourceId> origin;
    std::optional<WrittenValue> value;  ///< direct readings
    std::optional<Spread> spread;       ///< direct readings; scaled ones that give their own
    std::optional<double> low;
    std::optional<double> high;
    std::optional<PixelMeasure> pixels;          ///< scaled readings
    std::optional<std::size_t> frame;            ///< scaled readings
    quantity::Unit unit = quantity::Unit::Inch;  ///< that corrections and u are in
    std::optional<std::size_t> echoOf;           ///< index in the list of triaged readings
    std::string key;                             ///< content, for order
};

/// A reference of a frame.
struct TriagedReference {
    std::string why;  ///< why it is not used; empty if it is
    bool check = false;
    std::optional<PixelMeasure> pixels;
    std::optional<std::size_t> dimension;
    std::optional<WrittenValue> length;
    std::optional<Spread> spread;
    std::optional<record::Basis> basis;
    std::optional<record::Grade> strength;
    std::optional<record::SourceId> source;
};

struct TriagedFrame {
    bool setAside = false;
    bool supported = true;
    std::string why;  ///< why nothing can be measured through it; empty if it can
    const record::Source* source = nullptr;  ///< of its file
    std::vector<TriagedReference> references;
    std::optional<double> printedScale;  ///< inches per pixel, of a `printed` frame
    std::optional<double> printedU;      ///< relative
    bool printedByDefault = false;
    std::string key;
};

struct Triage {
    record::Settings settings;
    std::vector<TriagedDimension> dimensions;  ///< by dimension
    std::vector<TriagedReading> readings;      ///< those of dimensions, in the register's order
    std::vector<TriagedFrame> frames;          ///< by frame
};

/// Reads every value and sorts out what is set aside or cannot be used. Echoes are not told yet.
/// Errors: as `checkReading` and `checkLength`, with the record's place.
[[nodiscard]] Result<Triage> triage(const RegisterIndex& index, const Origins& origins);

}  // namespace evidence::network
