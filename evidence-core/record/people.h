#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/value.h"

#include <optional>
#include <string>
#include <vector>

namespace evidence::record {

enum class Role { Compiler, Draughtsman, Builder, Reviewer, Archivist };

template <>
struct Names<Role> {
    static constexpr std::array<NameList<Role>, 5> all{{{"compiler", Role::Compiler},
                                                        {"draughtsman", Role::Draughtsman},
                                                        {"builder", Role::Builder},
                                                        {"reviewer", Role::Reviewer},
                                                        {"archivist", Role::Archivist}}};
};

/// Who recorded, ruled, reviewed. Every change names one.
struct Person {
    PersonId id;
    std::string name;
    std::optional<Role> role;
    std::optional<std::string> contact;

    static constexpr auto fields() {
        return std::tuple{field("id", &Person::id), field("name", &Person::name),
                          field("role", &Person::role), field("contact", &Person::contact)};
    }
    friend bool operator==(const Person&, const Person&) = default;
};

/// A dated stage of the original. The order of the states in the register is their order in time.
struct State {
    StateId id;
    std::string label;
    std::optional<std::string> from;  ///< EDTF
    std::optional<std::string> to;    ///< EDTF

    static constexpr auto fields() {
        return std::tuple{field("id", &State::id), field("label", &State::label),
                          field("from", &State::from), field("to", &State::to)};
    }
    friend bool operator==(const State&, const State&) = default;
};

/// A letter or search for sources; negative answers stay on record and are reported.
struct Enquiry {
    EnquiryId id;
    std::string asked;
    PersonId by;
    std::string on;  ///< EDTF date
    std::optional<std::string> text;
    std::optional<std::string> reference;
    std::optional<std::string> due;
    std::optional<std::string> answer;
    std::optional<std::string> answeredOn;
    std::vector<SourceId> sources;

    static constexpr auto fields() {
        return std::tuple{field("id", &Enquiry::id),
                          field("asked", &Enquiry::asked),
                          field("by", &Enquiry::by),
                          field("on", &Enquiry::on),
                          field("text", &Enquiry::text),
                          field("reference", &Enquiry::reference),
                          field("due", &Enquiry::due),
                          field("answer", &Enquiry::answer),
                          field("answered_on", &Enquiry::answeredOn),
                          field("sources", &Enquiry::sources)};
    }
    friend bool operator==(const Enquiry&, const Enquiry&) = default;
};

}  // namespace evidence::record
