#include "evidence-core/exchange/read_document.h"
#include "evidence-core/exchange/record_json.h"
#include "evidence-core/exchange/write_document.h"
#include "tests/evidence-core/support/random_register.h"

#include <gtest/gtest.h>

namespace {

using namespace evidence;

TEST(RoundTrip, EveryKeyOfEveryRecordComesBackFromTheDocument) {
    EXPECT_TRUE(rc::check([] {
        const auto reg = test::drawRegister();
        const std::string text = exchange::writeDocument(reg);
        const auto read = exchange::readDocument(text);
        RC_ASSERT(read.has_value());
        RC_ASSERT(read->reg == reg);
        RC_ASSERT(exchange::writeDocument(read->reg) == text);
    }));
}

TEST(RoundTrip, EveryRecordComesBackAlone) {
    EXPECT_TRUE(rc::check([] {
        const auto reg = test::drawRegister();
        record::forEachTable(reg, [](std::string_view name, const auto& table) {
            const record::AnyRecord one = table[0];
            RC_ASSERT(exchange::tableOf(one) == name);
            const auto read = exchange::recordFromJson(name, exchange::toJson(one));
            RC_ASSERT(read.has_value());
            RC_ASSERT(*read == one);
        });
    }));
}

}  // namespace
