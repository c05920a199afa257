#pragma once

#include "evidence-core/judgement/analyse.h"
#include "evidence-core/judgement/digest.h"
#include "evidence-core/judgement/index.h"
#include "evidence-core/judgement/lineage.h"
#include "evidence-core/network/solution.h"
#include "evidence-core/quantity/unit.h"

#include <map>
#include <string>
#include <vector>

/// Private to judgement/: all that grades and findings are worked out from.
namespace evidence::judgement {

/// The thresholds in force: the archive's where it sets them, else the standard ones.
struct Thresholds {
    double conflictW = 3.29;
    double offPlaneDistance = 240;  ///< inches
    double longChainSteps = 5;
    double shareNotAboveF = 0.10;
    double shareNotAboveT = 0.25;
    double shareNotAboveB = 0.50;
    double shareOurs = 0.80;
};
[[nodiscard]] Thresholds thresholdsOf(const record::ArchiveInfo& archive);

/// The unit a dimension is shown in.
struct ShownUnit {
    std::string name;   ///< as in documents: "in", "mm", "deg" …
    double factor = 1;  ///< canonical = shown × factor
    quantity::Measure measure = quantity::Measure::Length;

    [[nodiscard]] double shown(double canonical) const { return canonical / factor; }
};
/// Errors: BadUnit where the unit does not fit the quantity.
[[nodiscard]] Result<ShownUnit> shownUnitOf(const record::Dimension& dimension);

/// Everything about the analysed register that a grade or a finding may look at.
struct Context {
    const Index& index;
    const Lineage& lineage;
    const Digests& digests;
    const network::Solution& solution;
    const Surroundings& surroundings;
    Thresholds thresholds;
    std::vector<ShownUnit> units;  ///< by the solution's dimension index
    /// Conflicts a dimension's own readings take part in, by the solution's dimension index.
    std::vector<std::vector<std::size_t>> conflictsOf;
    std::map<std::string, std::size_t, std::less<>> readingAt;    ///< reading id → solution index
    std::map<std::string, std::size_t, std::less<>> dimensionAt;  ///< dimension id → solution index
    std::map<std::string, std::size_t, std::less<>> frameAt;
    std::map<std::string, std::size_t, std::less<>> relationAt;
    std::vector<std::string> evidence;  ///< fingerprint of all a dimension hangs on, by index

    [[nodiscard]] const record::Dimension& record(const network::DimensionSolution& d) const {
        return *index.dimension(d.id.text);
    }
    /// Half the 95 % interval in the shown unit, absent without one.
    [[nodiscard]] std::optional<double> halfWidth(std::size_t dimension) const;
    /// "43.31 in ± 0.12", or "no value".
    [[nodiscard]] std::string sizeOf(std::size_t dimension) const;
    /// Names of leaves in a sentence about the dimension `about`, without the settings nobody can
    /// look for.
    [[nodiscard]] std::vector<std::string> namesOfLeaves(const std::vector<std::size_t>& leaves,
                                                         std::size_t about) const;
};

/// Errors: BadUnit.
[[nodiscard]] Result<Context> contextOf(const Index& index, const Lineage& lineage,
                                        const Digests& digests, const network::Solution& solution,
                                        const Surroundings& surroundings);

/// A written value in the shown unit of `unit`, bare numbers taking `given`, else that unit.
/// Errors: as parseQuantity.
[[nodiscard]] Result<double> shownValue(const record::Written& value,
                                        const std::optional<std::string>& given,
                                        const ShownUnit& unit);

/// The state of a source or reading certainly differs from the one `wanted`.
[[nodiscard]] bool isOfAnotherState(const Index& index, const record::Reading& reading,
                                    const std::optional<record::StateId>& wanted);

}  // namespace evidence::judgement
