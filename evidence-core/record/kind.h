#pragma once

#include "evidence-core/record/register.h"

#include <string_view>

/// The kinds of record, by name: for messages, the store's list of ids and the search.
namespace evidence::record {

/// What an id can belong to. Persisted by name.
enum class Kind {
    Person,
    State,
    Enquiry,
    Source,
    File,
    Mark,
    Frame,
    Dimension,
    Particular,
    Reading,
    SharedError,
    Relation,
    Ruling,
    Departure,
    Slip,
    AsBuilt,
    Query,
    Signoff,
    Lowered,
    Acknowledgement,
    Issued,
};

template <>
struct Names<Kind> {
    static constexpr std::array<NameList<Kind>, 21> all{{{"person", Kind::Person},
                                                         {"state", Kind::State},
                                                         {"enquiry", Kind::Enquiry},
                                                         {"source", Kind::Source},
                                                         {"file", Kind::File},
                                                         {"mark", Kind::Mark},
                                                         {"frame", Kind::Frame},
                                                         {"dimension", Kind::Dimension},
                                                         {"particular", Kind::Particular},
                                                         {"reading", Kind::Reading},
                                                         {"shared error", Kind::SharedError},
                                                         {"relation", Kind::Relation},
                                                         {"ruling", Kind::Ruling},
                                                         {"departure", Kind::Departure},
                                                         {"slip", Kind::Slip},
                                                         {"as built", Kind::AsBuilt},
                                                         {"query", Kind::Query},
                                                         {"sign-off", Kind::Signoff},
                                                         {"lowered grade", Kind::Lowered},
                                                         {"acknowledgement", Kind::Acknowledgement},
                                                         {"issued report", Kind::Issued}}};
};

/// `KindOf<Record>` and `KindOf<its id>`: the kind, known to the compiler.
template <class T>
inline constexpr Kind KindOf = KindOf<decltype(T::id)>;

template <>
inline constexpr Kind KindOf<PersonId> = Kind::Person;
template <>
inline constexpr Kind KindOf<StateId> = Kind::State;
template <>
inline constexpr Kind KindOf<EnquiryId> = Kind::Enquiry;
template <>
inline constexpr Kind KindOf<SourceId> = Kind::Source;
template <>
inline constexpr Kind KindOf<FileId> = Kind::File;
template <>
inline constexpr Kind KindOf<MarkId> = Kind::Mark;
template <>
inline constexpr Kind KindOf<FrameId> = Kind::Frame;
template <>
inline constexpr Kind KindOf<DimensionId> = Kind::Dimension;
template <>
inline constexpr Kind KindOf<ParticularId> = Kind::Particular;
template <>
inline constexpr Kind KindOf<ReadingId> = Kind::Reading;
template <>
inline constexpr Kind KindOf<SharedErrorId> = Kind::SharedError;
template <>
inline constexpr Kind KindOf<RelationId> = Kind::Relation;
template <>
inline constexpr Kind KindOf<RulingId> = Kind::Ruling;
template <>
inline constexpr Kind KindOf<DepartureId> = Kind::Departure;
template <>
inline constexpr Kind KindOf<SlipId> = Kind::Slip;
template <>
inline constexpr Kind KindOf<AsBuiltId> = Kind::AsBuilt;
template <>
inline constexpr Kind KindOf<QueryId> = Kind::Query;
template <>
inline constexpr Kind KindOf<SignoffId> = Kind::Signoff;
template <>
inline constexpr Kind KindOf<LoweredId> = Kind::Lowered;
template <>
inline constexpr Kind KindOf<AcknowledgementId> = Kind::Acknowledgement;
template <>
inline constexpr Kind KindOf<IssuedId> = Kind::Issued;

}  // namespace evidence::record
