#include "evidence-core/quantity/edtf.h"

#include "evidence-core/quantity/time.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <chrono>
#include <cstddef>

namespace evidence::quantity {
namespace {

constexpr std::size_t kLongestText = 100;

tl::unexpected<Refusal> refuseDate(std::string_view text, const std::string& help) {
    return refuse(Code::BadDate, "\"" + std::string(text.substr(0, kLongestText)) + "\"", help);
}

bool allFigures(std::string_view text) {
    return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

int number(std::string_view figures) {
    int value = 0;
    std::from_chars(figures.data(), figures.data() + figures.size(), value);
    return value;
}

int lastDayOf(int year, int month) {
    using namespace std::chrono;
    const year_month_day_last last{std::chrono::year{year} /
                                   std::chrono::month{static_cast<unsigned>(month)} /
                                   std::chrono::last};
    return static_cast<int>(static_cast<unsigned>(last.day()));
}

// Dates given by fields that are known to exist.
CivilDay existingDay(int year, int month, int day) {
    return civilDay(year, month, day).value();
}

void setMonths(EdtfDate& date, int fromYear, int fromMonth, int toYear, int toMonth) {
    date.earliest = existingDay(fromYear, fromMonth, 1);
    date.latest = existingDay(toYear, toMonth, lastDayOf(toYear, toMonth));
}

Result<EdtfDate> seasonDate(int year, int season) {
    EdtfDate date;
    date.precision = DatePrecision::Season;
    if (season == 24) {
        setMonths(date, year, 1, year + 1, 2);
    } else {
        const int first = 3 + 3 * (season - 21);
        setMonths(date, year, first, year, first + 2);
    }
    return date;
}

// The year part: four figures, of which the last one or two may be X, with an optional minus.
struct YearPart {
    int first = 0;
    int last = 0;
    DatePrecision precision = DatePrecision::Year;
};

std::optional<YearPart> yearPart(std::string_view text) {
    const bool negative = text.starts_with('-');
    if (negative) text.remove_prefix(1);
    if (text.size() != 4) return std::nullopt;
    const std::size_t unknown = text.ends_with("XX") ? 2 : text.ends_with("X") ? 1 : 0;
    if (!allFigures(text.substr(0, 4 - unknown))) return std::nullopt;
    const int span = unknown == 2 ? 100 : unknown == 1 ? 10 : 1;
    const int base = number(text.substr(0, 4 - unknown)) * span;
    YearPart part;
    part.precision = unknown == 2   ? DatePrecision::Century
                     : unknown == 1 ? DatePrecision::Decade
                                    : DatePrecision::Year;
    part.first = negative ? -(base + span - 1) : base;
    part.last = negative ? -base : base + span - 1;
    return part;
}

Result<EdtfDate> dateTime(std::string_view text) {
    // A local time without an offset still names its day.
    const Result<Instant> instant = parseInstant(text);
    const Result<Instant> local = parseInstant(std::string(text) + "Z");
    if (!instant && !local) return refuseDate(text, "no date-time: " + instant.error().help);
    EdtfDate date;
    date.earliest = (instant ? *instant : *local).day();
    date.latest = date.earliest;
    return date;
}

Result<EdtfDate> monthDate(std::string_view whole, const YearPart& year, std::string_view month) {
    if (month == "XX") {
        EdtfDate date;
        date.precision = year.precision;
        setMonths(date, year.first, 1, year.last, 12);
        return date;
    }
    if (month.size() != 2 || !allFigures(month))
        return refuseDate(whole, "the month is two figures: write year-month-day, as 1935-04-03");
    if (year.first != year.last)
        return refuseDate(whole, "a month in an unknown year is beyond level 1: write the decade");
    const int value = number(month);
    if (value >= 21 && value <= 24) return seasonDate(year.first, value);
    if (value < 1 || value > 12)
        return refuseDate(whole, "there is no month " + std::string(month) +
                                     " (01 to 12, or 21 to 24 for spring to winter)");
    EdtfDate date;
    date.precision = DatePrecision::Month;
    setMonths(date, year.first, value, year.first, value);
    return date;
}

Result<EdtfDate> dayDate(std::string_view whole, const YearPart& year, std::string_view month,
                         std::string_view day) {
    Result<EdtfDate> date = monthDate(whole, year, month);
    if (!date || day == "XX") return date;
    if (date->precision != DatePrecision::Month)
        return refuseDate(whole, "a day needs a known month and year: write XX for the day too");
    if (day.size() != 2 || !allFigures(day))
        return refuseDate(whole, "the day is two figures: write year-month-day, as 1935-04-03");
    const std::optional<CivilDay> exact = civilDay(year.first, number(month), number(day));
    if (!exact) {
        return refuseDate(
            whole, fmt::format("there is no day {} in month {} of {:04}", day, month, year.first));
    }
    date->earliest = exact;
    date->latest = exact;
    date->precision = DatePrecision::Day;
    return date;
}

Result<EdtfDate> plainDate(std::string_view text) {
    if (text.find('T') != std::string_view::npos) return dateTime(text);
    const std::size_t yearLength = text.starts_with('-') ? 5 : 4;
    const std::optional<YearPart> year = yearPart(text.substr(0, yearLength));
    const bool ends =
        text.size() == yearLength || (text.size() > yearLength && text[yearLength] == '-');
    if (!year || !ends) {
        return refuseDate(
            text,
            "a date begins with a year of four figures (1909, 191X, 19XX), then -month "
            "and -day: write 1909, 1909-02 or 1909-02-14");
    }
    if (text.size() == yearLength) {
        EdtfDate date;
        date.precision = year->precision;
        setMonths(date, year->first, 1, year->last, 12);
        return date;
    }
    const std::string_view rest = text.substr(yearLength + 1);
    const std::size_t dash = rest.find('-');
    if (dash == std::string_view::npos) return monthDate(text, *year, rest);
    return dayDate(text, *year, rest.substr(0, dash), rest.substr(dash + 1));
}

Result<EdtfDate> oneDate(std::string_view text) {
    std::string_view plain = text;
    EdtfDate flags;
    if (!text.empty()) {
        const char last = text.back();
        flags.approximate = last == '~' || last == '%';
        flags.uncertain = last == '?' || last == '%';
        if (flags.approximate || flags.uncertain) plain.remove_suffix(1);
    }
    Result<EdtfDate> date = plainDate(plain);
    if (!date) return date;
    date->approximate = flags.approximate;
    date->uncertain = flags.uncertain;
    return date;
}

bool isOpen(std::string_view end) {
    return end.empty() || end == "..";
}

Result<EdtfDate> interval(std::string_view text, std::size_t slash) {
    const std::string_view from = text.substr(0, slash);
    const std::string_view to = text.substr(slash + 1);
    if (isOpen(from) && isOpen(to)) return refuseDate(text, "an interval needs one date at least");
    EdtfDate both;
    bool first = true;
    for (const std::string_view end : {from, to}) {
        const bool isFrom = first;
        first = false;
        if (isOpen(end)) continue;
        const Result<EdtfDate> date = oneDate(end);
        if (!date) return date;
        if (isFrom) {
            both.earliest = date->earliest;
        } else {
            both.latest = date->latest;
        }
        both.approximate = both.approximate || date->approximate;
        both.uncertain = both.uncertain || date->uncertain;
        both.precision = std::max(both.precision, date->precision);
    }
    if (both.earliest && both.latest && *both.earliest > *both.latest)
        return refuseDate(text, "the interval ends before it begins: exchange its ends");
    return both;
}

std::string trimmedLower(std::string_view text) {
    const std::size_t first = text.find_first_not_of(' ');
    if (first == std::string_view::npos) return {};
    std::string out(text.substr(first, text.find_last_not_of(' ') - first + 1));
    for (char& c : out) {
        if (c >= 'A' && c <= 'Z' && c != 'X' && c != 'T' && c != 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    }
    return out;
}

// `03/04/1935`, `3.4.1935`: three numbers of which the last is a year.
std::optional<std::array<int, 3>> threeNumbers(std::string_view text) {
    std::array<int, 3> parts{};
    std::size_t at = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t end = text.find_first_not_of("0123456789", at);
        const std::string_view figures =
            text.substr(at, end == std::string_view::npos ? end : end - at);
        if (!allFigures(figures) || figures.size() > 4) return std::nullopt;
        parts[i] = number(figures);
        if (i == 2) return end == std::string_view::npos ? std::optional(parts) : std::nullopt;
        if (end == std::string_view::npos || (text[end] != '/' && text[end] != '.'))
            return std::nullopt;
        at = end + 1;
    }
    return std::nullopt;
}

Result<EdtfDate> refuseSlashed(std::string_view text, const std::array<int, 3>& parts) {
    const auto [a, b, year] = parts;
    const bool dayFirst = civilDay(year, b, a).has_value();
    const bool monthFirst = civilDay(year, a, b).has_value();
    if (dayFirst && monthFirst && a != b) {
        return refuseDate(text, fmt::format("may be {:04}-{:02}-{:02} (day first) or "
                                            "{:04}-{:02}-{:02} (month first): write year-month-day",
                                            year, b, a, year, a, b));
    }
    if (dayFirst || monthFirst) {
        return refuseDate(text, fmt::format("write it as {:04}-{:02}-{:02}", year, dayFirst ? b : a,
                                            dayFirst ? a : b));
    }
    return refuseDate(text, "there is no such day");
}

Result<EdtfDate> refuseSerial(std::string_view text) {
    const int serial = number(text);
    // Day 1 of the 1900 system is 1900-01-01, and its day 60 never was; of the 1904 system day 0 is
    // 1904-01-01.
    if (text.size() > 5 || serial <= 60) {
        return refuseDate(text, "a bare number is no date: write a year of four figures");
    }
    const CivilDay in1900 = existingDay(1899, 12, 30) + serial;
    const CivilDay in1904 = existingDay(1904, 1, 1) + serial;
    return refuseDate(text,
                      fmt::format("may be a spreadsheet's day number, {} or (1904 system) {}: "
                                  "write year-month-day",
                                  dayText(in1900), dayText(in1904)));
}

}  // namespace

std::optional<CivilDay> civilDay(int year, int month, int day) {
    if (month < 1 || day < 1 || year < -9999 || year > 9999) return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year{year},
                                           std::chrono::month{static_cast<unsigned>(month)},
                                           std::chrono::day{static_cast<unsigned>(day)}};
    if (!date.ok()) return std::nullopt;
    return static_cast<CivilDay>(std::chrono::sys_days(date).time_since_epoch().count());
}

std::string dayText(CivilDay day) {
    const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
    const int year = static_cast<int>(date.year());
    return fmt::format("{}{:04}-{:02}-{:02}", year < 0 ? "-" : "", year < 0 ? -year : year,
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

Result<EdtfDate> parseEdtf(std::string_view text) {
    if (text.empty() || text.size() > kLongestText)
        return refuseDate(text, "a date is expected here, for example 1909 or 1909-02~");
    const std::size_t slash = text.find('/');
    Result<EdtfDate> date = slash == std::string_view::npos ? oneDate(text) : interval(text, slash);
    if (!date) return date;
    date->edtf = std::string(text);
    date->text = std::string(text);
    return date;
}

Result<EdtfDate> parseWrittenDate(std::string_view text) {
    if (text.size() > kLongestText) return refuseDate(text, "too long for a date");
    const std::string plain = trimmedLower(text);
    if (const auto parts = threeNumbers(plain)) return refuseSlashed(text, *parts);
    if (allFigures(plain) && plain.size() != 4) return refuseSerial(plain);
    struct Word {
        std::string_view word;
        std::string_view before;
        std::string_view after;
    };
    constexpr std::array kWords{
        Word{"circa ", "", "~"},  Word{"about ", "", "~"}, Word{"ca. ", "", "~"},
        Word{"ca ", "", "~"},     Word{"c. ", "", "~"},    Word{"c.", "", "~"},
        Word{"c ", "", "~"},      Word{"abt. ", "", "~"},  Word{"abt ", "", "~"},
        Word{"before ", "<", ""}, Word{"after ", ">", ""}};
    for (const Word& each : kWords) {
        if (!plain.starts_with(each.word)) continue;
        const std::string rest = plain.substr(each.word.size());
        const Result<EdtfDate> bound = parseEdtf(rest);
        if (!bound) return bound;
        std::string edtf = rest + std::string(each.after);
        if (each.before == "<") {
            if (!bound->earliest) return refuseDate(text, "\"before\" needs one date behind it");
            edtf = "../" + dayText(*bound->earliest - 1);
        } else if (each.before == ">") {
            if (!bound->latest) return refuseDate(text, "\"after\" needs one date behind it");
            edtf = dayText(*bound->latest + 1) + "/..";
        }
        Result<EdtfDate> date = parseEdtf(edtf);
        if (date) date->text = std::string(text);
        return date;
    }
    Result<EdtfDate> date = parseEdtf(plain);
    if (date) date->text = std::string(text);
    return date;
}

bool certainlyAfter(const EdtfDate& a, const EdtfDate& b) {
    const bool sure = !a.approximate && !a.uncertain && !b.approximate && !b.uncertain;
    return sure && a.earliest && b.latest && *a.earliest > *b.latest;
}

}  // namespace evidence::quantity
