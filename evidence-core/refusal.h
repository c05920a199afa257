#pragma once

#include <string>
#include <utility>

#include <tl/expected.hpp>

/// Bad input is a value, not an exception: what was wrong, where, and what to do about it.
namespace evidence {

/// Why something was refused. Tests compare these, never the sentences.
enum class Code {
    BadValue,       ///< a text or number that cannot be read as what is expected there
    BadUnit,        ///< a unit that does not fit
    BadDate,        ///< not an EDTF date or RFC 3339 time
    BadFormula,     ///< a relation's formula that cannot be read
    BadDocument,    ///< not JSON, or not an exchange document
    UnknownKey,     ///< a key the contract does not have
    MissingKey,     ///< a required key is absent
    WrongType,      ///< a value of another JSON type than expected
    MissingTarget,  ///< a reference to a record that is not there
    DuplicateId,    ///< an id or a code that is taken
    NotFinite,      ///< an infinite or undefined number
    TooLarge,       ///< beyond the documented bounds of size or depth
    MissingFile,    ///< a file that is neither there nor known by its hash
    HashMismatch,   ///< a file whose bytes are not the promised ones
    WrongUse,       ///< the call itself does not make sense
    NotAnArchive,   ///< not a Lostlines archive
    NewerArchive,   ///< written by a later program
    Damaged,        ///< the archive or its journal is damaged
    Stale,          ///< the record changed meanwhile
};

/// A refusal: `place` says which record, file, column or JSON pointer; `help` is one sentence that
/// says what is wrong and what to do.
struct Refusal {
    Code code = Code::BadValue;
    std::string place;
    std::string help;

    friend bool operator==(const Refusal&, const Refusal&) = default;
};

template <class T>
using Result = tl::expected<T, Refusal>;

[[nodiscard]] inline tl::unexpected<Refusal> refuse(Code code, std::string place, std::string help) {
    return tl::unexpected<Refusal>(Refusal{code, std::move(place), std::move(help)});
}

}  // namespace evidence
