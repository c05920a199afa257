#pragma once

#include "app/report/document.h"
#include "app/report/register_index.h"
#include "app/report/report.h"
#include "app/report/selection.h"
#include "app/report/sheet_crop.h"

namespace app::report {

/// The document of a report: the sections of its kind, in order. The crops it asks for still have
/// to be loaded.
[[nodiscard]] Document buildDocument(const RegisterIndex& index, const Selection& selection,
                                     const ReportRequest& request, SheetCrops& crops);

}  // namespace app::report
