#include "app/report/grade_shares.h"

#include "app/report/value_words.h"

#include <cmath>

namespace app::report {

using namespace evidence::record;
namespace quantity = evidence::quantity;

std::vector<GradeShare> gradeShares(const RegisterIndex& index, const Selection& selection) {
    std::array<double, 7> count{};
    std::array<double, 7> length{};
    std::array<double, 7> mass{};
    double lengths = 0;
    double masses = 0;
    for (const Dimension* d : selection.dimensions) {
        const auto* result = index.result(d->id.text);
        const Grade grade = result == nullptr ? Grade::Blank : result->grade;
        const auto place = static_cast<std::size_t>(grade);
        count[place] += 1;
        if (result == nullptr || !result->value) continue;
        const double canonical = std::abs(quantity::toCanonical(*result->value, unitOf(*d)));
        const quantity::Measure measure = measureOf(d->quantity);
        if (measure == quantity::Measure::Length) {
            length[place] += canonical;
            lengths += canonical;
        } else if (measure == quantity::Measure::Mass) {
            mass[place] += canonical;
            masses += canonical;
        }
    }
    std::vector<GradeShare> shares;
    const auto add = [&](const char* name, const QString& total, std::array<double, 7> weights,
                         double sum) {
        if (!(sum > 0)) return;
        for (double& w : weights) w /= sum;
        shares.push_back({QString::fromUtf8(name), total, weights});
    };
    const auto n = double(selection.dimensions.size());
    add("By count", QStringLiteral("%1 sizes").arg(QString::number(int(n))), count, n);
    add("By length", QStringLiteral("%1 ft").arg(rounded(lengths / 12, 3)), length, lengths);
    add("By mass", QStringLiteral("%1 lb").arg(rounded(masses, 3)), mass, masses);
    return shares;
}

}  // namespace app::report
