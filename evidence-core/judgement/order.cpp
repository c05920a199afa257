#include "evidence-core/judgement/order.h"

#include "evidence-core/judgement/wording.h"

#include <algorithm>
#include <cctype>
#include <numeric>
#include <tuple>

namespace evidence::judgement {

namespace {

bool isDigit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

std::vector<std::size_t> allOf(std::size_t count) {
    std::vector<std::size_t> list(count);
    std::iota(list.begin(), list.end(), std::size_t{0});
    return list;
}

/// The run of figures or of other characters at the front.
std::string_view run(std::string_view text) {
    std::size_t end = 0;
    while (end < text.size() && isDigit(text[end]) == isDigit(text.front())) ++end;
    return text.substr(0, end);
}

std::string_view withoutZeros(std::string_view digits) {
    while (digits.size() > 1 && digits.front() == '0') digits.remove_prefix(1);
    return digits;
}

}  // namespace

bool codeBefore(std::string_view a, std::string_view b) {
    while (!a.empty() && !b.empty()) {
        const auto runA = run(a);
        const auto runB = run(b);
        if (isDigit(runA.front()) && isDigit(runB.front())) {
            const auto numberA = withoutZeros(runA);
            const auto numberB = withoutZeros(runB);
            if (numberA.size() != numberB.size()) return numberA.size() < numberB.size();
            if (numberA != numberB) return numberA < numberB;
        } else if (runA != runB) {
            return runA < runB;
        }
        a.remove_prefix(runA.size());
        b.remove_prefix(runB.size());
    }
    return a.empty() && !b.empty();
}

std::vector<std::size_t> orderOfDimensions(const Context& c) {
    auto list = allOf(c.solution.dimensions.size());
    std::ranges::stable_sort(list, [&](std::size_t a, std::size_t b) {
        const auto& first = c.record(c.solution.dimensions[a]);
        const auto& second = c.record(c.solution.dimensions[b]);
        const std::string codeA = first.code.value_or("");
        const std::string codeB = second.code.value_or("");
        if (codeA != codeB) return codeBefore(codeA, codeB);
        return std::tuple(first.name, first.component.value_or(""), c.evidence[a]) <
               std::tuple(second.name, second.component.value_or(""), c.evidence[b]);
    });
    return list;
}

std::vector<std::size_t> orderOfReadings(const Context& c, std::vector<std::size_t> readings) {
    std::ranges::stable_sort(readings, {}, [&](std::size_t at) {
        const auto& reading = c.solution.readings[at];
        const auto& entered = *c.index.reading(reading.id.text);
        return std::tuple(static_cast<int>(reading.use), static_cast<int>(entered.basis),
                          nameOf(c.index, entered), c.digests.ofRecord(reading.id.text));
    });
    return readings;
}

std::vector<std::size_t> orderOfRelations(const Context& c) {
    auto list = allOf(c.solution.relations.size());
    std::ranges::stable_sort(list, {}, [&](std::size_t at) {
        const auto& id = c.solution.relations[at].id.text;
        return std::tuple(nameOf(c.index, *c.index.relation(id)), c.index.relation(id)->formula,
                          c.digests.ofRecord(id));
    });
    return list;
}

std::vector<std::size_t> orderOfFrames(const Context& c) {
    auto list = allOf(c.solution.frames.size());
    std::ranges::stable_sort(list, {}, [&](std::size_t at) {
        const auto& id = c.solution.frames[at].id.text;
        return std::tuple(nameOf(c.index, *c.index.frame(id)), c.digests.ofRecord(id));
    });
    return list;
}

}  // namespace evidence::judgement
