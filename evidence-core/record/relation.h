#pragma once

#include "evidence-core/record/frame.h"
#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace evidence::record {

enum class SharedErrorKind { Relative, Absolute };

template <>
struct Names<SharedErrorKind> {
    static constexpr std::array<NameList<SharedErrorKind>, 2> all{
        {{"relative", SharedErrorKind::Relative}, {"absolute", SharedErrorKind::Absolute}}};
};

/// One thing a shared error acts on: a reading, a reference as `g1/0`, or a relation.
struct SharedErrorUse {
    AnyId record;
    std::optional<double> coefficient;  ///< 1 where absent

    static constexpr auto fields() {
        return std::tuple{field("record", &SharedErrorUse::record),
                          field("coefficient", &SharedErrorUse::coefficient)};
    }
    friend bool operator==(const SharedErrorUse&, const SharedErrorUse&) = default;
};

/// An error that several readings have in common.
struct SharedError {
    SharedErrorId id;
    std::string label;
    SharedErrorKind kind = SharedErrorKind::Relative;
    double u = 0;  ///< standard; pure, or in the canonical unit of its records
    std::optional<Basis> basis;
    std::optional<SourceId> source;
    std::vector<SharedErrorUse> on;
    std::optional<std::string> setAside;

    static constexpr auto fields() {
        return std::tuple{
            field("id", &SharedError::id),       field("label", &SharedError::label),
            field("kind", &SharedError::kind),   field("u", &SharedError::u),
            field("basis", &SharedError::basis), field("source", &SharedError::source),
            field("on", &SharedError::on),       field("set_aside", &SharedError::setAside)};
    }
    friend bool operator==(const SharedError&, const SharedError&) = default;
};

/// `use: {"infer": dimension}`: the relation infers one named dimension.
struct Infer {
    DimensionId infer;

    static constexpr auto fields() { return std::tuple{field("infer", &Infer::infer)}; }
    friend bool operator==(const Infer&, const Infer&) = default;
};

using RelationUse = std::variant<Use, Infer>;

/// An equation (or, with `<=` or `>=`, a limit) between dimensions, with an uncertainty.
/// `formula` is held as written with codes; the store keeps ids beside it (see docs/schema.md).
struct Relation {
    RelationId id;
    std::string formula;
    std::optional<double> u;  ///< 0 where absent; unit of the left side
    std::optional<Basis> basis;
    std::optional<SourceId> source;
    std::optional<std::string> reason;
    std::optional<RelationUse> use;
    std::optional<std::string> setAside;

    static constexpr auto fields() {
        return std::tuple{
            field("id", &Relation::id),         field("formula", &Relation::formula),
            field("u", &Relation::u),           field("basis", &Relation::basis),
            field("source", &Relation::source), field("reason", &Relation::reason),
            field("use", &Relation::use),       field("set_aside", &Relation::setAside)};
    }
    friend bool operator==(const Relation&, const Relation&) = default;
};

}  // namespace evidence::record
