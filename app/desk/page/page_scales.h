#pragma once

#include "app/session/chosen.h"
#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <QString>

#include <optional>

/// The scales of a page, in words and for use.
namespace app::desk::page {

/// The `uniform` scale of the page to which another known length is added; null where a new one is
/// to be made.
[[nodiscard]] const evidence::record::Frame* scaleToAddTo(const evidence::record::Register& reg,
                                                          const session::PageOfFile& page);

/// The scale to measure with: of those of the page that have a size, the one known best.
[[nodiscard]] std::optional<evidence::record::FrameId> scaleToMeasureWith(
    const evidence::record::Register& reg, const evidence::judgement::Analysis& analysis,
    const session::PageOfFile& page);

/// "scale: 12.3 px to the inch ± 0.4 %" (half the 95 % interval), in the register's unit.
[[nodiscard]] QString scaleInWords(const evidence::judgement::FrameResult& scale,
                                   const evidence::record::ArchiveInfo& archive);

/// The scales of a page in one line: the one measured with, and how many others there are.
[[nodiscard]] QString scalesInWords(const evidence::record::Register& reg,
                                    const evidence::judgement::Analysis& analysis,
                                    const session::PageOfFile& page);

}  // namespace app::desk::page
