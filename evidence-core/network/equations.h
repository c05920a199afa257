#pragma once

#include "evidence-core/network/echo.h"
#include "evidence-core/network/formula.h"
#include "evidence-core/network/leaf.h"
#include "evidence-core/network/triage.h"

#include <Eigen/Core>

#include <functional>
#include <optional>
#include <string>
#include <vector>

/// The register as observation equations: observed = predicted(x) + error, one row each.
///
/// Unknowns x: dimensions, frame scales (inches per pixel), and the errors that leaves bring
/// (known lengths, shared errors, workmanship, placing, corrections, off-plane terms, pixels of
/// marks used more than once), each with the prior of its leaf. An error that acts in one row alone
/// is *folded*: it adds its variance to that row and follows from the row's residual, which gives
/// the same adjustment with fewer unknowns. Shared errors never are: they have a residual of their
/// own. A row whose variance is 0 holds exactly.
namespace evidence::network {

enum class UnknownKind { Dimension, Scale, Error };

struct Unknown {
    UnknownKind kind = UnknownKind::Error;
    std::size_t record = 0;  ///< dimension or frame it belongs to
    double start = 0;        ///< prior value of an error; start value of the others
    double size = 1;         ///< natural size, for scaling; > 0
    // Errors only:
    std::size_t leaf = 0;
    double u = 0;
    ErrorShape shape = ErrorShape::Normal;
    std::string key;  ///< content, for order
};

struct Slope {
    std::size_t unknown = 0;
    double slope = 0;
};

/// What a row predicts at x.
struct Prediction {
    double value = 0;
    std::vector<Slope> slopes;  ///< by unknowns, each at most once
    /// ∂value per unit of what the row measures (the dimension, the known length): turns a residual
    /// of a row in pixels into one in inches.
    double perUnit = 1;
    double size = 0;           ///< what the row measures, in its unit, as predicted
    double marks = 0;          ///< part of `value` that errors of shared marks bring
    double marksVariance = 0;  ///< and their variance
    bool defined = true;       ///< false where x lies outside what the equation can bear
};

enum class RowKind { Direct, Scaled, Reference, Prior, Print, Relation, Limit };

enum class RowRole {
    Adjust,
    Check,   ///< predicted, never pulls: echoes, `use: check`, inequalities
    Infer,   ///< pulls only where its dimension is not estimable otherwise
    Backup,  ///< two-sided limits: as above, after `infer`
};

struct Row {
    RowKind kind = RowKind::Direct;
    RowRole role = RowRole::Adjust;
    std::size_t leaf = 0;
    std::size_t record =
        0;  ///< triaged reading, frame, relation, dimension (Limit), unknown (Prior)
    std::size_t reference = 0;          ///< Reference: its place in the frame
    std::optional<std::size_t> target;  ///< Infer, Backup: dimension it acts for
    double observed = 0;
    double ownU = 0;
    ErrorShape ownShape = ErrorShape::Normal;
    std::function<Prediction(const Eigen::VectorXd&)> predict;
    std::vector<std::size_t> unknowns;      ///< that act in it and are not folded
    std::vector<std::size_t> folded;        ///< errors folded into it
    std::vector<std::size_t> moreLeaves;    ///< further leaves it stands on, without an error
    std::optional<record::Grade> strength;  ///< the worst of all its leaves
    int steps = 1;                          ///< that it adds on the way to a size
    RelationSign sign = RelationSign::Equal;
    std::string key;  ///< content, for order
};

struct Equations {
    std::vector<Leaf> leaves;
    std::vector<Unknown> unknowns;
    std::vector<Row> rows;
    std::vector<std::optional<std::size_t>> ofDimension;  ///< unknown of each dimension
    std::vector<std::optional<std::size_t>> ofFrame;      ///< unknown of each frame's scale
    std::vector<bool> isFolded;                           ///< by unknown
    std::vector<std::string> relationWhy;  ///< by relation: why it is not used; empty if it is
    std::vector<std::vector<std::size_t>> relationDimensions;
    std::vector<RelationSign> relationSign;
};

/// Errors: those of a relation's formula, with its place.
[[nodiscard]] Result<Equations> equationsOf(const RegisterIndex& index, const Origins& origins,
                                            const Triage& triage);

/// Observed − predicted at x, with the errors folded into the row back at their priors, to first
/// order: all of the row's error, as seen from where those errors are estimated to be.
[[nodiscard]] double misfitOf(const Row& row, const Prediction& at, const Eigen::VectorXd& x,
                              const Equations& eq);

/// Variance of a row at a prediction: its own and that of the errors folded into it.
[[nodiscard]] double varianceOf(const Row& row, const Prediction& at, const Equations& eq);

/// Start values of all unknowns, carried from what is read through frames and relations.
void findStartValues(Equations& eq);

}  // namespace evidence::network
