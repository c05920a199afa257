#pragma once

#include "evidence-core/trade/trade.h"

#include <gtest/gtest.h>

#include <string>

namespace trading {

using namespace evidence;

/// The row of the program's tables; fails where there is none.
inline const trade::Row& row(const std::string& id) {
    const auto* found = trade::Tables::builtIn().find(id);
    EXPECT_NE(found, nullptr) << id;
    static const trade::Row kNone;
    return found ? *found : kNone;
}

/// Its value in canonical units.
inline double valueOf(const std::string& id) {
    return row(id).canonical(row(id).value);
}

}  // namespace trading
