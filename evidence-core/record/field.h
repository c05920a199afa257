#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

/// How a record says its keys, once. Every record has `static constexpr auto fields()`, a tuple of
/// `field("key", &Record::member)` in the order of the exchange document. The exchange reader and
/// writer, the SQL columns and the journal all walk this one list, so that a new key is added in
/// one place. A member is required unless it is a `std::optional` or a `std::vector`.
namespace evidence::record {

template <class Record, class Member>
struct Field {
    std::string_view key;
    Member Record::*member;
};

template <class Record, class Member>
[[nodiscard]] constexpr Field<Record, Member> field(std::string_view key, Member Record::*member) {
    return {key, member};
}

template <class T>
concept Described = requires {
    T::fields();
};

/// Calls `visit(key, member)` for each field of `record` (const or not), in order.
template <class R, class Visit>
requires Described<std::remove_const_t<R>>
constexpr void forEachField(R& record, Visit&& visit) {
    std::apply([&](const auto&... f) { (visit(f.key, record.*(f.member)), ...); },
               std::remove_const_t<R>::fields());
}

/// The written names of an enumeration: specialise with `static constexpr` array `all` of
/// (name, value). The names are those of the exchange document and are persisted: never rename.
template <class Enum>
struct Names;

template <class T>
concept Named = std::is_enum_v<T> && requires {
    Names<T>::all;
};

template <Named E>
[[nodiscard]] constexpr std::string_view nameOf(E value) {
    for (const auto& [name, v] : Names<E>::all)
        if (v == value) return name;
    return {};
}

template <Named E>
[[nodiscard]] constexpr std::optional<E> byName(std::string_view name) {
    for (const auto& [n, value] : Names<E>::all)
        if (n == name) return value;
    return std::nullopt;
}

template <class E>
using NameList = std::pair<std::string_view, E>;

}  // namespace evidence::record
