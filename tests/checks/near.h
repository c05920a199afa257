#pragma once

#include <gtest/gtest.h>

#include <cmath>

/// Tolerances of published figures are relative, or half a unit of the last place printed.
#define EXPECT_RELATIVE(actual, expected, tolerance) \
    EXPECT_NEAR(actual, expected, (tolerance)*std::abs(expected))
