#pragma once

#include "evidence-core/exchange/json_text.h"
#include "evidence-core/refusal.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace evidence::exchange {

/// Where a reader stands in a document, and the first thing that did not fit.
class JsonReader {
  public:
    /// One step deeper for as long as it lives.
    class Step {
      public:
        Step(JsonReader& reader, std::string_view key) : m_reader(reader) {
            m_reader.m_path.emplace_back(key);
        }
        Step(JsonReader& reader, std::size_t index) : m_reader(reader) {
            m_reader.m_path.emplace_back(index);
        }
        ~Step() { m_reader.m_path.pop_back(); }
        Step(const Step&) = delete;
        Step& operator=(const Step&) = delete;

      private:
        JsonReader& m_reader;
    };

    /// What stands before every pointer from now on, such as the pointer of a record.
    void setRoot(std::string root) { m_root = std::move(root); }

    /// The JSON pointer of where we are.
    [[nodiscard]] std::string pointer() const;

    /// Refuses here and returns false; the first refusal stays.
    bool refuseHere(Code code, std::string help);
    bool wrongType(std::string_view expected, const Json& found);

    [[nodiscard]] bool refused() const { return m_refusal.has_value(); }
    [[nodiscard]] Refusal takeRefusal() { return std::move(*m_refusal); }

  private:
    std::string m_root;
    std::vector<std::variant<std::string_view, std::size_t>> m_path;
    std::optional<Refusal> m_refusal;
};

}  // namespace evidence::exchange
