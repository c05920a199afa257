#pragma once

#include "evidence-core/record/field.h"
#include "evidence-core/record/value.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>

/// What a person wrote into a field: blank counts as nothing written.
namespace app::session {

/// Without the white space at both ends.
[[nodiscard]] std::string trimmed(std::string_view text);
[[nodiscard]] bool isBlank(std::string_view text);

/// The trimmed text; nothing where it is blank.
[[nodiscard]] std::optional<std::string> given(std::string_view text);

/// The trimmed text. Error: MissingKey at `place`, with `help`, where it is blank.
[[nodiscard]] evidence::Result<std::string> required(std::string_view text, std::string place,
                                                     std::string help);

/// Takes blank texts and values out of a record that a form filled: an empty field says nothing.
template <class Record>
void dropBlanks(Record& record) {
    evidence::record::forEachField(record, [](std::string_view, auto& member) {
        using Member = std::decay_t<decltype(member)>;
        if constexpr (std::is_same_v<Member, std::optional<std::string>>) {
            if (member) member = given(*member);
        } else if constexpr (std::is_same_v<Member, std::optional<evidence::record::Written>>) {
            const auto* text = member ? std::get_if<std::string>(&*member) : nullptr;
            if (text && isBlank(*text)) member.reset();
        }
    });
}

}  // namespace app::session
