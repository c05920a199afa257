#pragma once

#include "app/session/chosen.h"
#include "evidence-core/record/frame.h"
#include "evidence-core/refusal.h"

#include <filesystem>
#include <string>
#include <vector>

namespace app::session {

/// What a person typed about a print: pixels per inch ("400"), the drawn scale ("1:24", or 24), and
/// the relative standard uncertainty in per cent ("0.5", blank for the default). Blank resolution
/// or scale is left out, for the plan to ask for. Errors: BadValue at "print/dpi",
/// "print/drawn_scale" or "print/u_relative".
[[nodiscard]] evidence::Result<evidence::record::Print> printTyped(
    const std::string& dpi, const std::string& drawnScale, const std::string& withinPercent);

/// What the file claims its resolution to be: "400 per in (TIFF)", "300 × 301 per in (EXIF)".
/// Nothing where it claims none or cannot be read.
[[nodiscard]] std::vector<std::string> resolutionClaims(const std::filesystem::path& original,
                                                        int page);

/// The relative uncertainty of a print for which none is given, in per cent.
[[nodiscard]] double defaultShrinkagePercent(const evidence::record::Register& reg);

/// "General arrangement (S1), page 2"; without the page where the file has only one.
[[nodiscard]] std::string pageName(const PageOfFile& page, const evidence::record::Register& reg);

}  // namespace app::session
