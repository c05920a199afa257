#pragma once

#include "evidence-core/judgement/index.h"

#include <functional>
#include <string>

/// Private to judgement/: what a record says as evidence, as one canonical text. Two records that
/// say the same have the same text, whatever their ids, codes and names are and in whatever order
/// their lists were entered. What is no evidence (names, notes, who typed it) is left out.
namespace evidence::judgement {

/// What stands for a record that another one refers to.
using Stand = std::function<std::string(const std::string& id)>;

[[nodiscard]] std::string contentOf(const record::Source& source, const Stand& stand);
[[nodiscard]] std::string contentOf(const record::Mark& mark, const Stand& stand);
[[nodiscard]] std::string contentOf(const record::Frame& frame, const Stand& stand);
/// One reference of a frame, without the frame.
[[nodiscard]] std::string contentOf(const record::Reference& reference, const Stand& stand);
[[nodiscard]] std::string contentOf(const record::Dimension& dimension, const Stand& stand);
[[nodiscard]] std::string contentOf(const record::Particular& particular, const Stand& stand);
[[nodiscard]] std::string contentOf(const record::Reading& reading, const Stand& stand);
[[nodiscard]] std::string contentOf(const record::SharedError& shared, const Stand& stand);
/// Codes in the formula are replaced by what stands for their dimensions.
[[nodiscard]] std::string contentOf(const record::Relation& relation, const Index& index,
                                    const Stand& stand);

/// SHA-256 of a text, in small hexadecimal.
[[nodiscard]] std::string sha256Of(const std::string& text);

}  // namespace evidence::judgement
