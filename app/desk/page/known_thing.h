#pragma once

#include "evidence-core/record/frame.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <QString>

#include <string>

namespace app::desk::page {

/// What somebody typed beside a drag along a known thing.
struct KnownThing {
    QString what;       ///< a length as written, a dimension by code or name, a thing of the tables
    QString plusMinus;  ///< half the 95 % interval, as written; empty: the default of its basis
    evidence::record::SourceId source;  ///< empty: assumed, or as the table says
    std::string row = {};               ///< which row of the tables is meant; empty: as typed
};

/// The known length that this is. A dimension of the register brings its own uncertainty and
/// source. A length without a source is assumed, which is a guess; with one its basis follows from
/// the source's kind: a figure on a drawing, a part gauged, a person told, else stated. A thing of
/// the trade tables brings its spread and its reason, a ± of one's own outranks that.
/// Errors: those of `session::typedValue` at "length/value", of `session::typedAmount` at
/// "length/half_width", and BadValue there for 0; MissingKey
/// at "length/value" for an empty text; BadUnit there for a dimension that is no length; MissingKey
/// at "length/table_row", with the question, for words such as "16 gauge" that leave open what they
/// mean.
[[nodiscard]] evidence::Result<evidence::record::KnownLength> knownLengthOf(
    const evidence::record::Register& reg, const KnownThing& thing);

}  // namespace app::desk::page
