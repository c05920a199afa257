#pragma once

#include "evidence-core/record/archive_info.h"
#include "evidence-core/record/decision.h"
#include "evidence-core/record/dimension.h"
#include "evidence-core/record/frame.h"
#include "evidence-core/record/mark.h"
#include "evidence-core/record/people.h"
#include "evidence-core/record/reading.h"
#include "evidence-core/record/relation.h"
#include "evidence-core/record/source.h"

#include <variant>
#include <vector>

namespace evidence::record {

/// The whole register as one value: what analysis, exchange and reports are functions of.
/// The order of the records is that of their entry; that of `states` is their order in time.
struct Register {
    ArchiveInfo archive;
    std::vector<Person> people;
    std::vector<State> states;
    std::vector<Enquiry> enquiries;
    std::vector<Source> sources;
    std::vector<Mark> marks;
    std::vector<Frame> frames;
    std::vector<Dimension> dimensions;
    std::vector<Particular> particulars;
    std::vector<Reading> readings;
    std::vector<SharedError> sharedErrors;
    std::vector<Relation> relations;
    std::vector<Ruling> rulings;
    std::vector<Departure> departures;
    std::vector<Slip> slips;
    std::vector<AsBuilt> asBuilt;
    std::vector<Query> queries;
    std::vector<Signoff> signoffs;
    std::vector<Lowered> lowered;
    std::vector<Acknowledgement> acknowledgements;
    std::vector<Issued> issued;

    /// The tables, by their names in the exchange document, in its order.
    static constexpr auto tables() {
        return std::tuple{field("people", &Register::people),
                          field("states", &Register::states),
                          field("enquiries", &Register::enquiries),
                          field("sources", &Register::sources),
                          field("marks", &Register::marks),
                          field("frames", &Register::frames),
                          field("dimensions", &Register::dimensions),
                          field("particulars", &Register::particulars),
                          field("readings", &Register::readings),
                          field("shared_errors", &Register::sharedErrors),
                          field("relations", &Register::relations),
                          field("rulings", &Register::rulings),
                          field("departures", &Register::departures),
                          field("slips", &Register::slips),
                          field("as_built", &Register::asBuilt),
                          field("queries", &Register::queries),
                          field("signoffs", &Register::signoffs),
                          field("lowered", &Register::lowered),
                          field("acknowledgements", &Register::acknowledgements),
                          field("issued", &Register::issued)};
    }
    friend bool operator==(const Register&, const Register&) = default;
};

/// Calls `visit(tableName, records)` for each table of `reg` (const or not), in order.
template <class R, class Visit>
constexpr void forEachTable(R& reg, Visit&& visit) {
    std::apply([&](const auto&... t) { (visit(t.key, reg.*(t.member)), ...); }, Register::tables());
}

/// One record of any kind.
using AnyRecord = std::variant<ArchiveInfo, Person, State, Enquiry, Source, Mark, Frame, Dimension,
                               Particular, Reading, SharedError, Relation, Ruling, Departure, Slip,
                               AsBuilt, Query, Signoff, Lowered, Acknowledgement, Issued>;

}  // namespace evidence::record
