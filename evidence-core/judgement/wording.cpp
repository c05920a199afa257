#include "evidence-core/judgement/wording.h"

#include "evidence-core/judgement/context.h"
#include "evidence-core/quantity/significant.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

namespace evidence::judgement {

namespace {

std::string withCode(const std::string& name, const std::optional<std::string>& code) {
    return code && !code->empty() ? fmt::format("{} ({})", name, *code) : name;
}

std::string cutZeros(std::string text) {
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (!text.empty() && text.back() == '.') text.pop_back();
    return text;
}

std::string fromSource(const record::Source* source, const char* preposition) {
    return source ? fmt::format(" {} {}", preposition, nameOf(*source)) : std::string{};
}

/// The reading's own figure, or its limits, or nothing where it is measured through a mark. A bare
/// number has the unit of its dimension.
std::string figureOf(const Index& index, const record::Reading& reading) {
    auto unit = reading.unit;
    if (const auto* dimension = index.dimension(reading.of.text); dimension && !unit) {
        const auto shown = shownUnitOf(*dimension);
        if (shown) unit = shown->name;
    }
    if (reading.value) return asWritten(*reading.value, unit);
    if (reading.low && reading.high)
        return fmt::format("between {} and {}", asWritten(*reading.low, unit),
                           asWritten(*reading.high, unit));
    if (reading.low) return fmt::format("no less than {}", asWritten(*reading.low, unit));
    if (reading.high) return fmt::format("no more than {}", asWritten(*reading.high, unit));
    return {};
}

}  // namespace

std::string nameOf(const record::Dimension& dimension) {
    return withCode(dimension.name, dimension.code);
}
std::string nameOf(const record::Particular& particular) {
    return withCode(particular.name, particular.code);
}
std::string nameOf(const record::Source& source) {
    return withCode(source.title, source.code);
}

std::string nameOf(const Index& index, const record::PersonId& person) {
    const auto* known = index.person(person.text);
    return known && !known->name.empty() ? known->name : "somebody unnamed";
}

std::string nameOfTarget(const Index& index, const record::AnyId& id) {
    if (const auto* dimension = index.dimension(id.text)) return nameOf(*dimension);
    if (const auto* particular = index.particular(id.text)) return nameOf(*particular);
    if (const auto* source = index.source(id.text)) return nameOf(*source);
    if (const auto* reading = index.reading(id.text)) return nameOf(index, *reading);
    if (const auto* frame = index.frame(id.text)) return nameOf(index, *frame);
    if (const auto* relation = index.relation(id.text)) return nameOf(index, *relation);
    return id.text;
}

std::string nameOf(const Index& index, const record::Reading& reading) {
    const auto* source = index.sourceOf(reading);
    const std::string figure = figureOf(index, reading);
    const std::string of = figure.empty() ? "" : figure + " ";
    switch (reading.basis) {
        case record::Basis::Scaled:
            return figure.empty() ? "the size scaled" + fromSource(source, "from")
                                  : of + "scaled" + fromSource(source, "from");
        case record::Basis::Figured:
            return of + "figured" + fromSource(source, "on");
        case record::Basis::Stated:
            return of + "stated" + fromSource(source, "in");
        case record::Basis::Gauged:
            return of + "gauged" + fromSource(source, "on");
        case record::Basis::Told:
            return of + "remembered" + fromSource(source, "in");
        case record::Basis::Analogous:
            return of + "borrowed from a relative" + fromSource(source, "in");
        case record::Basis::Interpolated:
            return of + "read off between known neighbours" + fromSource(source, "in");
        case record::Basis::Inferred:
            return of + "inferred" + fromSource(source, "from");
        case record::Basis::Limit:
            return fmt::format("the limit ({}){}", figure, fromSource(source, "from"));
        case record::Basis::Guessed:
            return figure.empty() ? "our guess" : fmt::format("our guess of {}", figure);
        case record::Basis::Measured:
            return of + "measured" + fromSource(source, "on");
        case record::Basis::Symmetry:
            return of + "taken from its counterpart";
        case record::Basis::TradeRule:
            return of + "by trade practice" + fromSource(source, "in");
        case record::Basis::Assumed:
            return of + "assumed by us";
        case record::Basis::Geometry:
            return of + "by geometry";
    }
    return figure;
}

std::string nameOf(const Index& index, const record::Frame& frame) {
    const auto* source = index.sourceOfFile(frame.file.text);
    return source ? "the scale of " + nameOf(*source) : "a scale without a picture";
}

std::string nameOf(const Index& index, const Index::FrameReference& reference) {
    const auto& length = reference.reference->length;
    std::string known = "a known length";
    if (length.dimension) {
        if (const auto* dimension = index.dimension(length.dimension->text))
            known = nameOf(*dimension);
    } else if (length.value) {
        known = "the length of " + asWritten(*length.value, length.unit);
        if (length.source)
            if (const auto* source = index.source(length.source->text))
                known += " after " + nameOf(*source);
    }
    const auto* picture = index.sourceOfFile(reference.frame->file.text);
    return known + " that sets the scale" + (picture ? " of " + nameOf(*picture) : "");
}

std::string nameOf(const Index& index, const record::Relation& relation) {
    // Codes become names; the operators get the air and the signs of print.
    std::string text;
    const auto& formula = relation.formula;
    const auto wordAt = [&](std::size_t i) {
        return std::isalnum(static_cast<unsigned char>(formula[i])) != 0 || formula[i] == '_';
    };
    for (std::size_t i = 0; i < formula.size();) {
        if (std::isalpha(static_cast<unsigned char>(formula[i])) != 0) {
            std::size_t end = i;
            while (end < formula.size() && wordAt(end)) ++end;
            const std::string word = formula.substr(i, end - i);
            const auto* dimension = index.dimensionByCode(word);
            text += dimension ? dimension->name : word;
            i = end;
        } else if (formula.compare(i, 2, "<=") == 0) {
            text += "≤";
            i += 2;
        } else if (formula.compare(i, 2, ">=") == 0) {
            text += "≥";
            i += 2;
        } else {
            text += formula[i] == '*' ? " × " : std::string(1, formula[i]);
            ++i;
        }
    }
    std::string spaced;
    for (const char c : text)
        if (c != ' ' || (!spaced.empty() && spaced.back() != ' ')) spaced += c;
    return "“" + spaced + "”";
}

std::string nameOfLeaf(const Index& index, const std::string& leaf, const std::string& about) {
    if (const auto reference = index.reference(leaf); reference.reference)
        return nameOf(index, reference);
    const std::string owner = leaf.substr(0, leaf.find('/'));
    const std::string part = owner.size() < leaf.size() ? leaf.substr(owner.size() + 1) : "";
    if (const auto* shared = index.sharedError(owner))
        return fmt::format("the common error “{}”", shared->label);
    if (const auto* mark = index.mark(owner)) {
        const auto* source = index.sourceOfFile(mark->file.text);
        return source ? "the place of a mark on " + nameOf(*source) : "the place of a mark";
    }
    const auto* reading = index.reading(owner);
    if (reading && part.starts_with("off_plane"))
        return "how much nearer or farther " + nameOfTarget(index, reading->of) + " lies";
    if (reading && part.starts_with("correction"))
        for (std::size_t i = 0; i < reading->corrections.size(); ++i)
            if (part.ends_with("/" + std::to_string(i)))
                return fmt::format("the correction “{}” of {}", reading->corrections[i].label,
                                   nameOf(index, *reading));
    if (reading && !about.empty() && reading->of.text != about)
        return fmt::format("{} ({})", nameOfTarget(index, reading->of), nameOf(index, *reading));
    return nameOfTarget(index, {owner});
}

std::string asWritten(const record::Written& value, const std::optional<std::string>& unit) {
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    const auto& number = std::get<record::Number>(value);
    const std::string digits = number.text.empty() || number.text.size() > 8
                                   ? cutZeros(quantity::significantText(number.value, 6))
                                   : number.text;
    return digits + (unit ? unitSuffix(*unit) : "");
}

std::string unitSuffix(const std::string& unit) {
    if (unit == "1" || unit.empty()) return {};
    if (unit == "deg") return "°";
    if (unit.ends_with('2')) return " " + unit.substr(0, unit.size() - 1) + "²";
    if (unit.ends_with('3')) return " " + unit.substr(0, unit.size() - 1) + "³";
    return " " + unit;
}

std::string sizeText(double value, std::optional<double> halfWidth, const std::string& unit) {
    if (!std::isfinite(value)) return "no value";
    if (!halfWidth || !(*halfWidth > 0) || !std::isfinite(*halfWidth))
        return cutZeros(quantity::significantText(value, 5)) + unitSuffix(unit);
    const int decimals = quantity::decimalsFor(*halfWidth, 2);
    return quantity::decimalText(value, decimals) + unitSuffix(unit) + " ± " +
           quantity::decimalText(*halfWidth, decimals);
}

std::string amountText(double amount, const std::string& unit) {
    return plainNumber(amount) + unitSuffix(unit);
}

std::string plainNumber(double value, int digits) {
    return std::isfinite(value) ? cutZeros(quantity::significantText(value, digits)) : "no number";
}

std::string percentText(double share) {
    if (share > 0 && share < 0.005) return "under 1 %";
    return fmt::format("{} %", std::lround(share * 100));
}

std::string listText(const std::vector<std::string>& names, std::size_t most) {
    if (names.empty()) return "nothing";
    const std::size_t shown = names.size() > most ? most - 1 : names.size();
    std::vector<std::string> parts(names.begin(),
                                   names.begin() + static_cast<std::ptrdiff_t>(shown));
    if (shown < names.size()) parts.push_back(fmt::format("{} more", names.size() - shown));
    std::string text = parts.front();
    for (std::size_t i = 1; i < parts.size(); ++i)
        text += (i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return text;
}

std::string countText(std::size_t count, const std::string& one, const std::string& many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string sentence(std::string text) {
    if (!text.empty())
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    return text;
}

}  // namespace evidence::judgement
