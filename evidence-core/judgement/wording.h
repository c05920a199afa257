#pragma once

#include "evidence-core/judgement/index.h"

#include <optional>
#include <string>
#include <vector>

/// Private to judgement/: how records and figures are named in sentences for people. Names first,
/// codes in brackets; ± is always half the 95 % interval; never more figures than the doubt earns.
namespace evidence::judgement {

/// "Hoop 3 width (D12)".
[[nodiscard]] std::string nameOf(const record::Dimension& dimension);
[[nodiscard]] std::string nameOf(const record::Particular& particular);
/// "Broadside photograph (S5)".
[[nodiscard]] std::string nameOf(const record::Source& source);
/// The name of a person, or "somebody unnamed".
[[nodiscard]] std::string nameOf(const Index& index, const record::PersonId& person);
/// The name of whatever dimension or particular `id` is; the id itself where it is neither.
[[nodiscard]] std::string nameOfTarget(const Index& index, const record::AnyId& id);

/// One piece of evidence in a few words: "3'-7 5/16\" figured on General arrangement (S1)",
/// "the scaling from Broadside photograph (S5)", "our guess of 3 1/2 in".
[[nodiscard]] std::string nameOf(const Index& index, const record::Reading& reading);
/// "the rail gauge used as a scale on Broadside photograph (S5)" …
[[nodiscard]] std::string nameOf(const Index& index, const record::Frame& frame);
[[nodiscard]] std::string nameOf(const Index& index, const Index::FrameReference& reference);
/// The relation in names: "overall length = sill + 2 × post".
[[nodiscard]] std::string nameOf(const Index& index, const record::Relation& relation);
/// Any leaf of evidence by its id (a record, `g1/0` for a reference, `r1/off_plane` …), in a
/// sentence about the dimension `about`: what speaks of another size names that size.
[[nodiscard]] std::string nameOfLeaf(const Index& index, const std::string& leaf,
                                     const std::string& about = {});

/// A value as it was written: its text, else the number with `unit`.
[[nodiscard]] std::string asWritten(const record::Written& value,
                                    const std::optional<std::string>& unit);
/// The unit as printed after a figure: " in", "°", " lb", "" for pure numbers.
[[nodiscard]] std::string unitSuffix(const std::string& unit);
/// "43.31 in ± 0.12": `halfWidth` is half the 95 % interval. Without it four figures are shown.
[[nodiscard]] std::string sizeText(double value, std::optional<double> halfWidth,
                                   const std::string& unit);
/// A difference or a misfit with two figures and its unit: "0.97 in".
[[nodiscard]] std::string amountText(double amount, const std::string& unit);
/// A pure number with `digits` figures, trailing zeros cut.
[[nodiscard]] std::string plainNumber(double value, int digits = 2);
/// 0.273 → "27 %".
[[nodiscard]] std::string percentText(double share);

/// "a", "a and b", "a, b and c"; beyond `most` "a, b and 3 more".
[[nodiscard]] std::string listText(const std::vector<std::string>& names, std::size_t most = 5);
/// "1 reading", "3 readings".
[[nodiscard]] std::string countText(std::size_t count, const std::string& one,
                                    const std::string& many);
/// First letter large.
[[nodiscard]] std::string sentence(std::string text);

}  // namespace evidence::judgement
