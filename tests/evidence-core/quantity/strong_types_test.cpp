#include "evidence-core/quantity/cubic_inch.h"
#include "evidence-core/quantity/inch.h"
#include "evidence-core/quantity/pound.h"
#include "evidence-core/quantity/radian.h"
#include "evidence-core/quantity/square_inch.h"

#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

namespace evidence::quantity {
namespace {

template <class T>
concept Strong = std::is_trivially_copyable_v<T> && !std::convertible_to<double, T> &&
                 !std::convertible_to<T, double> && !std::constructible_from<T, double> &&
                 sizeof(T) == sizeof(double);

template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};

static_assert(Strong<Inch> && Strong<Radian> && Strong<Pound> && Strong<SquareInch> &&
              Strong<CubicInch>);
static_assert(Addable<Inch, Inch> && !Addable<Inch, Pound> && !Addable<Inch, double> &&
              !Addable<Inch, SquareInch>);
static_assert(Inch::fromMillimetres(25.4) == Inch::fromInches(1.0));
static_assert(Inch::fromFeet(2.0) / Inch::fromInches(6.0) == 4.0);
static_assert(std::same_as<decltype(Inch{} * Inch{}), SquareInch>);
static_assert(std::same_as<decltype(Inch{} * Inch{} * Inch{}), CubicInch>);

TEST(StrongTypes, InchIsExactly25Point4Millimetres) {
    EXPECT_EQ(Inch::fromInches(1.0).toMillimetres(), 25.4);
    EXPECT_EQ(SquareInch::fromSquareMillimetres(645.16).toSquareInches(), 1.0);
    EXPECT_DOUBLE_EQ(CubicInch::fromCubicMillimetres(16387.064).toCubicInches(), 1.0);
}

TEST(StrongTypes, PoundIsExactly0Point45359237Kilograms) {
    EXPECT_EQ(Pound::fromPounds(1.0).toKilograms(), 0.45359237);
    EXPECT_EQ(Pound::fromKilograms(0.45359237).toPounds(), 1.0);
}

TEST(StrongTypes, HalfATurnIs180Degrees) {
    EXPECT_DOUBLE_EQ(Radian::fromDegrees(180.0).toRadians(), std::numbers::pi);
    EXPECT_DOUBLE_EQ(Radian::fromRadians(std::numbers::pi / 6).toDegrees(), 30.0);
}

TEST(StrongTypes, OrderAndScaleWithinOneKind) {
    const Inch a = Inch::fromInches(2.0);
    EXPECT_LT(a, a * 1.5);
    EXPECT_EQ((-a + 3.0 * a - a).toInches(), 2.0);
}

}  // namespace
}  // namespace evidence::quantity
