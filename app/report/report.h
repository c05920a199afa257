#pragma once

#include "app/session/archive.h"
#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/decision.h"
#include "evidence-core/refusal.h"

#include <array>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

/// Reports for reviewers and the shop, as PDF (PDF/A-1b) or as one self-contained HTML file.
///
/// Needs a QGuiApplication (fonts); where there is no display its platform is "offscreen".
namespace app::report {

/// `provenance`: everything, part by part. `short`: for sponsors and visitors, without the parts.
/// `guesses`: what rests on a guess. `departures`: where the build differs on purpose.
/// `shop`: build values by component. `slip`: half a page for one dimension (needs `filter.on`).
enum class Kind { Provenance, Short, Shop, Slip, Departures, Guesses };

/// "provenance", "short" …: the names of `report --kind`, and of issued reports.
[[nodiscard]] std::string_view nameOf(Kind kind);
[[nodiscard]] std::optional<Kind> kindNamed(std::string_view name);

enum class PaperSize { Letter, A4 };

struct ReportRequest {
    Kind kind = Kind::Provenance;
    evidence::record::ReportFilter filter;  ///< codes or ids; absent: everything
    std::string at;                         ///< RFC 3339 in UTC: the time of writing
    std::string registerDigest;             ///< of the journal's head; empty: not stated
    PaperSize paper = PaperSize::Letter;
};

/// Where the original of a file lies; an empty path where its bytes are absent.
/// May be called from the caller's thread only.
using OriginalLookup = std::function<std::filesystem::path(const evidence::record::File&)>;

/// Writes the report to `out`, by its extension: `.pdf` or `.html`. The file appears whole or not
/// at all. The same snapshot, analysis and request give the same file, byte for byte.
/// Errors: WrongUse for another extension, a kind that needs `on`, or a filter this kind does not
/// know; MissingTarget where the filter names nothing in the register.
/// System failures (disk full, no permission) are std::filesystem::filesystem_error.
[[nodiscard]] evidence::Result<void> writeReport(const session::Snapshot& snapshot,
                                                 const OriginalLookup& originals,
                                                 const evidence::judgement::Analysis& analysis,
                                                 const ReportRequest& request,
                                                 const std::filesystem::path& out);

}  // namespace app::report
