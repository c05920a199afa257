#pragma once

#include "evidence-core/record/id.h"

#include <cstddef>

class QDialog;
class QWidget;

namespace app::desk {
class Analyst;
class OpenRegister;
}  // namespace app::desk

/// The desk's forms: one screen each, never modal; "Keep" performs the plan and closes, a refusal
/// stands in red pencil under the field it concerns and nothing is kept. The caller shows them;
/// they delete themselves when closed.
namespace app::desk::form {

/// "Guess": shows the confines known so far; asks between what and what, why, what else was
/// considered, what would settle it.
[[nodiscard]] QDialog* guessForm(OpenRegister&, Analyst&, const evidence::record::AnyId& on,
                                 QWidget* parent);
/// "Rule": the evidence now beside the build value, reason and alternatives.
[[nodiscard]] QDialog* rulingForm(OpenRegister&, Analyst&, const evidence::record::AnyId& on,
                                  QWidget* parent);
/// "Add reading": figured, stated, gauged, told, limit … with its source.
[[nodiscard]] QDialog* readingForm(OpenRegister&, Analyst&, const evidence::record::AnyId& on,
                                   QWidget* parent);
/// "New dimension".
[[nodiscard]] QDialog* dimensionForm(OpenRegister&, Analyst&, QWidget* parent);
/// "Set aside", of a reading, mark, scale, relation, shared error or source.
[[nodiscard]] QDialog* setAsideForm(OpenRegister&, const evidence::record::AnyId& record,
                                    QWidget* parent);
/// "Acknowledge" a finding: index into the findings of the analysis as it is now.
[[nodiscard]] QDialog* acknowledgeForm(OpenRegister&, Analyst&, std::size_t finding,
                                       QWidget* parent);
/// "Scale by print": resolution of the scan and the drawn scale of a page.
[[nodiscard]] QDialog* printedScaleForm(OpenRegister&, const evidence::record::FileId& file,
                                        int page, QWidget* parent);

/// "Mass from volume": of a mass, by what the part is made of.
[[nodiscard]] QDialog* massForm(OpenRegister&, const evidence::record::AnyId& on, QWidget* parent);
/// "New table row": a known thing or a material of one's own, with its source.
[[nodiscard]] QDialog* tableRowForm(OpenRegister&, QWidget* parent);

}  // namespace app::desk::form
