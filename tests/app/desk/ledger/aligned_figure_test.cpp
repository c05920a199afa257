#include "app/desk/ledger/aligned_figure.h"

#include <gtest/gtest.h>

namespace {

using app::desk::ledger::alignedFigure;

struct Cut {
    const char* figure;
    const char* whole;
    const char* part;
};

class AlignedFigures : public testing::TestWithParam<Cut> {};

TEST_P(AlignedFigures, AreCutBeforeThePart) {
    const auto cut = alignedFigure(QString::fromUtf8(GetParam().figure));
    EXPECT_EQ(cut.whole, QString::fromUtf8(GetParam().whole));
    EXPECT_EQ(cut.part, QString::fromUtf8(GetParam().part));
}

INSTANTIATE_TEST_SUITE_P(Ledger, AlignedFigures,
                         testing::Values(Cut{"3′-7 5⁄16″", "3′-7", " 5⁄16″"},
                                         Cut{"14′-3½″", "14′-3", "½″"}, Cut{"3′-0″", "3′-0", "″"},
                                         Cut{"0′-0½″", "0′-0", "½″"}, Cut{"12.50", "12", ".50"},
                                         Cut{"−0.25", "−0", ".25"},
                                         Cut{"1100.1 mm", "1100", ".1 mm"}, Cut{"24", "24", ""},
                                         Cut{"45°", "45", "°"}, Cut{"605 lb", "605", " lb"}));

}  // namespace
