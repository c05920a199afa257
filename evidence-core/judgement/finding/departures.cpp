#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"

#include <fmt/format.h>

#include <algorithm>

namespace evidence::judgement {

namespace {

std::string whyOf(record::DepartureWhy why) {
    using record::DepartureWhy;
    switch (why) {
        case DepartureWhy::Safety:
            return "for safety";
        case DepartureWhy::Law:
            return "because the law asks for it";
        case DepartureWhy::Crew:
            return "for the crew";
        case DepartureWhy::Material:
            return "because the material is no longer to be had";
        case DepartureWhy::Cost:
            return "for its cost";
        case DepartureWhy::Durability:
            return "so that it lasts";
        case DepartureWhy::Access:
            return "for access";
        case DepartureWhy::Other:
            return "on purpose";
    }
    return "on purpose";
}

bool isApproved(const record::Departure& departure, record::ApprovalSide side) {
    return std::ranges::any_of(departure.approvals,
                               [&](const record::Approval& a) { return a.as == side; });
}

}  // namespace

void findDepartures(const Judged& judged, std::vector<Finding>& findings) {
    const auto& c = judged.context;
    for (const auto& departure : c.index.reg().departures) {
        const std::string name = nameOfTarget(c.index, departure.on);
        const std::vector<record::AnyId> on{departure.on, record::any(departure.id)};
        std::string text =
            fmt::format("{} is built as {} {}", name, asWritten(departure.to, departure.unit),
                        whyOf(departure.why));
        if (departure.from)
            text += fmt::format(", where the original was {}",
                                asWritten(*departure.from, departure.unit));
        findings.push_back(made("departure", on, text + ". The grade of the original stays.",
                                "Nothing needs to be done; the report lists it."));
        const auto* dimension = c.index.dimension(departure.on.text);
        const bool critical = dimension && dimension->critical.value_or(false);
        const bool nobody = departure.approvals.empty();
        const bool noEngineer =
            critical && !isApproved(departure, record::ApprovalSide::Engineering);
        if (!nobody && !noEngineer) continue;
        findings.push_back(made(
            "departure-unapproved", on,
            nobody ? fmt::format("{} is to be built as {}, and nobody has approved it.", name,
                                 asWritten(departure.to, departure.unit))
                   : fmt::format("{} is safety-critical and is to be built as {}; nobody has "
                                 "approved that for the engineering.",
                                 name, asWritten(departure.to, departure.unit)),
            critical ? "Approval by whoever answers for the history and, for strength and fitness "
                       "for use, by licensed practice under the local rules."
                     : "Approval by whoever answers for the history and, where strength or safety "
                       "is touched, for the engineering."));
    }
}

}  // namespace evidence::judgement
