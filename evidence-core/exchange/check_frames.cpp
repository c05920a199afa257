#include "evidence-core/exchange/register_check.h"
#include "evidence-core/record/measure.h"

#include <fmt/format.h>

#include <cmath>

namespace evidence::exchange {

namespace {

/// A frame's marks lie on its own sheet: pixels of another one mean something else.
bool checkSheetOf(const CheckContext& context, const record::Frame& frame,
                  const record::MarkId& id) {
    const auto* entry = context.index.find(id.text);
    if (!entry || entry->kind != record::Kind::Mark) return true;  // told by checkReferences
    const auto& mark = context.reg.marks[entry->position];
    if (mark.file == frame.file && mark.page.value_or(1) == frame.page.value_or(1)) return true;
    return context.reader.refuseHere(
        Code::WrongUse,
        fmt::format("mark \"{}\" lies on page {} of file \"{}\", this frame on page {} of \"{}\"",
                    id.text, mark.page.value_or(1), mark.file.text, frame.page.value_or(1),
                    frame.file.text));
}

bool checkMarks(const CheckContext& context, const record::Frame& frame, std::string_view key,
                const std::vector<record::MarkId>& marks) {
    const JsonReader::Step list(context.reader, key);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const JsonReader::Step step(context.reader, i);
        if (!checkSheetOf(context, frame, marks[i])) return false;
    }
    return true;
}

bool checkGroups(const CheckContext& context, const record::Frame& frame, std::string_view key,
                 const std::vector<std::vector<record::MarkId>>& groups) {
    const JsonReader::Step list(context.reader, key);
    for (std::size_t i = 0; i < groups.size(); ++i) {
        const JsonReader::Step group(context.reader, i);
        for (std::size_t j = 0; j < groups[i].size(); ++j) {
            const JsonReader::Step step(context.reader, j);
            if (!checkSheetOf(context, frame, groups[i][j])) return false;
        }
    }
    return true;
}

/// A scale is set by a length: a mass or an angle has no pixels to be compared with.
bool checkIsLength(const CheckContext& context, const record::DimensionId& id) {
    const auto* entry = context.index.find(id.text);
    if (!entry || entry->kind != record::Kind::Dimension) return true;  // told by checkReferences
    const auto& dimension = context.reg.dimensions[entry->position];
    if (record::measureOf(dimension.quantity) == quantity::Measure::Length) return true;
    return refuseAt(context, "dimension", Code::WrongUse,
                    fmt::format("dimension \"{}\" is no length but of quantity {}; a scale needs a "
                                "length, a diameter or a radius",
                                id.text, record::nameOf(dimension.quantity)));
}

bool checkLength(const CheckContext& context, const record::KnownLength& length) {
    const JsonReader::Step step(context.reader, std::string_view("length"));
    if (!length.value && !length.dimension)
        return context.reader.refuseHere(
            Code::MissingKey, "a reference's length needs the key \"value\" or \"dimension\"");
    if (length.value && length.dimension)
        return refuseAt(context, "dimension", Code::WrongUse,
                        "a reference's length is either a value or a dimension");
    if (length.dimension && !checkIsLength(context, *length.dimension)) return false;
    ValueFrame frame{quantity::Measure::Length, quantity::Unit::Inch};
    if (length.unit) {
        const auto unit = quantity::unitNamed(*length.unit, quantity::Measure::Length);
        if (!unit) return refuseAt(context, "unit", Code::BadUnit, unit.error().help);
        frame.bareUnit = *unit;
    }
    if (length.value) {
        const auto value = readValue(context, "value", frame, *length.value);
        if (!value) return false;
        if (*value <= 0)
            return refuseAt(context, "value", Code::BadValue, "a known length is more than 0");
        const auto basis = length.basis.value_or(record::Basis::Stated);
        const bool needsSpread =
            basis == record::Basis::Interpolated || basis == record::Basis::Inferred;
        if (needsSpread && !length.u && !length.halfWidth && !length.roundedTo)
            return context.reader.refuseHere(
                Code::MissingKey,
                fmt::format("a length that is {} has no default uncertainty: give u, half_width or "
                            "rounded_to",
                            record::nameOf(basis)));
    }
    return checkSpread(context, length, false);
}

bool checkReferenceList(const CheckContext& context, const record::Frame& frame) {
    const JsonReader::Step list(context.reader, std::string_view("references"));
    for (std::size_t i = 0; i < frame.references.size(); ++i) {
        const JsonReader::Step step(context.reader, i);
        if (!checkLength(context, frame.references[i].length)) return false;
        const JsonReader::Step mark(context.reader, std::string_view("mark"));
        if (!checkSheetOf(context, frame, frame.references[i].mark)) return false;
    }
    return true;
}

bool checkPointList(const CheckContext& context, const record::Frame& frame) {
    const JsonReader::Step list(context.reader, std::string_view("points"));
    for (std::size_t i = 0; i < frame.points.size(); ++i) {
        const JsonReader::Step step(context.reader, i);
        const auto& point = frame.points[i];
        if (point.at.empty() || point.at.size() > 3)
            return refuseAt(
                context, "at", Code::BadValue,
                fmt::format("a known point has 1, 2 or 3 numbers; found {}", point.at.size()));
        if (!checkNumber(context, "u", point.u, Least::NotNegative)) return false;
        const JsonReader::Step mark(context.reader, std::string_view("mark"));
        if (!checkSheetOf(context, frame, point.mark)) return false;
    }
    return true;
}

bool checkPrint(const CheckContext& context, const record::Frame& frame) {
    if (!frame.print) return true;
    const JsonReader::Step step(context.reader, std::string_view("print"));
    return checkNumber(context, "dpi", frame.print->dpi, Least::Positive) &&
           checkNumber(context, "drawn_scale", frame.print->drawnScale, Least::Positive) &&
           checkNumber(context, "u_relative", frame.print->uRelative, Least::NotNegative);
}

}  // namespace

bool checkSense(const CheckContext& context, const record::Frame& frame) {
    constexpr std::size_t kFewestCorners = 3;
    if (!frame.region.empty() && frame.region.size() < kFewestCorners)
        return refuseAt(context, "region", Code::BadValue, "a region has at least three corners");
    if (frame.principalPoint) {
        const JsonReader::Step step(context.reader, std::string_view("principal_point"));
        if (!checkNumber(context, "u", frame.principalPoint->u, Least::NotNegative)) return false;
    }
    return checkPage(context, frame.page) && checkReferenceList(context, frame) &&
           checkPointList(context, frame) && checkPrint(context, frame) &&
           checkNumber(context, "parallel_within", frame.parallelWithin, Least::NotNegative) &&
           checkMarks(context, frame, "straight", frame.straight) &&
           checkMarks(context, frame, "vertical", frame.vertical) &&
           checkGroups(context, frame, "parallel", frame.parallel) &&
           checkGroups(context, frame, "square", frame.square) &&
           checkGroups(context, frame, "ground", frame.ground);
}

}  // namespace evidence::exchange
