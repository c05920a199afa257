#include "evidence-core/exchange/json_reader.h"

#include <fmt/format.h>

namespace evidence::exchange {

std::string JsonReader::pointer() const {
    std::string path = m_root;
    for (const auto& step : m_path)
        path = std::visit([&](auto part) { return pointerTo(path, part); }, step);
    return path;
}

bool JsonReader::refuseHere(Code code, std::string help) {
    if (!m_refusal) m_refusal = Refusal{code, pointer(), std::move(help)};
    return false;
}

bool JsonReader::wrongType(std::string_view expected, const Json& found) {
    return refuseHere(Code::WrongType,
                      fmt::format("expected {} here, found {}", expected, typeName(found)));
}

}  // namespace evidence::exchange
