#include "app/report/value_words.h"

#include "app/report/document.h"
#include "evidence-core/quantity/fraction.h"
#include "evidence-core/quantity/parse_quantity.h"
#include "evidence-core/quantity/significant.h"

#include <algorithm>
#include <cmath>

namespace app::report {

using namespace evidence::record;
namespace quantity = evidence::quantity;
using quantity::Measure;
using quantity::Unit;

std::optional<Interval> intervalOf(const evidence::judgement::DimensionResult& result,
                                   const Dimension& dimension) {
    if (!result.value) return std::nullopt;
    const Measure measure = measureOf(dimension.quantity);
    Unit unit = unitOf(dimension);
    if (const auto named = quantity::unitNamed(result.unit, measure)) unit = *named;
    return Interval{*result.value, result.low95.value_or(*result.value),
                    result.high95.value_or(*result.value), unit};
}

QString unitSign(Unit unit) {
    switch (unit) {
        case Unit::Degree:
            return QStringLiteral("°");
        case Unit::ArcMinute:
            return QStringLiteral("′");
        case Unit::One:
            return {};
        case Unit::Percent:
            return QStringLiteral("%");
        case Unit::SquareInch:
            return QStringLiteral("sq in");
        case Unit::SquareFoot:
            return QStringLiteral("sq ft");
        case Unit::SquareMillimetre:
            return QStringLiteral("mm²");
        case Unit::SquareCentimetre:
            return QStringLiteral("cm²");
        case Unit::SquareMetre:
            return QStringLiteral("m²");
        case Unit::CubicInch:
            return QStringLiteral("cu in");
        case Unit::CubicFoot:
            return QStringLiteral("cu ft");
        case Unit::CubicMillimetre:
            return QStringLiteral("mm³");
        case Unit::CubicCentimetre:
            return QStringLiteral("cm³");
        case Unit::CubicMetre:
            return QStringLiteral("m³");
        case Unit::Inch:
        case Unit::Foot:
        case Unit::Yard:
        case Unit::Millimetre:
        case Unit::Centimetre:
        case Unit::Metre:
        case Unit::ArcSecond:
        case Unit::Radian:
        case Unit::Pound:
        case Unit::Ounce:
        case Unit::Kilogram:
        case Unit::Gram:
        case Unit::Tonne:
        case Unit::Litre:
            break;
    }
    return QString::fromUtf8(quantity::nameOf(unit).data(),
                             qsizetype(quantity::nameOf(unit).size()));
}

namespace {

QString signedWords(std::string digits) {
    QString words = QString::fromStdString(digits);
    words.replace(QLatin1Char('-'), QStringLiteral("−"));
    return words;
}

// A thin gap before the unit, none before the degree sign.
QString unitAfter(Unit unit) {
    const QString sign = unitSign(unit);
    if (sign.isEmpty() || unit == Unit::Degree || unit == Unit::ArcMinute) return sign;
    return QStringLiteral("\u00A0") + sign;
}

struct Sides {
    double value = 0;
    double below = 0;
    double above = 0;
    double half = 0;
    int decimals = 0;
};

Sides sidesIn(const Interval& interval, Unit unit) {
    const auto in = [&](double x) {
        return quantity::fromCanonical(quantity::toCanonical(x, interval.unit), unit);
    };
    Sides s;
    s.value = in(interval.value);
    s.below = s.value - in(interval.low);
    s.above = in(interval.high) - s.value;
    s.half = (s.below + s.above) / 2;
    const double finer = std::min(s.below, s.above) > 0 ? std::min(s.below, s.above) : s.half;
    s.decimals = s.half > 0 ? quantity::decimalsFor(std::max(finer, s.half / 10), 2) : 0;
    return s;
}

bool lopsided(const Sides& s) {
    return std::max(s.below, s.above) > 1.1 * std::max(std::min(s.below, s.above), 0.0) &&
           s.half > 0;
}

QString doubtWords(const Sides& s) {
    if (lopsided(s))
        return QStringLiteral("+%1 −%2").arg(
            signedWords(quantity::decimalText(s.above, s.decimals)),
            signedWords(quantity::decimalText(s.below, s.decimals)));
    return QStringLiteral("±\u00A0") + signedWords(quantity::decimalText(s.half, s.decimals));
}

bool exact(const Sides& s) {
    return !(s.half > std::abs(s.value) * 1e-9);
}

}  // namespace

QString withDoubt(const Interval& interval, Unit unit) {
    const Sides s = sidesIn(interval, unit);
    if (exact(s))
        return rounded(s.value, 6) + unitAfter(unit) + QStringLiteral(" (taken as exact)");
    return signedWords(quantity::decimalText(s.value, s.decimals)) + u' ' + doubtWords(s) +
           unitAfter(unit);
}

QString doubtAlone(const Interval& interval, Unit unit) {
    const Sides s = sidesIn(interval, unit);
    if (exact(s)) return QStringLiteral("exact");
    return doubtWords(s) + unitAfter(unit);
}

QString between(const Interval& interval, Unit unit) {
    const Sides s = sidesIn(interval, unit);
    return signedWords(quantity::decimalText(s.value - s.below, s.decimals)) +
           QStringLiteral(" … ") +
           signedWords(quantity::decimalText(s.value + s.above, s.decimals)) + unitAfter(unit);
}

Unit customaryUnit(Measure measure) {
    switch (measure) {
        case Measure::Length:
            return Unit::Inch;
        case Measure::Angle:
            return Unit::Degree;
        case Measure::Mass:
            return Unit::Pound;
        case Measure::Area:
            return Unit::SquareInch;
        case Measure::Volume:
            return Unit::CubicInch;
        case Measure::Number:
            break;
    }
    return Unit::One;
}

Unit metricUnit(Measure measure) {
    switch (measure) {
        case Measure::Length:
            return Unit::Millimetre;
        case Measure::Angle:
            return Unit::Degree;
        case Measure::Mass:
            return Unit::Kilogram;
        case Measure::Area:
            return Unit::SquareCentimetre;
        case Measure::Volume:
            return Unit::CubicCentimetre;
        case Measure::Number:
            break;
    }
    return Unit::One;
}

Fraction earnedFraction(const Interval& interval, int smallest) {
    const Sides s = sidesIn(interval, Unit::Inch);
    int steps = std::clamp(smallest, 1, 128);
    while (steps > 1 && 1.0 / steps < s.half / 8) steps /= 2;
    const auto length = quantity::Inch::fromInches(s.value);
    const auto shop = quantity::toShopFraction(length, steps);
    return {signedWords(quantity::feetInches(length, steps, quantity::Typesetting::Typographic))
                .replace(QStringLiteral("′−"), QStringLiteral("′-")),
            signedWords(quantity::roundingNote(shop))};
}

QString headline(const Interval& interval, int smallestFraction) {
    const Measure measure = quantity::measureOf(interval.unit);
    if (measure == Measure::Length) return earnedFraction(interval, smallestFraction).text;
    const Unit unit = customaryUnit(measure);
    const Sides s = sidesIn(interval, unit);
    if (exact(s)) return rounded(s.value, 6) + unitAfter(unit);
    return signedWords(quantity::decimalText(s.value, s.decimals)) + unitAfter(unit);
}

QString bothSystems(const Interval& interval) {
    const Measure measure = quantity::measureOf(interval.unit);
    const QString customary = withDoubt(interval, customaryUnit(measure));
    if (customaryUnit(measure) == metricUnit(measure)) return customary;
    return customary + QStringLiteral(" · ") + withDoubt(interval, metricUnit(measure));
}

namespace {

std::optional<quantity::Written> readWritten(const evidence::record::Written& written,
                                             const std::optional<std::string>& unit,
                                             const Dimension& dimension) {
    const Measure measure = measureOf(dimension.quantity);
    Unit bare = unitOf(dimension);
    if (unit)
        if (const auto named = quantity::unitNamed(*unit, measure)) bare = *named;
    if (const auto* number = std::get_if<Number>(&written)) {
        quantity::Written read;
        read.canonical = quantity::toCanonical(number->value, bare);
        read.unit = bare;
        const double step = number->text.empty() ? 0 : quantity::resolutionOfNumber(number->text);
        read.resolution = std::abs(quantity::toCanonical(step, bare));
        return read;
    }
    const auto read = quantity::parseQuantity(std::get<std::string>(written), measure, bare);
    return read ? std::optional(*read) : std::nullopt;
}

bool isMetric(Unit unit) {
    return unit == Unit::Millimetre || unit == Unit::Centimetre || unit == Unit::Metre ||
           unit == Unit::Kilogram || unit == Unit::Gram || unit == Unit::Tonne ||
           unit == Unit::SquareMillimetre || unit == Unit::SquareCentimetre ||
           unit == Unit::SquareMetre || unit == Unit::CubicMillimetre ||
           unit == Unit::CubicCentimetre || unit == Unit::CubicMetre || unit == Unit::Litre;
}

}  // namespace

QString writtenWords(const evidence::record::Written& written,
                     const std::optional<std::string>& unit, const Dimension* dimension) {
    QString verbatim;
    if (const auto* number = std::get_if<Number>(&written)) {
        verbatim = number->text.empty() ? rounded(number->value, 6) : signedWords(number->text);
        if (dimension != nullptr) {
            Unit bare = unitOf(*dimension);
            if (unit)
                if (const auto named = quantity::unitNamed(*unit, measureOf(dimension->quantity)))
                    bare = *named;
            verbatim += unitAfter(bare);
        } else if (unit) {
            verbatim += u' ' + shown(*unit);
        }
    } else {
        verbatim = shown(std::get<std::string>(written));
        if (dimension == nullptr && unit) verbatim += u' ' + shown(*unit);
    }
    if (dimension == nullptr) return verbatim;
    const auto read = readWritten(written, unit, *dimension);
    if (!read) return verbatim;
    const Measure measure = measureOf(dimension->quantity);
    const Unit other = isMetric(read->unit) ? customaryUnit(measure) : metricUnit(measure);
    if (customaryUnit(measure) == metricUnit(measure)) return verbatim;
    const double value = quantity::fromCanonical(read->canonical, other);
    const double step = std::abs(quantity::fromCanonical(read->resolution, other));
    const int decimals = step > 0 ? std::clamp(quantity::decimalsFor(step, 2), -3, 4) : 2;
    return QStringLiteral("%1 (%2%3)")
        .arg(verbatim, signedWords(quantity::decimalText(value, decimals)), unitAfter(other));
}

std::optional<double> writtenIn(const evidence::record::Written& written,
                                const std::optional<std::string>& unit,
                                const Dimension& dimension) {
    const auto read = readWritten(written, unit, dimension);
    if (!read) return std::nullopt;
    return quantity::fromCanonical(read->canonical, unitOf(dimension));
}

QString allowWords(double tolerance, Unit unit) {
    const double inches = tolerance;
    const double sixtyFourths = inches * 64;
    if (unit == Unit::Inch && tolerance > 0 && tolerance < 12 &&
        std::abs(sixtyFourths - std::round(sixtyFourths)) < 1e-9) {
        QString words = QString::fromStdString(quantity::inchFraction(
            quantity::Inch::fromInches(inches), 64, quantity::Typesetting::Typographic));
        words.remove(QStringLiteral("″")).remove(QLatin1Char('"'));
        return QStringLiteral("allow ±\u00A0%1\u00A0in").arg(words);
    }
    return QStringLiteral("allow ±\u00A0%1%2").arg(rounded(tolerance, 2), unitAfter(unit));
}

QString rounded(double value, int digits) {
    if (!std::isfinite(value)) return QStringLiteral("–");
    if (std::abs(value) < 1e-9) return QStringLiteral("0");  // what arithmetic leaves of nothing
    std::string text = quantity::significantText(value, digits);
    if (digits > 3 && text.find('.') != std::string::npos) {
        while (text.back() == '0') text.pop_back();
        if (text.back() == '.') text.pop_back();
    }
    return signedWords(text);
}

QString figureFor(double value, double spread) {
    if (!std::isfinite(value) || !std::isfinite(spread)) return QStringLiteral("–");
    if (spread <= 0) return rounded(value, 6);
    return signedWords(quantity::decimalText(value, quantity::decimalsFor(spread, 2)));
}

QString percent(double share) {
    const double hundred = share * 100;
    if (hundred > 0 && hundred < 0.95) return QStringLiteral("under 1 %");
    return QString::number(std::lround(hundred)) + QStringLiteral(" %");
}

}  // namespace app::report
