#pragma once

#include "evidence-core/record/register.h"

#include <QString>
#include <QStringList>

#include <functional>
#include <optional>
#include <string>

/// Dimensions and lengths as people type, pick and read them.
namespace app::desk::page {

/// "D12 Hoop width"; the name alone where there is no code.
[[nodiscard]] QString wordsOf(const evidence::record::Dimension& dimension);

/// A length as it was written: "4'-8 1/2\"", "1605 mm".
[[nodiscard]] QString wordsOf(const evidence::record::Written& length,
                              const std::optional<std::string>& unit);

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
