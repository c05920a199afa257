#include "evidence-core/judgement/finding/guess_age.h"

#include "evidence-core/judgement/wording.h"
#include "evidence-core/quantity/edtf.h"
#include "evidence-core/quantity/time.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {
namespace {

void takeDate(const std::optional<std::string>& date, std::optional<int>& latest) {
    if (!date) return;
    const auto read = quantity::parseEdtf(*date);
    if (read && read->latest) latest = std::max(latest.value_or(*read->latest), *read->latest);
}

void takeMoment(const std::string& moment, std::optional<int>& latest) {
    const auto read = quantity::parseInstant(moment);
    if (read) latest = std::max(latest.value_or(read->day()), read->day());
}

std::string ageText(int days) {
    constexpr int kYear = 365;
    constexpr int kMonth = 30;
    const auto text = [](int count, const char* one, const char* many) {
        return countText(static_cast<std::size_t>(count), one, many);
    };
    if (days >= 2 * kYear) return text(days / kYear, "year", "years");
    if (days >= 2 * kMonth) return text(days / kMonth, "month", "months");
    return text(days, "day", "days");
}

}  // namespace

std::optional<int> latestEntry(const record::Register& reg) {
    std::optional<int> latest;
    for (const auto& reading : reg.readings) takeDate(reading.on, latest);
    for (const auto& enquiry : reg.enquiries) takeDate(enquiry.on, latest);
    for (const auto& ruling : reg.rulings) takeMoment(ruling.at, latest);
    for (const auto& slip : reg.slips) takeMoment(slip.at, latest);
    for (const auto& made : reg.asBuilt) takeMoment(made.at, latest);
    return latest;
}

void addAge(const Context& c, const std::vector<std::size_t>& leaves, std::string& text,
            std::vector<std::pair<std::string, double>>& numbers) {
    std::optional<int> oldest;
    for (const auto at : leaves) {
        const auto& leaf = c.solution.leaves[at];
        const auto* reading = c.index.reading(leaf.id);
        if (!reading || !reading->on || leaf.strength != record::Grade::OurCall) continue;
        const auto date = quantity::parseEdtf(*reading->on);
        if (date && date->earliest)
            oldest = std::min(oldest.value_or(*date->earliest), *date->earliest);
    }
    const auto latest = latestEntry(c.index.reg());
    if (!oldest || !latest) return;
    const int days = std::max(0, *latest - *oldest);
    numbers.emplace_back("age_days", days);
    text += fmt::format(" {} dates from {}", leaves.size() > 1 ? "The oldest guess" : "The guess",
                        quantity::dayText(*oldest));
    text += days > 0 ? fmt::format(", {} before the latest entry.", ageText(days)) : ".";
}

}  // namespace evidence::judgement
