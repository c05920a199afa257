#include "evidence-core/exchange/register_check.h"
#include "evidence-core/trade/tables.h"

#include <map>
#include <set>
#include <vector>

namespace evidence::exchange {

namespace {

/// The keys `value` and `unit` of a record about the dimension or particular `on`.
template <class Record>
bool checkBuildValue(const CheckContext& context, const Record& record) {
    const auto frame = valueFrameOf(context, record.on, record.unit);
    return frame && readValue(context, "value", *frame, record.value);
}

bool checkWorkmanship(const CheckContext& context, const std::map<std::string, double>& known) {
    const JsonReader::Step map(context.reader, std::string_view("workmanship_by_component"));
    for (const auto& [component, u] : known)
        if (!checkNumber(context, component, u, Least::NotNegative)) return false;
    return true;
}

/// Rows that people added to the trade tables: whole, with a source on record, each id once.
bool checkTableRows(const CheckContext& context, const std::vector<record::TableRow>& rows) {
    const JsonReader::Step list(context.reader, std::string_view("table_rows"));
    std::set<std::string_view> taken;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const JsonReader::Step step(context.reader, i);
        if (const auto row = trade::ownRow(rows[i], context.reg.sources); !row)
            return refuseAt(context, row.error().place, row.error().code, row.error().help);
        if (!taken.insert(rows[i].id).second)
            return refuseAt(context, "id", Code::DuplicateId,
                            "another row of these tables has this id");
    }
    return true;
}

}  // namespace

bool checkSense(const CheckContext& context, const record::ArchiveInfo& archive) {
    constexpr int kCoarsest = 2;
    constexpr int kFinest = 128;
    if (archive.smallestFraction &&
        (*archive.smallestFraction < kCoarsest || *archive.smallestFraction > kFinest))
        return refuseAt(context, "smallest_fraction", Code::BadValue, "expected 2 … 128");
    if (!checkNumber(context, "workmanship", archive.workmanship, Least::NotNegative)) return false;
    if (!archive.settings) return true;
    const JsonReader::Step step(context.reader, std::string_view("settings"));
    bool ok = true;
    record::forEachField(*archive.settings, [&](std::string_view key, const auto& setting) {
        if constexpr (std::is_same_v<std::decay_t<decltype(setting)>, std::optional<double>>)
            ok = ok && checkNumber(context, key, setting, Least::NotNegative);
    });
    return ok && checkWorkmanship(context, archive.settings->workmanshipByComponent) &&
           checkTableRows(context, archive.settings->tableRows);
}

bool checkSense(const CheckContext& context, const record::State& state) {
    return checkDate(context, "from", state.from) && checkDate(context, "to", state.to);
}

bool checkSense(const CheckContext& context, const record::Enquiry& enquiry) {
    return checkDate(context, "on", enquiry.on) && checkDate(context, "due", enquiry.due) &&
           checkDate(context, "answered_on", enquiry.answeredOn);
}

bool checkSense(const CheckContext& context, const record::Source& source) {
    if (!checkDate(context, "date", source.date) || !checkDescent(context, source)) return false;
    if (!checkNumber(context, "figured_to", source.figuredTo, Least::Positive)) return false;
    if (source.originalSize)
        for (const double side : *source.originalSize)
            if (!checkNumber(context, "original_size", side, Least::Positive)) return false;
    for (std::size_t i = 0; i < source.files.size(); ++i) {
        const auto& file = source.files[i];
        const JsonReader::Step list(context.reader, std::string_view("files"));
        const JsonReader::Step step(context.reader, i);
        if (!checkHash(context, "sha256", file.sha256)) return false;
        if (!checkNumber(context, "raster_dpi", file.rasterDpi, Least::Positive)) return false;
        if (file.path.empty())
            return refuseAt(context, "path", Code::BadValue, "a path cannot be empty");
        if (file.pages && *file.pages < 0)
            return refuseAt(context, "pages", Code::BadValue, "expected 0 or more");
        if (file.bytes && *file.bytes < 0)
            return refuseAt(context, "bytes", Code::BadValue, "expected 0 or more");
    }
    return true;
}

bool checkSense(const CheckContext& context, const record::Ruling& ruling) {
    const auto frame = valueFrameOf(context, ruling.on, ruling.unit);
    if (!frame || !readValue(context, "value", *frame, ruling.value)) return false;
    for (std::size_t i = 0; i < ruling.alternatives.size(); ++i) {
        const JsonReader::Step list(context.reader, std::string_view("alternatives"));
        const JsonReader::Step step(context.reader, i);
        const auto& other = ruling.alternatives[i];
        const auto own = valueFrameOf(context, ruling.on, other.unit ? other.unit : ruling.unit);
        if (!own || !readValue(context, "value", *own, other.value)) return false;
    }
    return checkTime(context, "at", ruling.at) &&
           checkNumber(context, "tolerance", ruling.tolerance, Least::NotNegative);
}

bool checkSense(const CheckContext& context, const record::Departure& departure) {
    const auto frame = valueFrameOf(context, departure.on, departure.unit);
    if (!frame || !readValue(context, "to", *frame, departure.to)) return false;
    if (departure.from && !readValue(context, "from", *frame, *departure.from)) return false;
    for (std::size_t i = 0; i < departure.approvals.size(); ++i) {
        const JsonReader::Step list(context.reader, std::string_view("approvals"));
        const JsonReader::Step step(context.reader, i);
        if (!checkTime(context, "at", departure.approvals[i].at)) return false;
    }
    return checkTime(context, "at", departure.at);
}

bool checkSense(const CheckContext& context, const record::Slip& slip) {
    return checkBuildValue(context, slip) && checkTime(context, "at", slip.at) &&
           checkNumber(context, "tolerance", slip.tolerance, Least::NotNegative);
}

bool checkSense(const CheckContext& context, const record::AsBuilt& made) {
    return checkBuildValue(context, made) && checkTime(context, "at", made.at) &&
           checkNumber(context, "u", made.u, Least::NotNegative);
}

bool checkSense(const CheckContext& context, const record::Query& query) {
    for (std::size_t i = 0; i < query.answers.size(); ++i) {
        const JsonReader::Step list(context.reader, std::string_view("answers"));
        const JsonReader::Step step(context.reader, i);
        if (!checkTime(context, "at", query.answers[i].at)) return false;
    }
    return checkTime(context, "at", query.at) && checkTime(context, "closed", query.closed);
}

bool checkSense(const CheckContext& context, const record::Signoff& signoff) {
    return checkTime(context, "at", signoff.at);
}

bool checkSense(const CheckContext& context, const record::Lowered& lowered) {
    return checkTime(context, "at", lowered.at);
}

bool checkSense(const CheckContext& context, const record::Acknowledgement& seen) {
    return checkTime(context, "at", seen.at);
}

bool checkSense(const CheckContext& context, const record::Issued& issued) {
    return checkTime(context, "at", issued.at) && checkHash(context, "sha256", issued.sha256);
}

}  // namespace evidence::exchange
