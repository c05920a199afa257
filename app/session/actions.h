#pragma once

#include "evidence-core/record/change.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

/// The user's actions as plans: pure functions from the register and what the user gave to a change
/// set, or a refusal that says what is missing. `Archive::perform` carries a plan out. The window
/// and the command line make the same plans. Each has its own source file.
///
/// The place of a refusal is the draft's field, in the exchange document's keys, so that a form can
/// put the focus there: "reason", "length/value", "print/dpi", "off_plane/distance", "mark/points",
/// "alternatives/0/value". White space alone counts as nothing written.
namespace app::session {

/// What every plan needs: the register as it is, who acts, and the time. New records get UUIDv7.
struct Context {
    const evidence::record::Register& reg;
    evidence::record::PersonId by;
    std::string at;  ///< RFC 3339
};

/// A mark as the page made it: placed or fitted, in upright pixels.
struct MarkDraft {
    evidence::record::FileId file;
    int page = 1;
    evidence::record::MarkKind kind = evidence::record::MarkKind::Segment;
    std::vector<evidence::record::PixelPoint> points;
    std::optional<double> uPx;
    std::vector<std::vector<double>> covariance;
    std::optional<evidence::record::Made> made;
    std::optional<evidence::record::SheetSeen> seen;
    std::optional<evidence::record::ConicFit> fit;
};

/// "Set scale": drag along the known thing and say what it is. Adds the mark and either a new
/// `uniform` scale of that page or, with `frame`, one more reference of it.
struct ScaleDraft {
    MarkDraft mark;
    evidence::record::KnownLength length;  ///< a value as typed, or a dimension
    std::optional<evidence::record::FrameId> frame;
    std::optional<double> parallelWithin;  ///< degrees, of a photograph
};
evidence::Result<evidence::record::ChangeSet> planScale(const Context&, const ScaleDraft&);

/// "Set scale by print": scan resolution and drawn scale.
struct PrintedScaleDraft {
    evidence::record::FileId file;
    int page = 1;
    evidence::record::Print print;
};
evidence::Result<evidence::record::ChangeSet> planPrintedScale(const Context&,
                                                               const PrintedScaleDraft&);

/// "Measure": drag along the wanted thing, type a name: mark, reading and, where the name is new,
/// the dimension exist, linked.
struct MeasureDraft {
    MarkDraft mark;
    evidence::record::FrameId frame;
    std::optional<evidence::record::DimensionId> dimension;  ///< an existing one, or …
    std::string name;                                        ///< … a new one of this name
    std::optional<std::string> component;
    evidence::record::DimensionQuantity quantity = evidence::record::DimensionQuantity::Length;
    std::optional<evidence::record::OffPlane> offPlane;
};
evidence::Result<evidence::record::ChangeSet> planMeasure(const Context&, const MeasureDraft&);

/// A new dimension without evidence yet.
struct DimensionDraft {
    std::string name;
    std::optional<std::string> component;
    evidence::record::DimensionQuantity quantity = evidence::record::DimensionQuantity::Length;
    std::optional<std::string> unit;
    std::optional<double> tolerance;
    bool critical = false;
};
evidence::Result<evidence::record::ChangeSet> planDimension(const Context&, const DimensionDraft&);

/// Any other reading: figured, stated, gauged, told, limit … as the form filled it.
evidence::Result<evidence::record::ChangeSet> planReading(const Context&,
                                                          evidence::record::Reading reading);

/// "Guess": between what and what, why, what else was considered, what would settle it.
/// Refused (MissingKey) without both bounds and a reason; a particular is guessed in words instead.
struct GuessDraft {
    evidence::record::AnyId of;
    std::string low;    ///< as typed, of a dimension
    std::string high;   ///< as typed, of a dimension
    std::string value;  ///< of a particular
    std::string reason;
    std::string considered;
    std::string wouldSettle;
    std::optional<std::string> floorReason;
};
evidence::Result<evidence::record::ChangeSet> planGuess(const Context&, const GuessDraft&);

/// "Mass": of a part from its volume and what it is made of: an exact relation
/// `D5 = (volume) * density`, with a relative shared error for the density's spread, so that the
/// doubt follows the mass. Errors: BadUnit at "of" for a dimension that is no mass; MissingKey and
/// BadUnit at "volume"; MissingTarget and WrongUse at "table_row" for what is no density; WrongUse
/// at "same_stock" where that mass has another material.
struct MassDraft {
    evidence::record::AnyId of;
    std::string volume;    ///< in the formula language: "D4", "D1*D2*D3", "120 in3"
    std::string tableRow;  ///< of a density
    /// The mass relation of a part out of the same board or casting: one density for both.
    std::optional<evidence::record::RelationId> sameStock;
    std::string reason;  ///< what else there is to say; may be blank
};
evidence::Result<evidence::record::ChangeSet> planMass(const Context&, const MassDraft&);

/// A row that people add to the trade tables of their archive. A blank id becomes a new one.
/// Errors: those of `trade::ownRow`, at its keys: a row without a source is refused.
evidence::Result<evidence::record::ChangeSet> planTableRow(const Context&,
                                                           evidence::record::TableRow row);

/// "Rule": the build value, refused (MissingKey) without a reason. `evidence` is the state of the
/// dimension now, from the analysis.
struct RulingDraft {
    evidence::record::AnyId on;
    std::string value;  ///< as typed
    std::string reason;
    std::vector<evidence::record::Alternative> alternatives;
    std::optional<double> tolerance;
    std::optional<evidence::record::EvidenceState> evidence;
};
evidence::Result<evidence::record::ChangeSet> planRuling(const Context&, const RulingDraft&);

/// Sets a reading (or mark, frame, relation, shared error, source) aside with a reason.
evidence::Result<evidence::record::ChangeSet> planSetAside(const Context&,
                                                           const evidence::record::AnyId& record,
                                                           const std::string& reason);

/// Acknowledges a finding with the reason why it may stand.
evidence::Result<evidence::record::ChangeSet> planAcknowledge(
    const Context&, const std::string& kind, const std::vector<evidence::record::AnyId>& on,
    const std::string& digest, const std::string& reason);

}  // namespace app::session
