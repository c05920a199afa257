#pragma once

#include "evidence-core/network/circular.h"
#include "evidence-core/network/fit.h"
#include "evidence-core/network/solution.h"

#include <map>
#include <string>
#include <vector>

/// Private to network/: the network while its results are written.
namespace evidence::network {

/// δ₀ for α₀ = 0.001 and power 0.80: z(1 − α₀/2) + z(power) (Baarda 1968).
inline constexpr double kDelta0 = 4.132148;
/// |w| of a conflict, α = 0.001.
inline constexpr double kCriticalW = 3.29;
/// Half-width of a 95 % interval over u, for what is taken as normal.
inline constexpr double kCover95 = 1.96;

struct Net {
    const RegisterIndex* index = nullptr;
    const Origins* origins = nullptr;
    Triage triage;
    Equations eq;
    Structure structure;
    RowMask evidence;  ///< all rows that may pull: adjusting, inferring, limits; not contradicted
    Structure::Estimability all;  ///< from `evidence`
    std::vector<Core> cores;
    Fit fit;
    std::vector<std::size_t> placeInPart;                  ///< by row: its place in its part's rows
    std::vector<std::optional<std::size_t>> partOfRow;     ///< by row; absent where it did not pull
    std::vector<std::optional<std::size_t>> rowOfReading;  ///< by triaged reading
    std::vector<std::optional<std::size_t>> rowOfRelation;

    [[nodiscard]] const record::Register& reg() const { return index->reg(); }
    [[nodiscard]] double criticalW() const {
        return triage.settings.conflictW.value_or(kCriticalW);
    }
    /// A row as adjusted; null where it did not pull or its part has no values.
    struct Place {
        const Adjustment* part = nullptr;
        std::size_t row = 0;  ///< among the part's rows
    };
    [[nodiscard]] std::optional<Place> placeOf(std::size_t row) const;
    /// Whether all sizes and scales of a row have values.
    [[nodiscard]] bool known(const Row& row) const;
};

/// Settings and defaults that are never taken away are no leaves to be named, nor are the pixels of
/// a mark: the readings and references that it serves are.
[[nodiscard]] bool isNamed(const Leaf& leaf);

/// Reliability of a row that pulled, in the unit of what it measures.
[[nodiscard]] Reliability reliabilityOf(const Net& net, const Net::Place& place);
/// Of a row that only checks: its misfit against the prediction; absent where that has no value.
[[nodiscard]] std::optional<Reliability> checkOf(const Net& net, std::size_t row);
/// σ of a row in the unit of what it measures, with the errors of its marks and without its
/// frame's.
[[nodiscard]] double ownU(const Net& net, const Row& row, const Prediction& at);

/// What is written from it, each to its list of the solution.
void writeReadings(const Net& net, Solution& to);
void writeRelations(const Net& net, Solution& to);
void writeFrames(const Net& net, Solution& to);
void writeDimensions(const Net& net, Solution& to);
void writeParts(const Net& net, Solution& to);
/// Ceilings, must-haves, single origins, steps.
void writeSupport(const Net& net, Solution& to);
/// 95 % intervals by draws where the linear ones are off by more than a twentieth.
void writeDrawnIntervals(const Net& net, Solution& to);
/// Values without any guess.
void writeWithoutGuess(const Net& net, const Eigen::VectorXd& start, Solution& to);
[[nodiscard]] std::vector<Conflict> conflictsOf(const Net& net);
[[nodiscard]] std::vector<Hurt> hurtsMost(const Net& net, const Solution& solution);
[[nodiscard]] std::vector<Wanted> seekNext(const Net& net, const Solution& solution);

}  // namespace evidence::network
