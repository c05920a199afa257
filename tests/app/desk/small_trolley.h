#pragma once

#include "tests/support/register_builder.h"

/// A register with one of each: a size well held, one on a guess, one in conflict, one that follows
/// from others, one without evidence, and a particular.
namespace tests::app {

inline testsupport::RegisterBuilder smallTrolley() {
    using evidence::record::Authority;
    using evidence::record::Basis;
    using evidence::record::SourceKind;
    testsupport::RegisterBuilder b;
    const auto number = testsupport::RegisterBuilder::number;
    b.reg.archive.title = "Trolley";
    b.source("s1", "General arrangement");
    b.source("s2", "Works letter", SourceKind::Text, Authority::Eyewitness);
    b.dimension("d1", "Length over headstocks").component = "Body";
    b.reg.dimensions.back().tolerance = 0.0625;
    b.dimension("d2", "Sill").component = "Body/Frame";
    b.reg.dimensions.back().critical = true;
    b.dimension("d3", "Post").component = "Body/Frame";
    b.dimension("d4", "Hoop width").component = "Body/Roof";
    b.dimension("d5", "Wheel diameter").component = "Running gear";
    b.dimension("d10", "Step height");
    b.particular("q1", "Panel timber").component = "Body";
    b.reg.particulars.back().code = "P1";
    b.reading("r1", "d1", Basis::Figured, "s1", std::string("14'-3 1/2\""), 0.07);
    b.guess("r2", "d2", 40, 2);
    b.reading("r3", "d3", Basis::Figured, "s1", number(3.5), 0.02);
    b.reading("r4", "d3", Basis::Stated, "s2", number(4.5), 0.02);
    b.relation("l1", "D4 = D2 + 2*D3", Basis::Geometry);
    b.reading("r5", "d10", Basis::Figured, "s1", number(9.25), 0.02);
    b.reading("r6", "q1", Basis::Stated, "s2", std::string("white oak"));
    b.ruling("k1", "d1", std::string("14'-3 1/2\""));
    return b;
}

}  // namespace tests::app
