#include "evidence-core/record/uuid7.h"

#include <gtest/gtest.h>

#include <set>

namespace {

using namespace evidence::record;

// RFC 9562, appendix A.6: example of a UUIDv7 value. Unix time 0x017F22E279B0 ms, rand_a 0xCC3,
// rand_b 0x18C4DC0C0C07398F.
TEST(Uuid7, GivesTheExampleOfTheStandard) {
    EXPECT_EQ(uuid7(std::chrono::milliseconds(0x017F22E279B0), 0xCC3, 0x18C4DC0C0C07398F),
              "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
}

TEST(Uuid7, VersionAndVariantStandWhateverTheRandomBits) {
    for (const std::uint64_t bits : {std::uint64_t{0}, ~std::uint64_t{0}}) {
        const auto id = uuid7(std::chrono::milliseconds(1), bits, bits);
        EXPECT_EQ(id[14], '7');
        EXPECT_NE(std::string("89ab").find(id[19]), std::string::npos);
        EXPECT_EQ(id.size(), 36U);
    }
}

TEST(Uuid7, SortsByTime) {
    const auto at = [](int ms) { return uuid7(std::chrono::milliseconds(ms), 0xFFF, 7); };
    EXPECT_LT(at(1000), at(1001));
    EXPECT_LT(at(255), at(256));
}

TEST(Uuid7, NewOnesDiffer) {
    std::set<std::string> ids;
    for (int i = 0; i < 1000; ++i) ids.insert(newUuid7());
    EXPECT_EQ(ids.size(), 1000U);
}

}  // namespace
