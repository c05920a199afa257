#include "evidence-core/exchange/register_check.h"
#include "evidence-core/quantity/edtf.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/quantity/time.h"
#include "evidence-core/record/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evidence::exchange {

using quantity::Measure;
using record::DimensionQuantity;

bool refuseAt(const CheckContext& context, std::string_view key, Code code, std::string help) {
    const JsonReader::Step step(context.reader, key);
    return context.reader.refuseHere(code, std::move(help));
}

bool checkDate(const CheckContext& context, std::string_view key,
               const std::optional<std::string>& date) {
    if (!date) return true;
    const auto parsed = quantity::parseEdtf(*date);
    if (parsed) return true;
    return refuseAt(context, key, Code::BadDate,
                    "expected an EDTF date such as 1909-02~: " + parsed.error().help);
}

bool checkTime(const CheckContext& context, std::string_view key,
               const std::optional<std::string>& time) {
    if (!time) return true;
    const std::string_view text = *time;
    const bool utc = text.ends_with('Z') || text.ends_with('z') || text.ends_with("+00:00") ||
                     text.ends_with("-00:00");
    if (quantity::parseInstant(text) && utc) return true;
    return refuseAt(context, key, Code::BadDate,
                    "expected a time in UTC such as 2026-05-01T10:00:00Z; found \"" + *time + '"');
}

bool checkNumber(const CheckContext& context, std::string_view key,
                 const std::optional<double>& number, Least least) {
    if (!number) return true;
    if (!std::isfinite(*number))
        return refuseAt(context, key, Code::NotFinite, "expected a finite number");
    if (least == Least::NotNegative && *number < 0)
        return refuseAt(context, key, Code::BadValue, "expected 0 or more");
    if (least == Least::Positive && *number <= 0)
        return refuseAt(context, key, Code::BadValue, "expected more than 0");
    return true;
}

bool checkPage(const CheckContext& context, const std::optional<int>& page) {
    if (!page || *page >= 1) return true;
    return refuseAt(context, "page", Code::BadValue, "pages are counted from 1");
}

bool checkHash(const CheckContext& context, std::string_view key,
               const std::optional<std::string>& hash) {
    constexpr std::size_t kDigits = 64;
    if (!hash) return true;
    const bool digits = std::ranges::all_of(
        *hash, [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
    if (hash->size() == kDigits && digits) return true;
    return refuseAt(context, key, Code::BadValue,
                    "expected a SHA-256: 64 digits of 0 … 9 and a … f in lower case");
}

bool checkCovariance(const CheckContext& context, std::string_view key,
                     const std::vector<std::vector<double>>& covariance, std::size_t size) {
    if (covariance.empty()) return true;
    const JsonReader::Step step(context.reader, key);
    const bool square =
        covariance.size() == size &&
        std::ranges::all_of(covariance, [&](const auto& row) { return row.size() == size; });
    if (!square)
        return context.reader.refuseHere(
            Code::BadValue, fmt::format("expected {0} rows of {0} numbers here", size));
    for (std::size_t i = 0; i < size; ++i) {
        if (covariance[i][i] < 0)
            return context.reader.refuseHere(
                Code::BadValue, fmt::format("the variance in row {} is negative", i + 1));
        for (std::size_t j = 0; j < i; ++j) {
            constexpr double kRoundedAlike = 1e-6;
            const double scale = std::sqrt(covariance[i][i] * covariance[j][j]);
            if (std::abs(covariance[i][j] - covariance[j][i]) > kRoundedAlike * scale)
                return context.reader.refuseHere(
                    Code::BadValue,
                    fmt::format("a covariance is symmetric; rows {} and {} are not", j + 1, i + 1));
            if (std::abs(covariance[i][j]) > scale * (1 + kRoundedAlike))
                return context.reader.refuseHere(
                    Code::BadValue,
                    fmt::format("rows {} and {} correlate by more than 1", j + 1, i + 1));
        }
    }
    return true;
}

std::optional<ValueFrame> valueFrameOf(const CheckContext& context, const record::AnyId& on,
                                       const std::optional<std::string>& unit) {
    const auto* entry = context.index.find(on.text);
    if (!entry || entry->kind != record::Kind::Dimension) return ValueFrame{};
    const auto& dimension = context.reg.dimensions[entry->position];
    ValueFrame frame;
    frame.measure = measureOf(dimension.quantity);
    frame.bareUnit = quantity::canonicalUnit(*frame.measure);
    if (dimension.unit) {
        const auto own = quantity::unitNamed(*dimension.unit, *frame.measure);
        // Where it does not fit, the dimension itself is refused.
        if (own) frame.bareUnit = *own;
    }
    if (unit) {
        const auto given = quantity::unitNamed(*unit, *frame.measure);
        if (!given) {
            refuseAt(context, "unit", Code::BadUnit, given.error().help);
            return std::nullopt;
        }
        frame.bareUnit = *given;
    }
    return frame;
}

std::optional<double> readValue(const CheckContext& context, std::string_view key,
                                const ValueFrame& frame, const record::Written& value) {
    if (!frame.measure) return 0.0;
    if (const auto* number = std::get_if<record::Number>(&value)) {
        if (!checkNumber(context, key, number->value, Least::Any)) return std::nullopt;
        return quantity::toCanonical(number->value, frame.bareUnit);
    }
    const auto& text = std::get<std::string>(value);
    const auto parsed = quantity::parseQuantity(text, *frame.measure, frame.bareUnit);
    if (parsed) return parsed->canonical;
    refuseAt(context, key, parsed.error().code,
             fmt::format("\"{}\" cannot be read as {} ({}): {}", text, nameOf(*frame.measure),
                         parsed.error().place, parsed.error().help));
    return std::nullopt;
}

}  // namespace evidence::exchange
