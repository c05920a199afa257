#include "app/session/given_text.h"

#include <QString>

namespace app::session {

using evidence::Code;

std::string trimmed(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()))
        .trimmed()
        .toStdString();
}

bool isBlank(std::string_view text) {
    return trimmed(text).empty();
}

std::optional<std::string> given(std::string_view text) {
    auto words = trimmed(text);
    return words.empty() ? std::nullopt : std::optional(std::move(words));
}

evidence::Result<std::string> required(std::string_view text, std::string place, std::string help) {
    auto words = given(text);
    if (!words) return refuse(Code::MissingKey, std::move(place), std::move(help));
    return *std::move(words);
}

}  // namespace app::session
