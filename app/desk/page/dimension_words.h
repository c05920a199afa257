#pragma once

#include "evidence-core/record/register.h"

#include <QString>
#include <QStringList>

#include <functional>

/// Dimensions as people type and pick them in a field.
namespace app::desk::page {

/// "D12 Hoop width"; the name alone where there is no code.
[[nodiscard]] QString wordsOf(const evidence::record::Dimension& dimension);

/// All dimensions that are not set aside and of which `fits` holds, for a completer.
[[nodiscard]] QStringList wordsOfAll(
    const evidence::record::Register& reg,
    const std::function<bool(const evidence::record::Dimension&)>& fits);

/// The dimension that a text means by its code, by "D12 Hoop width" or, where only one has it, by
/// its name (in either case of letters); null where it means none. With a `component` the name
/// counts only there: other parts have widths too.
[[nodiscard]] const evidence::record::Dimension* dimensionMeant(
    const evidence::record::Register& reg, const QString& typed, const QString& component = {});

}  // namespace app::desk::page
