#pragma once

#include <tl/expected.hpp>

#include <string>
#include <string_view>
#include <utility>

/// Bad input to the imaging is a value: what was wrong, where, and what to do about it.
namespace imaging {

/// Why something was refused. Tests compare these, never the sentences.
enum class Code {
    MissingFile,        ///< no such file, or it cannot be opened
    NotAPicture,        ///< empty, text, or bytes of no kind that is known
    UnsupportedFormat,  ///< a known kind that this function does not read
    TooLarge,           ///< needs more memory than the budget allows
    Unreadable,         ///< a picture whose bytes are broken
    NoSuchPage,         ///< the file has no such page
    BadDocument,        ///< the task is not JSON
    UnknownKey,         ///< a key the contract does not have
    MissingKey,         ///< a required key is absent
    WrongType,          ///< a value of another JSON type than expected
    BadValue,           ///< a value that cannot be read or makes no sense there
    BadUnit,            ///< a unit that does not fit
    NotFinite,          ///< an infinite or undefined number
    MissingTarget,      ///< a mark that is not in the task
    DuplicateId,        ///< an id used twice
    NotAvailable,       ///< known, but not in this version
    OutsideSheet,       ///< a mark outside the sheet or in an unreadable part of it
    NoFit,              ///< no edge, line or crossing was found there
    NoSolution,         ///< the frame cannot be solved from what it is given
};

/// The code as it is printed in JSON: lower case with hyphens, `no-fit`.
[[nodiscard]] std::string_view codeName(Code code);

/// A refusal: `place` says which file or JSON pointer; `help` is one sentence that says what is
/// wrong and what to do.
struct Refusal {
    Code code = Code::BadValue;
    std::string place;
    std::string help;

    friend bool operator==(const Refusal&, const Refusal&) = default;
};

template <class T>
using Result = tl::expected<T, Refusal>;

[[nodiscard]] inline tl::unexpected<Refusal> refuse(Code code, std::string place,
                                                    std::string help) {
    return tl::unexpected<Refusal>(Refusal{code, std::move(place), std::move(help)});
}

}  // namespace imaging
