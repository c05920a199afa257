#include "evidence-core/network/formula.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <map>
#include <numbers>

namespace evidence::network {
namespace {

using quantity::Measure;

std::optional<std::string> resolve(std::string_view code) {
    static const std::map<std::string, std::string, std::less<>> kCodes{
        {"D1", "id-1"}, {"D2", "id-2"}, {"D3", "id-3"}, {"D4", "id-4"}, {"odd code", "id-5"}};
    const auto found = kCodes.find(code);
    return found == kCodes.end() ? std::nullopt : std::optional(found->second);
}

std::string codeOf(std::string_view id) {
    if (id == "id-5") return "odd code";
    return "D" + std::string(id.substr(3));
}

Formula parsed(std::string_view text) {
    const Result<Formula> formula = parseFormula(text, resolve);
    if (!formula) {
        ADD_FAILURE() << text << ": " << formula.error().place << ": " << formula.error().help;
        return {};
    }
    return *formula;
}

Refusal fault(std::string_view text) {
    const Result<Formula> formula = parseFormula(text, resolve);
    if (formula) {
        ADD_FAILURE() << text << " was read";
        return {};
    }
    return formula.error();
}

// The value of the right side: the left side stands for an unknown at 0.
double rightSide(const std::string& text, std::vector<double> others = {}) {
    const Formula formula = parsed("D1 = " + text);
    others.insert(others.begin(), 0.0);
    const Result<Jet> jet = evaluate(formula, others);
    if (!jet) {
        ADD_FAILURE() << text << ": " << jet.error().help;
        return 0.0;
    }
    return -jet->value;
}

TEST(Formula, ListsNamesOnceByFirstUseAndKeepsTheSign) {
    const Formula formula = parsed("D3 <= D1 + 2*D3 - [odd code]");
    EXPECT_EQ(formula.names, (std::vector<std::string>{"id-3", "id-1", "id-5"}));
    EXPECT_EQ(formula.relationSign, RelationSign::AtMost);
    EXPECT_EQ(parsed("D1>=D2").relationSign, RelationSign::AtLeast);
    EXPECT_EQ(parsed("D1 ≥ D2").relationSign, RelationSign::AtLeast);
}

TEST(Formula, FollowsTheUsualOrderOfOperations) {
    EXPECT_EQ(rightSide("1 + 2 * 3 ^ 2"), 19.0);
    EXPECT_EQ(rightSide("-2 ^ 2"), -4.0);
    EXPECT_EQ(rightSide("2 ^ 3 ^ 2"), 512.0);
    EXPECT_EQ(rightSide("2 ^ -1"), 0.5);
    EXPECT_EQ(rightSide("8 / 4 / 2"), 1.0);
    EXPECT_EQ(rightSide("8 - 4 - 2"), 2.0);
    EXPECT_EQ(rightSide("(8 - 4) * -2"), -8.0);
    EXPECT_EQ(rightSide("sqrt(9) + abs(-2) + min(3, 1, 2) + max(4, 5)"), 11.0);
    EXPECT_DOUBLE_EQ(rightSide("atan2(1, 1) + pi"), 1.25 * std::numbers::pi);
}

TEST(Formula, TakesUnitsBehindNumbers) {
    EXPECT_EQ(rightSide("25.4 mm"), 1.0);
    EXPECT_EQ(rightSide("2 ft"), 24.0);
    EXPECT_DOUBLE_EQ(rightSide("sin(30 deg)"), 0.5);
    EXPECT_DOUBLE_EQ(rightSide("cos(60°)"), 0.5);
    EXPECT_EQ(rightSide("3 in^2"), 9.0);
    EXPECT_EQ(rightSide("3 in2"), 3.0);
}

TEST(Formula, NamesThePlaceAndWhatWasExpected) {
    EXPECT_EQ(fault("D1 = D2 +").place, "character 10");
    EXPECT_EQ(fault("D1 D2 = 3").place, "character 4");
    EXPECT_EQ(fault("D1 = 2 D2").place, "character 8");
    EXPECT_EQ(fault("D1 = (D2").place, "character 9");
    EXPECT_EQ(fault("D1 = D9").code, Code::MissingTarget);
    EXPECT_EQ(fault("D1 = D9").place, "character 6");
    EXPECT_EQ(fault("D1 ≤ 3 furlong").place, "character 8");
    EXPECT_EQ(fault("D1 ≤ 3 furlong").code, Code::BadUnit);
    EXPECT_EQ(fault("D1 = 3 1/2 in").place, "character 8");
    EXPECT_EQ(fault("D1 = 3'-6\"").place, "character 7");
    EXPECT_EQ(fault("D1 = atan2(D2)").code, Code::BadFormula);
    EXPECT_EQ(fault("D1 = sin D2").code, Code::BadFormula);
    EXPECT_EQ(fault("D1 + D2").code, Code::BadFormula);
    EXPECT_EQ(fault("1 = 1").code, Code::BadFormula);
    EXPECT_EQ(fault("").code, Code::BadFormula);
    EXPECT_EQ(fault("D1 = D2 = D3").code, Code::BadFormula);
    EXPECT_EQ(fault("D1 = 1e999").code, Code::TooLarge);
}

TEST(Formula, BoundsDepthAndSize) {
    const std::string nested = std::string(80, '(') + "D1" + std::string(80, ')');
    EXPECT_EQ(fault("D1 = " + nested).code, Code::TooLarge);
    EXPECT_EQ(fault("D1 = " + std::string(80, '-') + "D1").code, Code::TooLarge);
    EXPECT_EQ(fault("D1 = " + std::string(3000, '1')).code, Code::TooLarge);
    std::string sum = "D1 = 1";
    for (int i = 0; i < 600; ++i) sum += "+1";
    EXPECT_EQ(fault(sum).code, Code::TooLarge);
}

Result<MeasureExponents> units(std::string_view text, std::vector<Measure> measures) {
    return checkUnits(parsed(text), measures);
}

constexpr MeasureExponents kLength{1, 0, 0};

TEST(FormulaUnits, BareTermTakesTheUnitOfItsSumAndABareFactorIsPure) {
    EXPECT_EQ(units("D1 = D2 + 2*D3 + 4", {Measure::Length, Measure::Length, Measure::Length}),
              kLength);
    EXPECT_EQ(units("D1 = 3.5", {Measure::Mass}), (MeasureExponents{0, 1, 0}));
    EXPECT_EQ(units("0 = D1 - 2 * 3", {Measure::Length}), kLength);
    EXPECT_EQ(units("D1 = min(4, D2)", {Measure::Length, Measure::Length}), kLength);
}

TEST(FormulaUnits, AcceptsAreasVolumesRootsAndTrigonometry) {
    EXPECT_EQ(units("D1 = D2 * D3", {Measure::Area, Measure::Length, Measure::Length}),
              (MeasureExponents{2, 0, 0}));
    EXPECT_TRUE(
        units("D1 = pi / 4 * D2^2 * D3", {Measure::Volume, Measure::Length, Measure::Length}));
    EXPECT_TRUE(
        units("D1 = sqrt(D2^2 + D3^2)", {Measure::Length, Measure::Length, Measure::Length}));
    EXPECT_TRUE(units("D1 = D2 * sin(D3)", {Measure::Length, Measure::Length, Measure::Angle}));
    EXPECT_TRUE(units("D1 = atan2(D2, D3)", {Measure::Angle, Measure::Length, Measure::Length}));
    EXPECT_TRUE(units("D1 = D2 * D3", {Measure::Length, Measure::Length, Measure::Angle}));
    EXPECT_TRUE(units("D1 = D2 / D3", {Measure::Angle, Measure::Length, Measure::Length}));
    EXPECT_TRUE(units("D1 = 0.28 * (2 lb / 1 in3) * D2", {Measure::Mass, Measure::Volume}));
}

TEST(FormulaUnits, NamesTheFirstPlaceThatDoesNotFit) {
    const auto place = [](std::string_view text, std::vector<Measure> measures) {
        const auto checked = units(text, std::move(measures));
        EXPECT_FALSE(checked) << text;
        if (checked) return std::string();
        EXPECT_EQ(checked.error().code, Code::BadUnit);
        return checked.error().place;
    };
    EXPECT_EQ(place("D1 = D2 + D3", {Measure::Length, Measure::Length, Measure::Mass}),
              "character 9");
    EXPECT_EQ(place("D1 = 3 in + 2 lb", {Measure::Length}), "character 11");
    EXPECT_EQ(place("D1 = D2 * D3", {Measure::Length, Measure::Length, Measure::Length}),
              "character 9");
    EXPECT_EQ(place("D1 = sin(D2)", {Measure::Number, Measure::Length}), "character 6");
    EXPECT_EQ(place("D1 = D2 ^ D3", {Measure::Length, Measure::Length, Measure::Number}),
              "character 9");
    EXPECT_EQ(place("D1 = D2 ^ (2 in)", {Measure::Length, Measure::Length}), "character 9");
    EXPECT_EQ(place("D1 = D2", {Measure::Angle, Measure::Number}), "character 6");
}

TEST(FormulaEvaluate, RefusesWhatHasNoFiniteValue) {
    const Result<Jet> jet = evaluate(parsed("D1 = 1 / (D2 - 2)"), std::vector{0.0, 2.0});
    ASSERT_FALSE(jet);
    EXPECT_EQ(jet.error().code, Code::NotFinite);
    EXPECT_EQ(jet.error().place, "character 8");
    EXPECT_FALSE(evaluate(parsed("D1 = sqrt(D2)"), std::vector{0.0, -1.0}));
    EXPECT_FALSE(evaluate(parsed("D1 = sqrt(D2)"), std::vector{0.0, 0.0}));
    EXPECT_TRUE(evaluate(parsed("D1 = (-2)^3 + D2^2"), std::vector{0.0, -1.0}));
}

TEST(FormulaEvaluate, GivesExactSlopesOfAPolynomial) {
    const Result<Jet> jet = evaluate(parsed("D1 * D2 = D2^3 + 2*D1"), std::vector{5.0, 3.0});
    ASSERT_TRUE(jet);
    EXPECT_EQ(jet->value, 15.0 - 37.0);
    EXPECT_EQ(jet->gradient, (std::vector{3.0 - 2.0, 5.0 - 27.0}));
}

TEST(FormulaPrint, WritesCurrentCodesAndNamesForPeople) {
    const Formula formula = parsed("D1=D2+2*D3");
    EXPECT_EQ(printed(formula, [](std::string_view id) { return "X" + std::string(id.substr(3)); }),
              "X1 = X2 + 2 * X3");
    const auto names = [](std::string_view id) -> std::string {
        return id == "id-1" ? "hoop width" : id == "id-2" ? "sill" : "post";
    };
    EXPECT_EQ(readable(formula, names), "hoop width = sill + 2 × post");
    EXPECT_EQ(readable(parsed("D1 <= D2 - 3 in"), names), "hoop width ≤ sill − 3 in");
    EXPECT_EQ(printed(parsed("[odd code] = (D1+D2)*-D3^(2*D4)"), codeOf),
              "[odd code] = (D1 + D2) * -D3^(2 * D4)");
}

// A random expression text of D1 … D4, depth-bounded, that stays finite near 1 … 2.
rc::Gen<std::string> expression(int depth) {
    const auto leaf =
        rc::gen::element<std::string>("D1", "D2", "D3", "D4", "2", "0.5", "pi", "3 in", "30 deg");
    if (depth == 0) return leaf;
    return rc::gen::oneOf(
        leaf,
        rc::gen::map(rc::gen::tuple(expression(depth - 1),
                                    rc::gen::element<std::string>(" + ", "-", "*", "/"),
                                    expression(depth - 1)),
                     [](const auto& t) {
                         return "(" + std::get<0>(t) + std::get<1>(t) + std::get<2>(t) + ")";
                     }),
        rc::gen::map(
            rc::gen::tuple(rc::gen::element<std::string>("sin", "cos", "atan", "abs", "sqrt", "-",
                                                         "tan", "asin", "acos"),
                           expression(depth - 1)),
            [](const auto& t) { return std::get<0>(t) + "(" + std::get<1>(t) + ")"; }),
        rc::gen::map(rc::gen::tuple(rc::gen::element<std::string>("atan2", "min", "max"),
                                    expression(depth - 1), expression(depth - 1)),
                     [](const auto& t) {
                         return std::get<0>(t) + "(" + std::get<1>(t) + ", " + std::get<2>(t) + ")";
                     }),
        rc::gen::map(expression(depth - 1), [](const std::string& e) { return "(" + e + ")^2"; }),
        rc::gen::map(expression(depth - 1),
                     [](const std::string& e) { return "abs(" + e + ")^D3"; }));
}

RC_GTEST_PROP(FormulaProperty, PrintingAndReadingAgainGivesTheSameFormula, ()) {
    const Result<Formula> first = parseFormula("D1 = " + *expression(4), resolve);
    if (!first) RC_DISCARD("too large");
    const std::string text = printed(*first, codeOf);
    const Result<Formula> second = parseFormula(text, resolve);
    RC_ASSERT(second.has_value());
    RC_ASSERT(printed(*second, codeOf) == text);
    RC_ASSERT(second->names == first->names);
    RC_ASSERT(second->nodes.size() == first->nodes.size());
    for (std::size_t i = 0; i < first->nodes.size(); ++i) {
        RC_ASSERT(second->nodes[i].operation == first->nodes[i].operation);
        RC_ASSERT(second->nodes[i].operands == first->nodes[i].operands);
        RC_ASSERT(second->nodes[i].number == first->nodes[i].number);
    }
}

// Central differences at two steps; where they disagree the function has a kink nearby.
RC_GTEST_PROP(FormulaProperty, GradientAgreesWithNumericalDifferentiation, ()) {
    const Result<Formula> formula = parseFormula("D1 = " + *expression(3), resolve);
    if (!formula) RC_DISCARD("too large");
    std::vector<double> at;
    for (std::size_t i = 0; i < formula->names.size(); ++i)
        at.push_back(1.0 + *rc::gen::inRange(0, 1000) / 997.0);
    const Result<Jet> jet = evaluate(*formula, at);
    if (!jet || std::abs(jet->value) > 1e4) RC_DISCARD("no finite value");
    for (std::size_t k = 0; k < at.size(); ++k) {
        const auto difference = [&](double step) -> std::optional<double> {
            std::vector<double> up = at;
            std::vector<double> down = at;
            up[k] += step;
            down[k] -= step;
            const Result<Jet> above = evaluate(*formula, up);
            const Result<Jet> below = evaluate(*formula, down);
            if (!above || !below) return std::nullopt;
            return (above->value - below->value) / (2 * step);
        };
        const auto coarse = difference(1e-4);
        const auto fine = difference(5e-5);
        if (!coarse || !fine || std::abs(*coarse - *fine) > 1e-5 * (1 + std::abs(*fine))) continue;
        const double better = (4 * *fine - *coarse) / 3;
        RC_ASSERT(std::abs(better - jet->gradient[k]) <= 1e-5 * (1 + std::abs(better)));
    }
}

RC_GTEST_PROP(FormulaProperty, AnyTextIsReadOrRefusedWithAPlace, ()) {
    const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
        "D1", "D2", "=", "<=", "+", "-", "*", "/", "^", "(", ")", "sqrt", "atan2", ",", "3", "in",
        "deg", "°", " ", "[", "]", ".", "\xe2", "'", "pi"));
    std::string text;
    for (const std::string& piece : pieces) text += piece;
    const Result<Formula> formula = parseFormula(text, resolve);
    if (!formula) {
        RC_ASSERT(formula.error().place.starts_with("character "));
    }
}

}  // namespace
}  // namespace evidence::network
