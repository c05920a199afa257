#include "evidence-core/judgement/digest.h"

#include "evidence-core/judgement/content.h"
#include "tests/support/register_builder.h"

#include <gtest/gtest.h>

namespace {

using namespace testsupport;
using record::Basis;

RegisterBuilder small() {
    RegisterBuilder b;
    b.dimension("d1", "Sill length");
    b.source("s1", "General arrangement");
    b.reading("r1", "d1", Basis::Figured, "s1", std::string("38 1/2"), 0.05);
    b.reading("r2", "d1", Basis::Figured, "s1", std::string("38.4"), 0.1);
    return b;
}

std::string digestOf(const RegisterBuilder& b) {
    const judgement::Index index(b.reg);
    return judgement::Digests(index).ofDimension(b.reg.dimensions.front(), {"r1", "r2"});
}

// FIPS 180-2, appendix B.1: the digest of "abc".
TEST(Digest, IsSha256) {
    EXPECT_EQ(judgement::sha256Of("abc"),
              "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(Digest, ForgetsOrderIdsNamesAndNotes) {
    const auto b = small();
    auto other = small();
    std::swap(other.reg.readings[0], other.reg.readings[1]);
    for (auto& reading : other.reg.readings) {
        reading.id.text += "-renamed";
        reading.by = record::PersonId{"p1"};
    }
    other.reg.dimensions.front().name = "Sole bar length";
    other.reg.dimensions.front().code = "D77";
    other.reg.sources.front().title = "GA";
    other.reg.sources.front().holder = "Corran Museum";
    const judgement::Index index(other.reg);
    EXPECT_EQ(judgement::Digests(index).ofDimension(other.reg.dimensions.front(),
                                                    {"r1-renamed", "r2-renamed"}),
              digestOf(b));
}

TEST(Digest, ChangesWithWhatIsEvidence) {
    const auto before = digestOf(small());
    auto value = small();
    value.reg.readings[0].value = std::string("38 5/8");
    EXPECT_NE(digestOf(value), before);
    auto authority = small();
    authority.reg.sources[0].authority = record::Authority::Later;
    EXPECT_NE(digestOf(authority), before);
    auto aside = small();
    aside.reg.readings[1].setAside = "misread";
    EXPECT_NE(digestOf(aside), before);
    auto more = small();
    more.guess("r3", "d1", 38, 2);
    EXPECT_NE(digestOf(more), before);
}

TEST(Digest, FollowsDescentUpToTheRoot) {
    auto b = small();
    b.source("s0", "Lost original");
    b.reg.sources.front().descends.push_back({.from = {"s0"}});
    const auto before = digestOf(b);
    b.reg.sources.back().standing = record::Standing::Proposal;
    EXPECT_NE(digestOf(b), before);
}

}  // namespace
