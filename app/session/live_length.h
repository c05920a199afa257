#pragma once

#include "app/session/actions.h"
#include "evidence-core/judgement/analysis.h"
#include "evidence-core/quantity/format.h"
#include "evidence-core/quantity/interval.h"
#include "evidence-core/record/register.h"

#include <optional>
#include <string>
#include <vector>

/// The value and its uncertainty at the pointer while dragging: what a new dimension would be if
/// the mark were taken as it lies now. Same equations and same interval as the network's, without
/// adjusting anything: a new dimension with one reading moves nothing else.
namespace app::session {

/// Scales that a mark on this page can be measured with: of the page, not set aside, of a model the
/// network adjusts. In the register's order.
[[nodiscard]] std::vector<evidence::record::FrameId> scalesOf(const evidence::record::Register& reg,
                                                              const evidence::record::FileId& file,
                                                              int page);

/// One scale as adjusted, ready for many mouse moves. Prepare it anew with each analysis.
struct LiveScale {
    evidence::record::FrameId frame;
    double inchesPerPixel = 0;
    std::vector<evidence::quantity::Component> relative;  ///< errors that grow with the length
    std::vector<evidence::quantity::Component> absolute;  ///< inches, whatever the length
    double defaultU = 0;  ///< px per axis of a mark that says nothing
    evidence::quantity::Display display;
};

/// Nothing where the frame is unknown, set aside, or has no size in `analysis`.
[[nodiscard]] std::optional<LiveScale> liveScale(const evidence::record::Register& reg,
                                                 const evidence::judgement::Analysis& analysis,
                                                 const evidence::record::FrameId& frame);

struct LiveLength {
    double valueInches = 0;
    double low95 = 0;  ///< inches
    double high95 = 0;
    std::string text;  ///< in the register's unit and fractions: `3'-7 5/16" ± 0.12 in`
};

/// d = s·pixels; its error is the sum of the scale's, the mark's and, by the kind of source, those
/// of the draughtsman's placing or of the archive's workmanship. The mark is taken to lie in the
/// scale's plane. A segment's length, a circle's diameter or radius, a curve's run … as `asked`.
/// Nothing where the mark has no such size yet. Cost: 1 … 30 µs.
/// Checked by: tests/app/session/live_length_test.cpp against the adjusted register.
[[nodiscard]] std::optional<LiveLength> liveLength(
    const LiveScale& scale, const MarkDraft& mark,
    evidence::record::DimensionQuantity asked = evidence::record::DimensionQuantity::Length);

}  // namespace app::session
