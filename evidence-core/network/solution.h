#pragma once

#include "evidence-core/network/leaf.h"
#include "evidence-core/quantity/interval.h"
#include "evidence-core/record/register.h"
#include "evidence-core/refusal.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// The evidence network of a register and its adjustment (domain.md, "Analysis").
///
/// All numbers are in canonical units (in, rad, lb, in², in³, 1). Lists follow the register's order
/// where a record stands behind each entry, else the content; no number depends on the order of the
/// records. Indices point into the lists of the same `Solution`.
///
/// Symbols: σ own standard uncertainty of an observation (without its frame's), r its redundancy
/// number, w its normalised residual, mde its minimal detectable error at α₀ = 0.001, power 0.80.
namespace evidence::network {

/// Residual, reliability and prediction of one observation. Signs: observed − adjusted; for a
/// relation left − right counts as −residual.
struct Reliability {
    double residual = 0;
    double redundancy = 0;      ///< 0 … 1; 0 for an exact relation
    std::optional<double> w;    ///< absent where nothing else checks it
    std::optional<double> mde;  ///< absent where nothing else checks it
    /// Observed − what all the others predict, and the u of that difference; absent as `w`.
    std::optional<double> misfit;
    std::optional<double> uMisfit;
};

/// How much one leaf moves a value.
struct Contribution {
    std::size_t leaf = 0;
    double u = 0;      ///< |∂value/∂leaf| · u(leaf), canonical unit of the dimension
    double share = 0;  ///< of the value's variance, 0 … 1
};

enum class ReadingUse {
    Used,
    Echo,      ///< weight 0: a leader of the same origin stands for it
    Limit,     ///< low or high; checked against, acts only where nothing else determines
    SetAside,  ///< it, its source, mark, frame or dimension is set aside
    LeftOut,   ///< cannot be used; `why` says so
};

struct ReadingSolution {
    record::ReadingId id;
    std::size_t dimension = 0;
    ReadingUse use = ReadingUse::Used;
    std::string why;                  ///< of SetAside and LeftOut, in words
    std::optional<std::size_t> leaf;  ///< Used, and limits that act
    std::optional<double> value;  ///< corrected; through its frame as adjusted; absent if unknown
    std::optional<double> u;      ///< σ
    std::optional<Reliability> reliability;  ///< Used and Echo; an echo has residual alone
    std::optional<double> pull;              ///< ∂value/∂reading
    std::optional<double> varianceShare;
    std::optional<record::ReadingId> echoOf;
    std::optional<double> echoDifference;  ///< echo − leader
    std::optional<double> uEchoDifference;
    bool byDefault = false;
    bool floored = false;
};

enum class Footing {
    Determined,
    Undetermined,  ///< too little evidence
    Circular,      ///< evidence that only leads back to itself
};

/// Hard limits of a dimension, intersected.
struct LimitSolution {
    std::optional<double> low;
    std::optional<double> high;
    std::vector<record::ReadingId> lowFrom;  ///< those that set it
    std::vector<record::ReadingId> highFrom;
    bool empty = false;     ///< they exclude each other
    bool excludes = false;  ///< they exclude the value, or each other
    bool acts = false;      ///< the pair serves as one rectangular reading
};

struct Interval {
    double low = 0;
    double high = 0;
};

struct DimensionSolution {
    record::DimensionId id;
    bool setAside = false;
    Footing footing = Footing::Undetermined;
    std::string why;  ///< what is missing, where not determined; empty else
    std::optional<double> value;
    std::optional<double> u;
    std::optional<Interval> interval95;  ///< cut by hard limits
    std::optional<Interval> uncut95;     ///< before cutting
    /// Draws that the interval was counted from, where the equations are too curved for the
    /// convolution of what pulls (JCGM 101); 0: it is that convolution.
    int draws = 0;
    /// Best class such that leaves of that class or better alone determine it; absent: never.
    std::optional<record::Grade> ceiling;
    bool estimable = false;     ///< with all evidence, guesses included
    bool restsOnGuess = false;  ///< estimable, but not without leaves of class O
    double guessShare = 0;      ///< share of the variance that leaves of class O carry
    double borrowedShare = 0;   ///< of classes O and C together
    std::optional<double> valueWithoutGuess;  ///< absent: not estimable without
    std::optional<double> uWithoutGuess;
    std::vector<std::size_t> mustHave;      ///< leaves whose removal alone leaves it not estimable
    std::vector<record::SourceId> origins;  ///< of the leaves that pull it
    std::optional<record::SourceId> singleOrigin;  ///< origin whose removal leaves it not estimable
    int steps = 0;                                 ///< fewest from mark or text to size
    std::vector<Contribution> contributions;       ///< largest share first
    std::vector<std::size_t> readings;             ///< all that speak of it
    LimitSolution limits;
    bool outsideReadings = false;  ///< value outside its readings, or one of them pulls backwards
    std::optional<std::size_t> part;
};

struct RelationSolution {
    record::RelationId id;
    bool used = false;          ///< it pulls: `adjust`, or `infer` that acts
    bool inferred = false;      ///< `infer` that acts
    bool inequality = false;    ///< `<=`, `>=`: checked only
    bool contradicted = false;  ///< exact relations that cannot hold together; left out
    bool holds = true;          ///< |w| ≤ 3.29; an inequality: not failed by more than 1.96 u
    std::string why;            ///< why it could not be judged; empty else
    std::optional<std::size_t> leaf;
    std::optional<double> misclosure;   ///< left − right, predicted without the relation
    std::optional<double> uMisclosure;  ///< with the relation's own u
    std::optional<double> residual;     ///< −(left − right) as adjusted
    std::optional<double> redundancy;
    std::optional<double> w;
    std::optional<double> mde;
    std::vector<std::size_t> dimensions;  ///< that stand in it
};

struct ReferenceSolution {
    std::string id;        ///< `g1/0`
    bool used = false;     ///< it pulls the frame
    bool checked = false;  ///< `use: check`
    std::string why;       ///< why it is not used; empty else
    std::optional<std::size_t> leaf;
    std::optional<std::size_t> dimension;  ///< where its length is a dimension
    std::optional<double> length;          ///< in
    std::optional<double> uLength;
    std::optional<double> pixels;  ///< length of its mark
    std::optional<double> uPixels;
    /// In inches: pixels through the adjusted frame − length.
    std::optional<Reliability> reliability;
    bool byDefault = false;
    bool floored = false;
};

struct FrameSolution {
    record::FrameId id;
    bool setAside = false;
    bool supported = true;      ///< its model is handled by this network
    bool hasReference = false;  ///< a usable reference or print
    Footing footing = Footing::Undetermined;
    std::optional<double> inchesPerPixel;
    std::optional<double> uRelative;
    /// Independent errors of the scale, relative to it: what `uRelative` is made of, with shapes.
    std::vector<quantity::Component> errors;
    std::optional<double> rmsPx;             ///< of the references' residuals
    std::optional<double> longestReference;  ///< in
    std::vector<ReferenceSolution> references;
};

class Influence;

/// A connected part of the network.
struct PartSolution {
    std::vector<std::size_t> dimensions;
    int unknowns = 0;  ///< estimable directions
    int observations = 0;
    double redundancy = 0;
    double chi2 = 0;
    std::optional<double> p;  ///< absent without redundancy
    bool converged = true;
    /// The adjusted part and the column of each of `dimensions` in it, absent where not estimable:
    /// what covariances are worked out from when asked for.
    std::shared_ptr<const Influence> influence;
    std::vector<std::optional<std::ptrdiff_t>> columns;
};

/// One observation within a conflict, as it stood when it was found.
struct ConflictMember {
    std::string id;  ///< reading, reference, print, limit or relation
    double w = 0;
    double misfit = 0;  ///< observed − predicted by all the others
    double uMisfit = 0;
};

/// Readings that disagree and cannot be told apart, the one with the largest |w| first; found one
/// at a time, each after the former ones were removed.
struct Conflict {
    std::vector<ConflictMember> members;
};

/// Evidence that leads back to itself.
struct Circle {
    std::vector<std::size_t> dimensions;  ///< the core: none has a datum
    std::vector<record::FrameId> frames;
    std::vector<std::string> path;   ///< ids along one loop, alternately unknown and link
    std::vector<std::string> links;  ///< readings, references and relations that could be cut
};

/// Evidence that would help, with what it would gain.
struct Wanted {
    std::size_t dimension = 0;
    record::Basis by = record::Basis::Gauged;
    double assumedU = 0;
    double gain = 0;  ///< drop of Σ variance / (wanted tolerance)² over the dimensions that matter
    std::vector<std::size_t> helps;
};

/// A reading that would hurt if it were wrong.
struct Hurt {
    std::size_t reading = 0;
    bool checked = true;        ///< false: nothing else would show any error in it
    double unseen = 0;          ///< error that would go unnoticed, in the unit of what it reads
    std::size_t dimension = 0;  ///< that it would move farthest beyond its wanted tolerance
    double moves = 0;           ///< by so much
    double harm = 0;  ///< Σ (movement / wanted tolerance)² over the dimensions that matter
};

struct Solution {
    int unknowns = 0;
    int observations = 0;
    double redundancy = 0;
    double chi2 = 0;
    std::optional<double> p;
    bool converged = true;
    std::vector<Leaf> leaves;                   ///< by content
    std::vector<DimensionSolution> dimensions;  ///< in the register's order
    std::vector<ReadingSolution> readings;      ///< those of dimensions, in the register's order
    std::vector<RelationSolution> relations;    ///< in the register's order
    std::vector<FrameSolution> frames;          ///< in the register's order
    std::vector<PartSolution> parts;
    std::vector<Conflict> conflicts;  ///< largest |w| first
    std::vector<Circle> circles;
    std::vector<Wanted> seekNext;  ///< largest gain first
    std::vector<Hurt> hurtsMost;   ///< largest harm first, the worst twenty

    /// Covariance of two dimensions, by their indices; 0 in different parts.
    [[nodiscard]] double covariance(std::size_t a, std::size_t b) const;
};

/// Builds the network of `reg`, adjusts it and judges its reliability. Weights are 1/σ²; the
/// variance factor is 1, always. Exact relations hold exactly. Gauss–Newton from start values taken
/// from the evidence; a part that does not converge has `converged` false and gives no values.
/// Errors: BadFormula, BadUnit, BadValue, MissingTarget where a record cannot be used as written,
/// with its place such as `/relations/3/formula`.
[[nodiscard]] Result<Solution> solve(const record::Register& reg);

}  // namespace evidence::network
