#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <optional>
#include <string>
#include <vector>

/// What people decided, handed out, made and asked. Times are RFC 3339 in UTC.
namespace evidence::record {

struct Alternative {
    Written value;
    std::optional<std::string> unit;
    std::optional<std::string> reason;

    static constexpr auto fields() {
        return std::tuple{field("value", &Alternative::value), field("unit", &Alternative::unit),
                          field("reason", &Alternative::reason)};
    }
    friend bool operator==(const Alternative&, const Alternative&) = default;
};

/// The state of the evidence a ruling was made on, in the dimension's unit. `digest` is that of
/// everything the value hangs on.
struct EvidenceState {
    std::optional<double> value;
    std::optional<double> u;
    std::optional<Grade> grade;
    std::optional<std::string> digest;

    static constexpr auto fields() {
        return std::tuple{field("value", &EvidenceState::value), field("u", &EvidenceState::u),
                          field("grade", &EvidenceState::grade),
                          field("digest", &EvidenceState::digest)};
    }
    friend bool operator==(const EvidenceState&, const EvidenceState&) = default;
};

/// The adopted build value of a dimension or particular. Append-only; a new one supersedes.
struct Ruling {
    RulingId id;
    AnyId on;
    Written value;
    std::optional<std::string> unit;
    std::string reason;
    PersonId by;
    std::string at;
    std::vector<Alternative> alternatives;
    std::optional<double> tolerance;
    std::optional<RulingId> supersedes;
    std::optional<EvidenceState> evidence;

    static constexpr auto fields() {
        return std::tuple{field("id", &Ruling::id),
                          field("on", &Ruling::on),
                          field("value", &Ruling::value),
                          field("unit", &Ruling::unit),
                          field("reason", &Ruling::reason),
                          field("by", &Ruling::by),
                          field("at", &Ruling::at),
                          field("alternatives", &Ruling::alternatives),
                          field("tolerance", &Ruling::tolerance),
                          field("supersedes", &Ruling::supersedes),
                          field("evidence", &Ruling::evidence)};
    }
    friend bool operator==(const Ruling&, const Ruling&) = default;
};

enum class DepartureWhy { Safety, Law, Crew, Material, Cost, Durability, Access, Other };

template <>
struct Names<DepartureWhy> {
    static constexpr std::array<NameList<DepartureWhy>, 8> all{
        {{"safety", DepartureWhy::Safety},
         {"law", DepartureWhy::Law},
         {"crew", DepartureWhy::Crew},
         {"material", DepartureWhy::Material},
         {"cost", DepartureWhy::Cost},
         {"durability", DepartureWhy::Durability},
         {"access", DepartureWhy::Access},
         {"other", DepartureWhy::Other}}};
};

enum class ApprovalSide { History, Engineering };

template <>
struct Names<ApprovalSide> {
    static constexpr std::array<NameList<ApprovalSide>, 2> all{
        {{"history", ApprovalSide::History}, {"engineering", ApprovalSide::Engineering}}};
};

struct Approval {
    PersonId by;
    ApprovalSide as = ApprovalSide::History;
    std::optional<std::string> at;

    static constexpr auto fields() {
        return std::tuple{field("by", &Approval::by), field("as", &Approval::as),
                          field("at", &Approval::at)};
    }
    friend bool operator==(const Approval&, const Approval&) = default;
};

/// Where the build deliberately differs. The original value stays and keeps its grade.
struct Departure {
    DepartureId id;
    AnyId on;
    std::optional<Written> from;
    Written to;
    std::optional<std::string> unit;
    DepartureWhy why = DepartureWhy::Other;
    std::string reason;
    std::optional<PersonId> by;
    std::optional<std::string> at;
    std::optional<std::string> rule;
    std::optional<std::string> authority;
    std::vector<Approval> approvals;
    std::optional<std::string> effect;
    std::optional<bool> reversible;
    std::vector<AnyId> affects;

    static constexpr auto fields() {
        return std::tuple{field("id", &Departure::id),
                          field("on", &Departure::on),
                          field("from", &Departure::from),
                          field("to", &Departure::to),
                          field("unit", &Departure::unit),
                          field("why", &Departure::why),
                          field("reason", &Departure::reason),
                          field("by", &Departure::by),
                          field("at", &Departure::at),
                          field("rule", &Departure::rule),
                          field("authority", &Departure::authority),
                          field("approvals", &Departure::approvals),
                          field("effect", &Departure::effect),
                          field("reversible", &Departure::reversible),
                          field("affects", &Departure::affects)};
    }
    friend bool operator==(const Departure&, const Departure&) = default;
};

/// A build value handed to the shop on a date, also before evidence is complete.
struct Slip {
    SlipId id;
    AnyId on;
    Written value;
    std::optional<std::string> unit;
    std::optional<double> tolerance;
    PersonId by;
    std::string at;
    std::optional<PersonId> allowedBy;
    std::optional<std::string> note;
    std::optional<Grade> grade;  ///< as it was

    static constexpr auto fields() {
        return std::tuple{field("id", &Slip::id),
                          field("on", &Slip::on),
                          field("value", &Slip::value),
                          field("unit", &Slip::unit),
                          field("tolerance", &Slip::tolerance),
                          field("by", &Slip::by),
                          field("at", &Slip::at),
                          field("allowed_by", &Slip::allowedBy),
                          field("note", &Slip::note),
                          field("grade", &Slip::grade)};
    }
    friend bool operator==(const Slip&, const Slip&) = default;
};

/// What the shop actually made; never evidence of the original.
struct AsBuilt {
    AsBuiltId id;
    AnyId on;
    Written value;
    std::optional<std::string> unit;
    std::optional<double> u;
    PersonId by;
    std::string at;
    std::optional<std::string> note;

