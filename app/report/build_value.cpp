#include "app/report/build_value.h"

#include "app/report/value_words.h"
#include "app/report/wording.h"
#include "evidence-core/quantity/fraction.h"

#include <cmath>
#include <set>

namespace app::report {

using namespace evidence::record;
namespace quantity = evidence::quantity;

namespace {

std::optional<double> toleranceOf(const RegisterIndex& index, const Dimension& d) {
    const auto rulings = index.rulingsOf(d.id.text);
    if (!rulings.empty() && rulings.front()->tolerance) return rulings.front()->tolerance;
    return d.tolerance;
}

// A fraction of the shop's rule, unless rounding to it would eat what is allowed: then decimals.
QString shopLength(double inches, int smallest, const std::optional<double>& toleranceInches) {
    const auto length = quantity::Inch::fromInches(inches);
    const auto fraction = quantity::toShopFraction(length, smallest);
    if (toleranceInches && std::abs(fraction.rounding.toInches()) > *toleranceInches / 4)
        return figureFor(inches, *toleranceInches) + QStringLiteral(" in");
    return QString::fromStdString(
        quantity::feetInches(length, smallest, quantity::Typesetting::Typographic));
}

BuildValue ofDimension(const RegisterIndex& index, const Dimension& d, double value,
                       const QString& verbatim) {
    BuildValue build;
    const quantity::Unit unit = unitOf(d);
    if (quantity::measureOf(unit) != quantity::Measure::Length) {
        build.make = verbatim;
        return build;
    }
    const auto inches = [&](double x) { return quantity::toCanonical(x, unit); };
    const auto tolerance = toleranceOf(index, d);
    build.make = shopLength(inches(value), index.reg.archive.smallestFraction.value_or(32),
                            tolerance ? std::optional(inches(*tolerance)) : std::nullopt);
    build.beside =
        QStringLiteral("%1 in · %2 mm")
            .arg(figureFor(inches(value), 0.01),
                 figureFor(quantity::fromCanonical(inches(value), quantity::Unit::Millimetre), 1));
    return build;
}

BuildValue ofWritten(const RegisterIndex& index, const std::string& id, const Written& written,
                     const std::optional<std::string>& unit) {
    const Dimension* d = index.dimension(id);
    const QString verbatim = writtenWords(written, unit, d);
    const auto value = d == nullptr ? std::nullopt : writtenIn(written, unit, *d);
    if (value) return ofDimension(index, *d, *value, verbatim);
    BuildValue build;
    build.make = verbatim;
    return build;
}

BuildValue ofEvidence(const RegisterIndex& index, const std::string& id) {
    BuildValue build;
    build.said = QStringLiteral("not ruled yet: what the evidence says today");
    build.from = BuildValue::From::Evidence;
    if (const Dimension* d = index.dimension(id)) {
        const auto* result = index.result(id);
        const auto interval = result == nullptr ? std::nullopt : intervalOf(*result, *d);
        if (interval) {
            build.make = headline(*interval, index.reg.archive.smallestFraction.value_or(32));
            build.beside = bothSystems(*interval);
            return build;
        }
    } else if (const auto* fact = index.particularResult(id); fact != nullptr && fact->value) {
        build.make = shown(*fact->value);
        return build;
    }
    build.from = BuildValue::From::Nothing;
    build.make = QStringLiteral("not known");
    build.said = QStringLiteral("neither ruled nor to be worked out");
    return build;
}

}  // namespace

BuildValue buildValue(const RegisterIndex& index, const std::string& id) {
    const auto departures = RegisterIndex::on(index.reg.departures, id);
    if (!departures.empty()) {
        const Departure& x = *departures.back();
        BuildValue build = ofWritten(index, id, x.to, x.unit);
        build.from = BuildValue::From::Departure;
        build.said = QStringLiteral("departure %1 from the original, for %2")
                         .arg(index.code(x.id.text), whyWords(x.why));
        return build;
    }
    const auto rulings = index.rulingsOf(id);
    if (rulings.empty()) return ofEvidence(index, id);
    const Ruling& ruling = *rulings.front();
    BuildValue build = ofWritten(index, id, ruling.value, ruling.unit);
    build.from = BuildValue::From::Ruling;
    build.said = QStringLiteral("ruled by %1, %2")
                     .arg(index.personName(ruling.by.text), dateWords(ruling.at));
    return build;
}

QString allowance(const RegisterIndex& index, const std::string& id) {
    const Dimension* d = index.dimension(id);
    if (d == nullptr) return {};
    const auto tolerance = toleranceOf(index, *d);
    return tolerance ? allowWords(*tolerance, unitOf(*d)) : QString();
}

QString leansOnGuess(const RegisterIndex& index, const std::string& id) {
    if (const auto* result = index.result(id)) {
        if (result->restsOnGuess)
            return QStringLiteral("Rests on a guess: no evidence gives this size without it.");
        if (result->guessPull > 0.25)
            return QStringLiteral("Leans on a guess: %1 of its doubt is our own choice.")
                .arg(percent(result->guessPull));
        return {};
    }
    const auto* fact = index.particularResult(id);
    if (fact != nullptr && fact->grade == Grade::OurCall)
        return QStringLiteral("Our own choice: no evidence picks it.");
    return {};
}

Text openPoints(const RegisterIndex& index, const std::string& id) {
    Text open;
    std::set<std::string> said;
    for (const auto* f : index.findingsOn(id)) {
        if (f->severity == evidence::judgement::Severity::Note || f->acknowledged) continue;
        if (!said.insert(f->kind).second) continue;
        if (!open.empty()) open.add(QStringLiteral("; "));
        open.add(findingName(f->kind),
                 f->severity == evidence::judgement::Severity::High ? Tone::Red : Tone::Ink);
    }
    return open;
}

}  // namespace app::report
