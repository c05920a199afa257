#include "evidence-core/record/formula_names.h"

#include <gtest/gtest.h>

#include <map>

namespace {

using namespace evidence::record;

NameMap in(const std::map<std::string, std::string>& names) {
    return [names](std::string_view name) -> std::optional<std::string> {
        const auto found = names.find(std::string(name));
        return found == names.end() ? std::nullopt : std::optional(found->second);
    };
}

const auto kIds =
    in({{"D1", "a"}, {"D2", "b"}, {"in", "c"}, {"e3", "d"}, {"sin", "s"}, {"roof hoop", "r"}});
const auto kCodes =
    in({{"a", "D1"}, {"b", "D2"}, {"c", "in"}, {"d", "e3"}, {"s", "sin"}, {"r", "roof hoop"}});

TEST(FormulaNames, CodesBecomeIdsAndEverythingElseStays) {
    EXPECT_EQ(formulaById("D1 =  2*D2 + sqrt(D3)", kIds), "{a} =  2*{b} + sqrt(D3)");
    EXPECT_EQ(formulaById("D1.x <= D12", kIds), "D1.x <= D12");
}

TEST(FormulaNames, WordBehindANumberIsAUnitAndAnExponentIsNoCode) {
    EXPECT_EQ(formulaById("D1 = 3 in + 2e3", kIds), "{a} = 3 in + 2e3");
    EXPECT_EQ(formulaById("in = 3in", kIds), "{c} = 3in");
}

TEST(FormulaNames, FunctionIsNoCodeUnlessInBrackets) {
    EXPECT_EQ(formulaById("D1 = sin(D2) + [sin]", kIds), "{a} = sin({b}) + {s}");
    EXPECT_EQ(formulaByCode("{a} = sin({b}) + {s}", kCodes), "D1 = sin(D2) + [sin]");
}

TEST(FormulaNames, NamesInBracketsComeBackInBrackets) {
    const std::string formula = "D1 = 2*[roof hoop]";
    EXPECT_EQ(formulaById(formula, kIds), "{a} = 2*{r}");
    EXPECT_EQ(formulaByCode("{a} = 2*{r}", kCodes), formula);
}

TEST(FormulaNames, IdsMayHoldBracesAndPercents) {
    const std::string id = "x{%}y%7D";
    const auto stored = formulaById("D1 = 2", in({{"D1", id}}));
    EXPECT_EQ(stored, "{x%7B%25%7Dy%257D} = 2");
    EXPECT_EQ(formulaByCode(stored, in({{id, "D1"}})), "D1 = 2");
}

TEST(FormulaNames, IdWithoutACodeStaysVisible) {
    EXPECT_EQ(formulaByCode("{zz} = 2", kCodes), "{zz} = 2");
}

}  // namespace
