#pragma once

#include "evidence-core/exchange/json_reader.h"
#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/register.h"

#include <optional>
#include <string>
#include <string_view>

/// Checks of records against each other and against the contract, one file a question. Each returns
/// false with the refusal in the reader. A record's own pointer is the reader's root.
namespace evidence::exchange {

struct CheckContext {
    const record::Register& reg;  ///< everything, incoming records included
    const record::RegisterIndex& index;
    JsonReader& reader;
};

/// Every id a record refers to is there and of a kind that fits (check_references.cpp).
template <class Record>
bool checkReferences(const CheckContext& context, const Record& record);

/// Sources descend from and replace each other without coming back to where they began.
bool checkDescent(const CheckContext& context, const record::Source& source);

// Numbers, points and units inside one record (check_marks.cpp, check_frames.cpp,
// check_readings.cpp, check_decisions.cpp). A kind without an overload has nothing to check.
bool checkSense(const CheckContext& context, const record::ArchiveInfo& archive);
bool checkSense(const CheckContext& context, const record::State& state);
bool checkSense(const CheckContext& context, const record::Enquiry& enquiry);
bool checkSense(const CheckContext& context, const record::Source& source);
bool checkSense(const CheckContext& context, const record::Mark& mark);
bool checkSense(const CheckContext& context, const record::Frame& frame);
bool checkSense(const CheckContext& context, const record::Dimension& dimension);
bool checkSense(const CheckContext& context, const record::Reading& reading);
bool checkSense(const CheckContext& context, const record::SharedError& error);
bool checkSense(const CheckContext& context, const record::Relation& relation);
bool checkSense(const CheckContext& context, const record::Ruling& ruling);
bool checkSense(const CheckContext& context, const record::Departure& departure);
bool checkSense(const CheckContext& context, const record::Slip& slip);
bool checkSense(const CheckContext& context, const record::AsBuilt& made);
bool checkSense(const CheckContext& context, const record::Query& query);
bool checkSense(const CheckContext& context, const record::Signoff& signoff);
bool checkSense(const CheckContext& context, const record::Lowered& lowered);
bool checkSense(const CheckContext& context, const record::Acknowledgement& seen);
bool checkSense(const CheckContext& context, const record::Issued& issued);
inline bool checkSense(const CheckContext&, const record::Person&) {
    return true;
}
inline bool checkSense(const CheckContext&, const record::Particular&) {
    return true;
}

// The small questions they share (check_parts.cpp). `key` is where in the record.

bool refuseAt(const CheckContext& context, std::string_view key, Code code, std::string help);

/// An EDTF date, or an RFC 3339 time in UTC; absent is fine.
bool checkDate(const CheckContext& context, std::string_view key,
               const std::optional<std::string>& date);
bool checkTime(const CheckContext& context, std::string_view key,
               const std::optional<std::string>& time);

enum class Least { Any, NotNegative, Positive };
bool checkNumber(const CheckContext& context, std::string_view key,
                 const std::optional<double>& number, Least least);
bool checkPage(const CheckContext& context, const std::optional<int>& page);
/// 64 hexadecimal digits.
bool checkHash(const CheckContext& context, std::string_view key,
               const std::optional<std::string>& hash);
/// Rows and columns `size`, symmetric, no negative variance; empty is fine.
bool checkCovariance(const CheckContext& context, std::string_view key,
                     const std::vector<std::vector<double>>& covariance, std::size_t size);

/// What a value of a record stands for: that of a dimension is a quantity, that of a particular a
/// text.
struct ValueFrame {
    std::optional<quantity::Measure> measure;  ///< nothing: a particular's text
    quantity::Unit bareUnit = quantity::Unit::One;
};
/// For the dimension or particular `on`, with the `unit` key of the record. Nothing, with a
/// refusal, where the unit does not fit.
std::optional<ValueFrame> valueFrameOf(const CheckContext& context, const record::AnyId& on,
                                       const std::optional<std::string>& unit);
/// The value in canonical units (0 for a particular's text); nothing, with a refusal, where it
/// cannot be read.
std::optional<double> readValue(const CheckContext& context, std::string_view key,
                                const ValueFrame& frame, const record::Written& value);

/// At most one of u, half_width and rounded_to, none negative; `shape` only where it has a width.
template <class Valued>
bool checkSpread(const CheckContext& context, const Valued& valued, bool hasLimits) {
    const int given = int{valued.u.has_value()} + int{valued.halfWidth.has_value()} +
                      int{valued.roundedTo.has_value()};
    if (given > 1)
        return refuseAt(context, valued.u ? "u" : "half_width", Code::WrongUse,
                        "give only one of u, half_width and rounded_to");
    if (valued.shape && !valued.halfWidth && !hasLimits)
        return refuseAt(context, "shape", Code::WrongUse, "a shape needs a half_width beside it");
    return checkNumber(context, "u", valued.u, Least::NotNegative) &&
           checkNumber(context, "half_width", valued.halfWidth, Least::NotNegative) &&
           checkNumber(context, "rounded_to", valued.roundedTo, Least::NotNegative);
}

}  // namespace evidence::exchange
