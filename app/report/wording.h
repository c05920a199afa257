#pragma once

#include "app/report/document.h"
#include "app/report/register_index.h"
#include "evidence-core/record/register.h"

#include <QString>

/// The words that reports use for what the records hold as names: one place, one word for one
/// thing.
namespace app::report {

[[nodiscard]] QString gradeLetter(evidence::record::Grade grade);
[[nodiscard]] QString gradeName(evidence::record::Grade grade);     ///< "Taken off"
[[nodiscard]] QString gradeMeaning(evidence::record::Grade grade);  ///< one plain sentence
/// The sign as letters print it: "▲ T" (filled: square, circle, triangle; open: square, circle;
/// cross; dash), for running text. Headings draw it.
[[nodiscard]] QString gradeSign(evidence::record::Grade grade);

[[nodiscard]] QString basisWords(evidence::record::Basis basis);
[[nodiscard]] QString basisSentence(evidence::record::Basis basis);
[[nodiscard]] QString kindWords(evidence::record::SourceKind kind);
[[nodiscard]] QString authorityWords(evidence::record::Authority authority);
[[nodiscard]] QString standingWords(evidence::record::Standing standing);
[[nodiscard]] QString descentWords(evidence::record::DescentKind kind);
[[nodiscard]] QString scaleWords(evidence::record::FrameModel model);
[[nodiscard]] QString madeWords(evidence::record::Made made);
[[nodiscard]] QString whyWords(evidence::record::DepartureWhy why);
[[nodiscard]] QString quantityWords(evidence::record::DimensionQuantity quantity);
[[nodiscard]] QString particularKindWords(evidence::record::ParticularKind kind);
[[nodiscard]] QString queryStateWords(evidence::record::QueryState state);
[[nodiscard]] QString roleWords(evidence::record::Role role);

/// The plain name of a kind of finding ("Single witness family" for `single-origin`).
[[nodiscard]] QString findingName(const std::string& kind);

/// "11 May 2026" from RFC 3339 or a plain EDTF day; other dates as they stand.
[[nodiscard]] QString dateWords(const std::string& date);
/// Whole days, months or years from `from` to `to` ("7 months"); empty where either is unreadable.
[[nodiscard]] QString ageWords(const std::string& from, const std::string& to);

/// "S3 General arrangement, Corran Museum, 14/3": title, holder and call number, linked.
[[nodiscard]] Text sourceWords(const RegisterIndex& index, const evidence::record::Source& source);
/// "S3" linked, with holder and call number.
[[nodiscard]] Text sourceShort(const RegisterIndex& index, const evidence::record::Source& source);
/// "as first built (1909-03 to 1910~)".
[[nodiscard]] QString stateWords(const evidence::record::State& state);
/// A relation's formula in names: "Hoop width = Sill + 2 × Post".
[[nodiscard]] QString formulaWords(const RegisterIndex& index, const std::string& formula);

/// Strength and fitness for use are for licensed practice and local rules.
[[nodiscard]] QString cautionWords();

}  // namespace app::report
