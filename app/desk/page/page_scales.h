#pragma once

#include "app/session/chosen.h"
#include "evidence-core/judgement/analysis.h"
#include "evidence-core/record/register.h"

#include <QString>

#include <optional>
#include <vector>

/// The scales of a page, in words and for use.
namespace app::desk::page {

/// "J4", by its place in the register.
[[nodiscard]] QString codeOfScale(const evidence::record::Register& reg,
                                  const evidence::record::FrameId& frame);

/// A scale of a page that can be measured with.
struct ScaleChoice {
    evidence::record::FrameId frame;
    QString words;                 ///< "J4 by 18 in"
    bool takesReferences = false;  ///< another known length can join it
};
[[nodiscard]] std::vector<ScaleChoice> scaleChoices(const evidence::record::Register& reg,
                                                    const session::PageOfFile& page);

/// The scale that most readings of the page use, of equals the first: a page of a photograph has
/// one for each plane. Nothing where the page has none.
[[nodiscard]] std::optional<evidence::record::FrameId> usualScale(
    const evidence::record::Register& reg, const session::PageOfFile& page);

/// Whether the analysis gives the scale a size.
[[nodiscard]] bool isSized(const evidence::judgement::Analysis& analysis,
                           const evidence::record::FrameId& frame);

/// "12.3 px to the inch ± 0.4 %" (half the 95 % interval), in the register's unit.
[[nodiscard]] QString scaleInWords(const evidence::judgement::FrameResult& scale,
                                   const evidence::record::ArchiveInfo& archive);

/// "scale J4: 12.3 px to the inch ± 0.4 % (2 others)": the scale `used` of a page in one line, by
/// its code where there are several.
[[nodiscard]] QString scalesInWords(const evidence::record::Register& reg,
                                    const evidence::judgement::Analysis& analysis,
                                    const session::PageOfFile& page,
                                    const std::optional<evidence::record::FrameId>& used);

}  // namespace app::desk::page
