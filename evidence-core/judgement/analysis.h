#pragma once

#include "evidence-core/quantity/interval.h"
#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

/// The answer of the analysis as one value, just as `analyse --json` prints it (docs/exchange.md).
/// Values of a dimension are in that dimension's unit; absent means "null".
namespace evidence::judgement {

struct ReadingResult {
    record::ReadingId id;
    std::optional<double> value;
    std::optional<double> u;
    std::optional<double> residual;  ///< observed − adjusted
    std::optional<double> redundancy;
    std::optional<double> w;              ///< absent where redundancy is 0
    std::optional<double> mde;            ///< α₀ 0.001, power 0.80; absent where redundancy is 0
    std::optional<double> pull;           ///< ∂value/∂reading
    std::optional<double> varianceShare;  ///< 0 … 1
    std::optional<record::ReadingId> echoOf;
};

struct WithoutGuess {
    std::optional<double> value;
    std::optional<double> u;
};

/// One piece of evidence that moves a value; not printed in the JSON answer.
struct LeafShare {
    std::string id;                         ///< a record's, `g1/0`, `r1/off_plane` …
    std::optional<record::Grade> strength;  ///< its class; absent: sets no ceiling
    double share = 0;                       ///< of the value's variance, 0 … 1
};

/// How well the best readings of different origins agree, in the dimension's unit; printed by
/// `explain`, applied to nothing.
struct Agreement {
    int readings = 0;
    double birge = 0;      ///< √(χ²/(n − 1)); 1: they scatter as their doubts say
    double chi2 = 0;       ///< of the readings about their weighted mean
    double p = 0;          ///< probability of a larger one
    double uInternal = 0;  ///< of their weighted mean, as their doubts say
    double uExternal = 0;  ///< and as their scatter says
    double between = 0;    ///< standard deviation between sources (Mandel–Paule)
    double median = 0;
};

/// Half of the 95 % interval by Student's t at the effective degrees of freedom
/// (Welch–Satterthwaite), in the dimension's unit.
struct RepeatsJudged {
    double degrees = 0;
    double halfWidth = 0;
};

struct DimensionResult {
    record::DimensionId id;
    std::string code;
    std::string unit;
    std::optional<double> value;
    std::optional<double> u;
    std::optional<double> low95;
    std::optional<double> high95;
    int draws = 0;  ///< that the interval was counted from, where the equations are too curved
    record::Grade grade = record::Grade::Blank;
    std::string gradeWhy;
    std::string raiseBy;
    std::vector<std::string> mustHave;  ///< leaves: record ids, references as `g1/0`
    int steps = 0;
    bool estimable = false;  ///< with all evidence, guesses included
    bool restsOnGuess = false;
    double guessPull = 0;  ///< share of the variance that guesses carry
    std::optional<WithoutGuess> withoutGuess;
    int origins = 0;
    std::vector<std::string> flags;  ///< kinds of findings on it
    std::vector<ReadingResult> readings;
    std::vector<LeafShare> leaves;         ///< largest share first
    std::optional<Agreement> agreement;    ///< absent with fewer than two origins
    std::optional<RepeatsJudged> repeats;  ///< absent where no repeats pull it
    std::string digest;                    ///< of everything the value hangs on
};

struct ParticularResult {
    record::ParticularId id;
    std::string code;
    std::optional<std::string> value;
    record::Grade grade = record::Grade::Blank;
    std::string gradeWhy;
    int origins = 0;
    bool agree = true;
    std::string digest;
};

struct RelationResult {
    record::RelationId id;
    std::optional<double> misclosure;
    std::optional<double> residual;
    std::optional<double> redundancy;
    std::optional<double> w;
    std::optional<double> mde;
    bool holds = true;
};

struct ReferenceResult {
    std::optional<double> residual;  ///< inches
    std::optional<double> w;
    std::optional<double> mde;
};

struct FrameResult {
    record::FrameId id;
    std::string model;
    std::optional<double> inchesPerPixel;
    std::optional<double> uRelative;
    /// Independent errors of the scale, relative to it; not printed in the JSON answer.
    std::vector<quantity::Component> errors;
    std::optional<double> rmsPx;
    std::vector<ReferenceResult> references;
};

struct PartResult {
    std::vector<record::DimensionId> dimensions;
    double redundancy = 0;
    double chi2 = 0;
    std::optional<double> p;
};

struct NetworkResult {
    int unknowns = 0;
    int observations = 0;
    double redundancy = 0;
    double chi2 = 0;
    std::optional<double> p;
    bool converged = true;
};

enum class Severity { High, Medium, Low, Note };

struct Finding {
    std::string kind;
    Severity severity = Severity::Note;
    std::vector<record::AnyId> on;  ///< first the record it is about
    std::vector<std::pair<std::string, double>> numbers;
    std::string text;    ///< plain trade English
    std::string settle;  ///< what would settle it
    bool acknowledged = false;
    std::string digest;  ///< of the evidence it rests on
};

struct SeekNext {
    record::DimensionId dimension;
    std::string by;
    double assumedU = 0;
    double gain = 0;
    std::vector<record::DimensionId> helps;
};

/// A reading that would hurt if it were wrong by what would go unnoticed.
struct HurtsMost {
    record::ReadingId reading;
    bool checked = true;  ///< false: nothing else would show any error in it
    double unseen = 0;    ///< in the unit of the dimension it reads
    record::DimensionId dimension;
    double moves = 0;  ///< in the unit of `dimension`
};

struct Covariance {
    record::DimensionId a;
    record::DimensionId b;
    double value = 0;  ///< in the product of the two units
};

/// Lists are in the order of codes (D2 before D12), then of content: never of ids or of entry.
/// Findings by severity, then size, then content.
struct Analysis {
    NetworkResult network;
    std::vector<PartResult> parts;
    std::vector<DimensionResult> dimensions;
    std::vector<ParticularResult> particulars;
    std::vector<RelationResult> relations;
    std::vector<FrameResult> frames;
    std::vector<Covariance> covariance;
    std::vector<Finding> findings;
    std::vector<SeekNext> seekNext;
    std::vector<HurtsMost> hurtsMost;
};

}  // namespace evidence::judgement
