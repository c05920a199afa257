#include "imaging/task/length_text.h"

#include <charconv>
#include <cmath>

namespace imaging::task {
namespace {

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') {
        text.remove_prefix(1);
    }
    while (!text.empty() && text.back() == ' ') {
        text.remove_suffix(1);
    }
    return text;
}

}  // namespace

std::optional<double> inchesPer(std::string_view unit) {
    if (unit == "in") {
        return 1;
    }
    if (unit == "ft") {
        return 12;
    }
    if (unit == "mm") {
        return 1 / 25.4;
    }
    if (unit == "cm") {
        return 10 / 25.4;
    }
    if (unit == "m") {
        return 1000 / 25.4;
    }
    return std::nullopt;
}

std::optional<TextLength> readDecimalLength(std::string_view text, std::string_view unit) {
    const std::string_view body = trimmed(text);
    double number = 0;
    const auto [end, error] = std::from_chars(body.data(), body.data() + body.size(), number);
    if (error != std::errc() || !std::isfinite(number)) {
        return std::nullopt;
    }
    const std::string_view written =
        trimmed(body.substr(static_cast<std::size_t>(end - body.data())));
    const auto factor = inchesPer(written.empty() ? unit : written);
    if (!factor) {
        return std::nullopt;
    }
    return TextLength{number * *factor, *factor};
}

}  // namespace imaging::task
