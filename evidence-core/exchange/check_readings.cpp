#include "evidence-core/exchange/register_check.h"
#include "evidence-core/record/measure.h"

#include <fmt/format.h>

namespace evidence::exchange {

using record::Basis;

namespace {

/// What a reading needs to say anything at all.
bool checkContent(const CheckContext& context, const record::Reading& reading) {
    const bool hasLimits = reading.low || reading.high;
    const bool hasMark = reading.mark || reading.between;
    if (reading.mark && reading.between)
        return refuseAt(context, "between", Code::WrongUse,
                        "give either one mark or between two, not both");
    if (hasMark && !reading.frame && reading.basis == Basis::Scaled)
        return context.reader.refuseHere(
            Code::MissingKey, "a mark is measured through a frame: the key \"frame\" is required");
    if (reading.frame && !hasMark && reading.basis == Basis::Scaled)
        return context.reader.refuseHere(
            Code::MissingKey,
            "a frame measures a mark: the key \"mark\" or \"between\" is required");
    if (reading.basis == Basis::Limit && !hasLimits)
        return context.reader.refuseHere(Code::MissingKey,
                                         "a limit needs the key \"low\" or \"high\"");
    if (!reading.value && !hasLimits && !(hasMark && reading.frame))
        return context.reader.refuseHere(
            Code::MissingKey,
            reading.basis == Basis::Scaled
                ? "a scaled reading needs a mark and a frame, or the key \"value\""
                : "a reading needs the key \"value\", \"low\" or \"high\"");
    return true;
}

bool checkValues(const CheckContext& context, const record::Reading& reading) {
    const auto frame = valueFrameOf(context, reading.of, reading.unit);
    if (!frame) return false;
    if (reading.value && !readValue(context, "value", *frame, *reading.value)) return false;
    std::optional<double> low;
    std::optional<double> high;
    if (reading.low) {
        low = readValue(context, "low", *frame, *reading.low);
        if (!low) return false;
    }
    if (reading.high) {
        high = readValue(context, "high", *frame, *reading.high);
        if (!high) return false;
    }
    if (low && high && *low > *high)
        return refuseAt(context, "high", Code::BadValue, "the high limit is below the low one");

    const bool needsSpread =
        reading.basis == Basis::Interpolated || reading.basis == Basis::Inferred;
    const bool hasSpread =
        reading.u || reading.halfWidth || reading.roundedTo || (reading.low && reading.high);
    if (frame->measure && reading.value && needsSpread && !hasSpread)
        return context.reader.refuseHere(
            Code::MissingKey,
            fmt::format("a value that is {} has no default uncertainty: give u, half_width or "
                        "rounded_to",
                        record::nameOf(reading.basis)));
    return checkSpread(context, reading, reading.low && reading.high);
}

bool checkSheet(const CheckContext& context, const record::Reading& reading,
                const record::MarkId& id) {
    if (!reading.frame) return true;
    const auto* mark = context.index.find(id.text);
    const auto* frame = context.index.find(reading.frame->text);
    if (!mark || mark->kind != record::Kind::Mark || !frame || frame->kind != record::Kind::Frame)
        return true;  // told by checkReferences
    const auto& m = context.reg.marks[mark->position];
    const auto& f = context.reg.frames[frame->position];
    if (m.file == f.file && m.page.value_or(1) == f.page.value_or(1)) return true;
    return context.reader.refuseHere(
        Code::WrongUse,
        fmt::format("mark \"{}\" lies on another sheet than frame \"{}\"", id.text, f.id.text));
}

bool checkPlaces(const CheckContext& context, const record::Reading& reading) {
    if (reading.mark) {
        const JsonReader::Step step(context.reader, std::string_view("mark"));
        if (!checkSheet(context, reading, *reading.mark)) return false;
    }
    for (std::size_t i = 0; reading.between && i < 2; ++i) {
        const JsonReader::Step list(context.reader, std::string_view("between"));
        const JsonReader::Step step(context.reader, i);
        if (!checkSheet(context, reading, (*reading.between)[i])) return false;
    }
    if (!reading.at) return true;
    const JsonReader::Step step(context.reader, std::string_view("at"));
    if (reading.at->box && ((*reading.at->box)[2] < 0 || (*reading.at->box)[3] < 0))
        return refuseAt(context, "box", Code::BadValue,
                        "a box is x, y, width and height; width and height are 0 or more");
    return checkPage(context, reading.at->page);
}

bool checkOffPlane(const CheckContext& context, const record::Reading& reading) {
    if (!reading.offPlane) return true;
    const auto& term = *reading.offPlane;
    const JsonReader::Step step(context.reader, std::string_view("off_plane"));
    if (term.low && term.high && *term.low > *term.high)
        return refuseAt(context, "high", Code::BadValue, "the high limit is below the low one");
    if (term.offset >= term.distance)
        return refuseAt(context, "offset", Code::BadValue,
                        "the offset is toward the camera and less than its distance");
    return checkNumber(context, "u", term.u, Least::NotNegative) &&
           checkNumber(context, "distance", term.distance, Least::Positive) &&
           checkNumber(context, "u_distance", term.uDistance, Least::NotNegative);
}

bool checkCorrections(const CheckContext& context, const record::Reading& reading) {
    const JsonReader::Step list(context.reader, std::string_view("corrections"));
    for (std::size_t i = 0; i < reading.corrections.size(); ++i) {
        const auto& correction = reading.corrections[i];
        const JsonReader::Step step(context.reader, i);
        if (correction.add.has_value() == correction.factor.has_value())
            return context.reader.refuseHere(
                correction.add ? Code::WrongUse : Code::MissingKey,
                "a correction has either the key \"add\" or the key \"factor\"");
        if (!checkNumber(context, "factor", correction.factor, Least::Positive)) return false;
        if (!checkNumber(context, "u", correction.u, Least::NotNegative)) return false;
    }
    return true;
}

}  // namespace

bool checkSense(const CheckContext& context, const record::Dimension& dimension) {
    if (dimension.unit) {
        const auto unit = quantity::unitNamed(*dimension.unit, measureOf(dimension.quantity));
        if (!unit) return refuseAt(context, "unit", Code::BadUnit, unit.error().help);
    }
    return checkNumber(context, "tolerance", dimension.tolerance, Least::NotNegative);
}

bool checkSense(const CheckContext& context, const record::Reading& reading) {
    if (reading.dof && *reading.dof < 1)
        return refuseAt(context, "dof", Code::BadValue, "degrees of freedom are 1 or more");
    return checkContent(context, reading) && checkValues(context, reading) &&
           checkPlaces(context, reading) && checkOffPlane(context, reading) &&
           checkCorrections(context, reading) && checkDate(context, "on", reading.on);
}

bool checkSense(const CheckContext& context, const record::SharedError& error) {
    if (error.on.empty())
        return context.reader.refuseHere(Code::MissingKey,
                                         "the key \"on\" is required here: what has it in common");
    return checkNumber(context, "u", error.u, Least::NotNegative);
}

}  // namespace evidence::exchange
