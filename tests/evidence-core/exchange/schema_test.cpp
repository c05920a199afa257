// docs/exchange.schema.json has the keys of the records: the same, required where they are.
#include "evidence-core/record/register.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <type_traits>

namespace {

using namespace evidence;
using nlohmann::ordered_json;

template <class T>
struct Inside {
    using Type = T;
    static constexpr bool required = true;
};
template <class T>
struct Inside<std::optional<T>> {
    using Type = typename Inside<T>::Type;
    static constexpr bool required = false;
};
template <class T>
struct Inside<std::vector<T>> {
    using Type = typename Inside<T>::Type;
    static constexpr bool required = false;
};
template <class K, class V>
struct Inside<std::map<K, V>> {
    using Type = V;
    static constexpr bool required = false;
};

class Comparison {
  public:
    Comparison() {
        std::ifstream in(std::string(LOSTLINES_SOURCE) + "/docs/exchange.schema.json");
        m_schema = ordered_json::parse(in);
    }

    template <record::Described T>
    void compare(const ordered_json& node, const std::string& name) {
        const ordered_json& object = resolved(node);
        std::vector<std::string> keys;
        const T model;
        record::forEachField(model, [&](std::string_view key, const auto& member) {
            using Member = std::decay_t<decltype(member)>;
            using Held = typename Inside<Member>::Type;
            keys.emplace_back(key);
            const auto& required = object.value("required", ordered_json::array());
            const bool isRequired = std::ranges::find(required, key) != required.end();
            EXPECT_TRUE(isRequired || !Inside<Member>::required) << name << "/" << key;
            const auto& property = object["properties"][std::string(key)];
            if constexpr (record::Described<Held>)
                compare<Held>(property, name + "/" + std::string(key));
            if constexpr (record::Named<Held>)
                compareWords<Held>(property, name + "/" + std::string(key));
        });
        std::vector<std::string> schemaKeys;
        for (const auto& [key, value] : object["properties"].items()) schemaKeys.push_back(key);
        EXPECT_EQ(schemaKeys, keys) << name;
        EXPECT_EQ(object["additionalProperties"], false) << name;
    }

    [[nodiscard]] const ordered_json& table(const std::string& name) const {
        return m_schema["properties"][name];
    }

  private:
    [[nodiscard]] const ordered_json& resolved(const ordered_json& node) const {
        if (node.contains("items")) return resolved(node["items"]);
        if (!node.contains("$ref")) return node;
        const auto reference = node["$ref"].get<std::string>().substr(1);
        return resolved(m_schema[ordered_json::json_pointer(reference)]);
    }
    template <record::Named E>
    void compareWords(const ordered_json& node, const std::string& name) {
        std::vector<std::string> words;
        for (const auto& entry : record::Names<E>::all) words.emplace_back(entry.first);
        EXPECT_EQ(resolved(node)["enum"].get<std::vector<std::string>>(), words) << name;
    }

    ordered_json m_schema;
};

TEST(ExchangeSchema, HasTheKeysAndWordsOfEveryRecord) {
    Comparison comparison;
    comparison.compare<record::ArchiveInfo>(comparison.table("archive"), "archive");
    const record::Register model;
    record::forEachTable(model, [&](std::string_view name, const auto& table) {
        using Record = typename std::decay_t<decltype(table)>::value_type;
        comparison.compare<Record>(comparison.table(std::string(name)), std::string(name));
    });
}

}  // namespace
