#pragma once

#include "evidence-core/judgement/context.h"
#include "evidence-core/judgement/grade.h"
#include "evidence-core/judgement/particular.h"

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Private to judgement/finding/: how findings are raised. Each family of kinds has a file of its
/// own; `registry.cpp` lists them once.
namespace evidence::judgement {

/// What finders look at: the evidence, and the grades that have been worked out from it.
struct Judged {
    const Context& context;
    std::span<const Graded> grades;  ///< by the solution's dimension index
    std::span<const Fact> facts;     ///< of the particulars, in the register's order
};

using Finder = void (*)(const Judged& judged, std::vector<Finding>& findings);

/// All finders; the order of the list plays no part in the answer.
[[nodiscard]] std::span<const Finder> finders();

/// Severity of a kind where nothing about the case makes it graver. Asserts that the kind is known.
[[nodiscard]] Severity usualSeverity(std::string_view kind);
/// All kinds there are, by usual severity.
[[nodiscard]] std::span<const std::pair<std::string_view, Severity>> allKinds();

/// A finding of `kind` with its usual severity.
[[nodiscard]] Finding made(std::string_view kind, std::vector<record::AnyId> on, std::string text,
                           std::string settle,
                           std::vector<std::pair<std::string, double>> numbers = {});

}  // namespace evidence::judgement
