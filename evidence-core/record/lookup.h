#pragma once

#include "evidence-core/record/kind.h"
#include "evidence-core/record/register.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>

/// Finding records by id or code.
namespace evidence::record {

/// The record with this id; null where there is none. Looks through the table: for many look-ups
/// make a `RegisterIndex`. A file is found inside its source.
template <class Tag>
[[nodiscard]] const auto* find(const Register& reg, const Id<Tag>& id) {
    if constexpr (std::is_same_v<Id<Tag>, FileId>) {
        const File* found = nullptr;
        for (const auto& source : reg.sources)
            for (const auto& file : source.files)
                if (file.id == id) found = &file;
        return found;
    } else {
        return std::apply(
            [&](const auto&... tables) {
                const void* found = nullptr;
                const auto in = [&](const auto& table) {
                    using Record = typename std::decay_t<decltype(table)>::value_type;
                    if constexpr (std::is_same_v<decltype(Record::id), Id<Tag>>) {
                        const auto it = std::ranges::find(table, id, &Record::id);
                        if (it != table.end()) found = &*it;
                        return static_cast<const Record*>(found);
                    } else {
                        return std::false_type{};
                    }
                };
                const auto pick = []<class First, class... Rest>(auto&& self, First first,
                                                                 Rest... rest) {
                    if constexpr (std::is_pointer_v<First>)
                        return first;
                    else
                        return self(self, rest...);
                };
                return pick(pick, in(reg.*(tables.member))...);
            },
            Register::tables());
    }
}

/// The source a file belongs to; null where there is none.
[[nodiscard]] const Source* sourceOf(const Register& reg, const FileId& file);

/// A dimension, particular or source by what a person calls it: its code, else its id.
[[nodiscard]] std::optional<AnyId> byCodeOrId(const Register& reg, std::string_view name);

/// What kind of record an id belongs to, and where in its table it stands (for a file: the place
/// of its source). Made once for one state of a register.
class RegisterIndex {
  public:
    struct Entry {
        Kind kind;
        std::size_t position;
    };

    /// Where an id stands twice the first one counts.
    explicit RegisterIndex(const Register& reg);

    [[nodiscard]] const Entry* find(std::string_view id) const;
    [[nodiscard]] std::optional<Kind> kindOf(const AnyId& id) const;

  private:
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const {
            return std::hash<std::string_view>{}(text);
        }
    };
    std::unordered_map<std::string, Entry, Hash, std::equal_to<>> m_entries;
};

/// The next free code with this letter: "D13" where the highest taken one is D12.
[[nodiscard]] std::string nextCode(const Register& reg, char letter);

}  // namespace evidence::record
