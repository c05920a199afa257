#pragma once

#include "evidence-core/record/id.h"
#include "evidence-core/record/register.h"

#include <array>
#include <map>
#include <optional>
#include <string_view>
#include <type_traits>
#include <variant>
#include <vector>

/// Every id inside a record, found by walking its fields.
namespace evidence::record {

/// For walks that need not know where they are.
struct NoPath {
    struct Step {
        Step(NoPath&, std::string_view) {}
        Step(NoPath&, std::size_t) {}
        ~Step() {}  // NOLINT(modernize-use-equals-default): a step is used for its scope only
        Step(const Step&) = delete;
        Step& operator=(const Step&) = delete;
    };
};

namespace detail {

template <class Path, class Visit>
class IdWalk {
  public:
    IdWalk(Path& path, Visit& visit) : m_path(path), m_visit(visit) {}

    template <Described T>
    void walk(std::string_view, const T& value) {
        forEachField(value, [&](std::string_view key, const auto& member) {
            const typename Path::Step step(m_path, key);
            walk(key, member);
        });
    }
    template <class Tag>
    void walk(std::string_view key, const Id<Tag>& id) {
        m_visit(key, id);
    }
    template <class T>
    void walk(std::string_view key, const std::optional<T>& value) {
        if (value) walk(key, *value);
    }
    template <class T>
    void walk(std::string_view key, const std::vector<T>& list) {
        walkList(key, list);
    }
    template <class T, std::size_t N>
    void walk(std::string_view key, const std::array<T, N>& list) {
        walkList(key, list);
    }
    void walk(std::string_view key, const RelationUse& use) {
        if (const auto* infer = std::get_if<Infer>(&use)) walk(key, *infer);
    }
    template <class T>
    requires(!Described<T>) void walk(std::string_view, const T&) {}

  private:
    template <class List>
    void walkList(std::string_view key, const List& list) {
        for (std::size_t i = 0; i < list.size(); ++i) {
            const typename Path::Step step(m_path, i);
            walk(key, list[i]);
        }
    }

    Path& m_path;
    Visit& m_visit;
};

}  // namespace detail

/// Calls `visit(key, id)` for every id in `record`, its own (key "id") and those of its files
/// included; `key` is that of the field the id stands in. `path` follows the walk: it needs a type
/// `Step` made from it and a key or an index.
template <class Record, class Path, class Visit>
void forEachId(const Record& record, Path& path, Visit&& visit) {
    detail::IdWalk<Path, std::remove_reference_t<Visit>>(path, visit).walk("", record);
}
template <class Record, class Visit>
void forEachId(const Record& record, Visit&& visit) {
    NoPath path;
    forEachId(record, path, visit);
}

}  // namespace evidence::record
