#pragma once

#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <string_view>

namespace evidence::quantity {

/// A civil day as the number of days since 1970-01-01, proleptic Gregorian.
using CivilDay = int;

/// How finely a date was written.
enum class DatePrecision { Day, Month, Season, Year, Decade, Century };

/// A date of evidence: the earliest and latest day it can mean, and what was said about it.
struct EdtfDate {
    std::optional<CivilDay> earliest;  ///< none: open or unknown start
    std::optional<CivilDay> latest;    ///< none: open or unknown end
    bool approximate = false;          ///< `~` or `%` on either end: the bounds are not certain
    bool uncertain = false;            ///< `?` or `%` on either end
    DatePrecision precision = DatePrecision::Day;  ///< the coarser of an interval's two ends
    std::string edtf;  ///< the EDTF form: the text itself, or what the words mean
    std::string text;  ///< verbatim

    friend bool operator==(const EdtfDate&, const EdtfDate&) = default;
};

/// Reads an EDTF date of ISO 8601-2:2019 level 0 and 1 (four-digit years): `1909`, `1909-02~`,
/// `1911?`, `191X`, `19XX`, `1911-05-XX`, `1911-21` (spring), `1909/1910~`, `../1911`, `1911/`,
/// and date-times (the day is the one in UTC where an offset is written).
/// Seasons are taken as northern ones; winter reaches from January of its year to the end of
/// February of the next, for either winter may be meant.
/// Errors: BadDate; `place` is the text, the help says which part is wrong.
[[nodiscard]] Result<EdtfDate> parseEdtf(std::string_view text);

/// As parseEdtf, and what people write: `c. 1935`, `about 1935`, `before 1936`, `after 1936`.
/// Refuses what can be read in two ways (`03/04/1935`) or is no date (`60`), saying what to ask.
[[nodiscard]] Result<EdtfDate> parseWrittenDate(std::string_view text);

/// `1935-04-03` of a day.
[[nodiscard]] std::string dayText(CivilDay day);
/// Days since 1970-01-01; none where there is no such day in the Gregorian calendar.
[[nodiscard]] std::optional<CivilDay> civilDay(int year, int month, int day);

/// True where every day of `a` lies after every day of `b` and neither is approximate nor
/// uncertain.
[[nodiscard]] bool certainlyAfter(const EdtfDate& a, const EdtfDate& b);

}  // namespace evidence::quantity