    static constexpr auto fields() {
        return std::tuple{field("id", &AsBuilt::id),       field("on", &AsBuilt::on),
                          field("value", &AsBuilt::value), field("unit", &AsBuilt::unit),
                          field("u", &AsBuilt::u),         field("by", &AsBuilt::by),
                          field("at", &AsBuilt::at),       field("note", &AsBuilt::note)};
    }
    friend bool operator==(const AsBuilt&, const AsBuilt&) = default;
};

enum class QueryState { Open, Answered, Settled };

template <>
struct Names<QueryState> {
    static constexpr std::array<NameList<QueryState>, 3> all{{{"open", QueryState::Open},
                                                              {"answered", QueryState::Answered},
                                                              {"settled", QueryState::Settled}}};
};

struct Answer {
    PersonId by;
    std::optional<std::string> at;
    std::string text;

    static constexpr auto fields() {
        return std::tuple{field("by", &Answer::by), field("at", &Answer::at),
                          field("text", &Answer::text)};
    }
    friend bool operator==(const Answer&, const Answer&) = default;
};

/// A reviewer's question on any record.
struct Query {
    QueryId id;
    AnyId on;
    PersonId by;
    std::string text;
    std::vector<Answer> answers;
    std::optional<std::string> at;
    std::optional<QueryState> state;  ///< open where absent
    std::optional<std::string> closed;

    static constexpr auto fields() {
        return std::tuple{field("id", &Query::id),           field("on", &Query::on),
                          field("by", &Query::by),           field("text", &Query::text),
                          field("answers", &Query::answers), field("at", &Query::at),
                          field("state", &Query::state),     field("closed", &Query::closed)};
    }
    friend bool operator==(const Query&, const Query&) = default;
};

enum class Verdict { Seen, Contested };

template <>
struct Names<Verdict> {
    static constexpr std::array<NameList<Verdict>, 2> all{
        {{"seen", Verdict::Seen}, {"contested", Verdict::Contested}}};
};

/// A person has seen, or contests, a dimension in the state it had then; changes no grade.
struct Signoff {
    SignoffId id;
    AnyId on;
    PersonId by;
    std::string at;
    std::optional<Verdict> verdict;
    std::optional<std::string> text;
    std::optional<Grade> grade;
    std::optional<std::string> digest;

    static constexpr auto fields() {
        return std::tuple{field("id", &Signoff::id),           field("on", &Signoff::on),
                          field("by", &Signoff::by),           field("at", &Signoff::at),
                          field("verdict", &Signoff::verdict), field("text", &Signoff::text),
                          field("grade", &Signoff::grade),     field("digest", &Signoff::digest)};
    }
    friend bool operator==(const Signoff&, const Signoff&) = default;
};

/// A person sets a grade lower, with a reason; never higher.
struct Lowered {
    LoweredId id;
    AnyId on;
    Grade grade = Grade::Blank;
    std::string reason;
    PersonId by;
    std::string at;

    static constexpr auto fields() {
        return std::tuple{field("id", &Lowered::id),       field("on", &Lowered::on),
                          field("grade", &Lowered::grade), field("reason", &Lowered::reason),
                          field("by", &Lowered::by),       field("at", &Lowered::at)};
    }
    friend bool operator==(const Lowered&, const Lowered&) = default;
};

struct FindingName {
    std::string kind;
    std::vector<AnyId> on;

    static constexpr auto fields() {
        return std::tuple{field("kind", &FindingName::kind), field("on", &FindingName::on)};
    }
    friend bool operator==(const FindingName&, const FindingName&) = default;
};

/// A finding seen, with the reason why it may stand; lapses when its evidence changes.
struct Acknowledgement {
    AcknowledgementId id;
    FindingName finding;
    std::string reason;
    PersonId by;
    std::string at;
    std::optional<std::string> digest;

    static constexpr auto fields() {
        return std::tuple{
            field("id", &Acknowledgement::id),         field("finding", &Acknowledgement::finding),
            field("reason", &Acknowledgement::reason), field("by", &Acknowledgement::by),
            field("at", &Acknowledgement::at),         field("digest", &Acknowledgement::digest)};
    }
    friend bool operator==(const Acknowledgement&, const Acknowledgement&) = default;
};

struct ReportFilter {
    std::optional<std::string> on;
    std::optional<std::string> component;
    std::optional<Grade> grade;
    std::optional<std::string> state;
    std::optional<std::string> since;

    static constexpr auto fields() {
        return std::tuple{
            field("on", &ReportFilter::on), field("component", &ReportFilter::component),
            field("grade", &ReportFilter::grade), field("state", &ReportFilter::state),
            field("since", &ReportFilter::since)};
    }
    friend bool operator==(const ReportFilter&, const ReportFilter&) = default;
};

/// A report handed out: kind, date, hash, filter. Can be made again from its moment.
struct Issued {
    IssuedId id;
    std::string kind;
    std::string at;
    std::string sha256;
    std::optional<ReportFilter> filter;
    std::optional<std::string> registerDigest;

    static constexpr auto fields() {
        return std::tuple{
            field("id", &Issued::id),         field("kind", &Issued::kind),
            field("at", &Issued::at),         field("sha256", &Issued::sha256),
            field("filter", &Issued::filter), field("register_digest", &Issued::registerDigest)};
    }
    friend bool operator==(const Issued&, const Issued&) = default;
};

}  // namespace evidence::record
