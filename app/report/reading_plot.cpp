#include "app/report/reading_plot.h"

#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <algorithm>
#include <optional>

namespace app::report {

using namespace evidence::record;
using namespace evidence::judgement;

namespace {

constexpr double kNormal95 = 1.96;

const ReadingResult* resultOf(const DimensionResult* result, const Reading& reading) {
    if (result == nullptr) return nullptr;
    const auto found = std::ranges::find(result->readings, reading.id, &ReadingResult::id);
    return found == result->readings.end() ? nullptr : &*found;
}

/// The class of the reading itself, where it counts; else the grade of the size.
Grade strengthOf(const DimensionResult* result, const Reading& reading) {
    if (result == nullptr) return Grade::Blank;
    const auto leaf = std::ranges::find(result->leaves, reading.id.text, &LeafShare::id);
    return leaf != result->leaves.end() && leaf->strength ? *leaf->strength : result->grade;
}

std::optional<figure::IntervalRow> rowOf(const RegisterIndex& index, const Dimension& dimension,
                                         const DimensionResult* result, const Reading& reading) {
    const ReadingResult* known = resultOf(result, reading);
    figure::IntervalRow row;
    row.label = index.code(reading.id.text) + u' ' + basisWords(reading.basis);
    row.guess = reading.basis == Basis::Guessed;
    row.echo = known != nullptr && known->echoOf.has_value();
    row.grade = strengthOf(result, reading);
    if (reading.basis == Basis::Limit && (reading.low || reading.high)) {
        if (reading.low) row.low = writtenIn(*reading.low, reading.unit, dimension);
        if (reading.high) row.high = writtenIn(*reading.high, reading.unit, dimension);
    } else if (known != nullptr && known->value) {
        row.value = known->value;
        row.low = *known->value - kNormal95 * known->u.value_or(0);
        row.high = *known->value + kNormal95 * known->u.value_or(0);
    } else {
        return std::nullopt;
    }
    return row;
}

}  // namespace

figure::IntervalPlot readingPlot(const RegisterIndex& index, const Dimension& dimension) {
    const DimensionResult* result = index.result(dimension.id.text);
    figure::IntervalPlot plot;
    for (const Reading* reading : index.readingsOf(dimension.id.text)) {
        // What was set aside would stretch the scale and squeeze what counts.
        if (reading->setAside) continue;
        if (auto row = rowOf(index, dimension, result, *reading))
            plot.readings.push_back(std::move(*row));
    }
    if (result != nullptr && result->value) {
        figure::IntervalRow adjusted;
        adjusted.label = QStringLiteral("all evidence together");
        adjusted.value = result->value;
        adjusted.low = result->low95;
        adjusted.high = result->high95;
        adjusted.grade = result->grade;
        plot.adjusted = adjusted;
    }
    const auto rulings = index.rulingsOf(dimension.id.text);
    if (!rulings.empty())
        plot.ruled = writtenIn(rulings.front()->value, rulings.front()->unit, dimension);
    plot.tolerance = dimension.tolerance;
    return plot;
}

}  // namespace app::report
