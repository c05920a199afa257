#pragma once

#include "app/report/sections.h"

#include <vector>

/// How one reading came about, in words, figures and pictures: shared by dimensions and
/// particulars.
namespace app::report {

/// "R3 measured on the picture, S5 Corran Museum 14/3": what it is and where from.
[[nodiscard]] Text readingTitle(const RegisterIndex& index,
                                const evidence::record::Reading& reading);
/// "R5 (S1)": code and source alone, for tables that say the rest.
[[nodiscard]] Text readingShort(const RegisterIndex& index,
                                const evidence::record::Reading& reading);

/// Everything else it says of itself: excerpt, corrections, nearer-or-farther term, instrument,
/// reason, who and when. Empty where there is nothing.
[[nodiscard]] Text readingDetail(const RegisterIndex& index,
                                 const evidence::record::Reading& reading,
                                 const evidence::record::Dimension* dimension);

/// The pictures it was measured on or read from, with its marks drawn.
[[nodiscard]] std::vector<Figure> readingPictures(Writing& writing,
                                                  const evidence::record::Reading& reading,
                                                  const QString& label);

/// The pages of a scale with its known lengths drawn.
[[nodiscard]] std::vector<Figure> scalePictures(Writing& writing,
                                                const evidence::record::Frame& frame);

/// "56 1⁄2 in ± 0.80 in, stated (S7)", or the dimension it is taken from.
[[nodiscard]] Text knownLengthWords(const RegisterIndex& index,
                                    const evidence::record::KnownLength& length);

}  // namespace app::report
