#include "app/command/verb.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ostream>

namespace app::command {

using evidence::Code;

std::string codeName(Code code) {
    switch (code) {
        case Code::BadValue:
            return "bad-value";
        case Code::BadUnit:
            return "bad-unit";
        case Code::BadDate:
            return "bad-date";
        case Code::BadFormula:
            return "bad-formula";
        case Code::BadDocument:
            return "bad-document";
        case Code::UnknownKey:
            return "unknown-key";
        case Code::MissingKey:
            return "missing-key";
        case Code::WrongType:
            return "wrong-type";
        case Code::MissingTarget:
            return "missing-target";
        case Code::DuplicateId:
            return "duplicate-id";
        case Code::NotFinite:
            return "not-finite";
        case Code::TooLarge:
            return "too-large";
        case Code::MissingFile:
            return "missing-file";
        case Code::HashMismatch:
            return "hash-mismatch";
        case Code::WrongUse:
            return "wrong-use";
        case Code::NotAnArchive:
            return "not-an-archive";
        case Code::NewerArchive:
            return "newer-archive";
        case Code::Damaged:
            return "damaged";
        case Code::Stale:
            return "stale";
    }
    return "bad-value";
}

Exit exitFor(const evidence::Refusal& refusal) {
    switch (refusal.code) {
        case Code::WrongUse:
            return Exit::WrongUse;
        case Code::NotAnArchive:
        case Code::NewerArchive:
        case Code::Damaged:
            return Exit::Damaged;
        case Code::BadValue:
        case Code::BadUnit:
        case Code::BadDate:
        case Code::BadFormula:
        case Code::BadDocument:
        case Code::UnknownKey:
        case Code::MissingKey:
        case Code::WrongType:
        case Code::MissingTarget:
        case Code::DuplicateId:
        case Code::NotFinite:
        case Code::TooLarge:
        case Code::MissingFile:
        case Code::HashMismatch:
        case Code::Stale:
            return Exit::BadInput;
    }
    return Exit::BadInput;
}

namespace {

void print(Terminal& terminal, bool json, std::string_view code, const std::string& place,
           const std::string& help) {
    if (json)
        terminal.out
            << nlohmann::ordered_json{{"errors",
                                       {{{"code", code}, {"place", place}, {"help", help}}}}}
                   .dump(2, ' ', false, nlohmann::json::error_handler_t::replace)
            << '\n';
    if (place.empty())
        terminal.err << fmt::format("lostlines: {}\n", help);
    else
        terminal.err << fmt::format("lostlines: {}: {}\n", place, help);
}

}  // namespace

Exit printRefusal(Terminal& terminal, bool json, const evidence::Refusal& refusal) {
    print(terminal, json, codeName(refusal.code), refusal.place, refusal.help);
    return exitFor(refusal);
}

Exit printRefusal(Terminal& terminal, bool json, const imaging::Refusal& refusal) {
    print(terminal, json, imaging::codeName(refusal.code), refusal.place, refusal.help);
    return Exit::BadInput;
}

}  // namespace app::command
