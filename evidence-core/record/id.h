#pragma once

#include <compare>
#include <functional>
#include <string>

/// Ids are text, kept verbatim; those of different kinds of record do not convert to each other.
namespace evidence::record {

template <class Tag>
struct Id {
    std::string text;

    [[nodiscard]] bool empty() const { return text.empty(); }
    friend auto operator<=>(const Id&, const Id&) = default;
    friend bool operator==(const Id&, const Id&) = default;
};

using PersonId = Id<struct PersonTag>;
using StateId = Id<struct StateTag>;
using EnquiryId = Id<struct EnquiryTag>;
using SourceId = Id<struct SourceTag>;
using FileId = Id<struct FileTag>;
using MarkId = Id<struct MarkTag>;
using FrameId = Id<struct FrameTag>;
using DimensionId = Id<struct DimensionTag>;
using ParticularId = Id<struct ParticularTag>;
using ReadingId = Id<struct ReadingTag>;
using SharedErrorId = Id<struct SharedErrorTag>;
using RelationId = Id<struct RelationTag>;
using RulingId = Id<struct RulingTag>;
using DepartureId = Id<struct DepartureTag>;
using SlipId = Id<struct SlipTag>;
using AsBuiltId = Id<struct AsBuiltTag>;
using QueryId = Id<struct QueryTag>;
using SignoffId = Id<struct SignoffTag>;
using LoweredId = Id<struct LoweredTag>;
using AcknowledgementId = Id<struct AcknowledgementTag>;
using IssuedId = Id<struct IssuedTag>;

/// The id of a record of any kind: a dimension or a particular ("on", "of"), or, in shared errors,
/// a part of a record such as the reference `g1/0`.
using AnyId = Id<struct AnyTag>;

template <class Tag>
[[nodiscard]] AnyId any(const Id<Tag>& id) {
    return AnyId{id.text};
}

}  // namespace evidence::record

template <class Tag>
struct std::hash<evidence::record::Id<Tag>> {
    std::size_t operator()(const evidence::record::Id<Tag>& id) const noexcept {
        return std::hash<std::string>{}(id.text);
    }
};
