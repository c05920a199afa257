#include "app/report/figure/grade_mark.h"

#include <QImage>
#include <QPainter>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <set>

namespace {

using app::report::figure::gradeColour;
using evidence::record::Grade;

constexpr std::array kGrades{Grade::InHand,      Grade::Figured, Grade::TakenOff, Grade::BoxedIn,
                             Grade::CarriedOver, Grade::OurCall, Grade::Blank};

using Rgb = std::array<double, 3>;
using Matrix = std::array<Rgb, 3>;

// G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A physiologically-based model for simulation
// of color vision deficiency", IEEE TVCG 15 (6), 2009, the authors' precomputed matrices for
// severity 1.0; applied to linear RGB.
constexpr Matrix kProtan{{{0.152286, 1.052583, -0.204868},
                          {0.114503, 0.786281, 0.099216},
                          {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kDeutan{{{0.367322, 0.860646, -0.227968},
                          {0.280085, 0.672501, 0.047413},
                          {-0.011820, 0.042940, 0.968881}}};
constexpr Matrix kTritan{{{1.255528, -0.076749, -0.178779},
                          {-0.078411, 0.930809, 0.147602},
                          {0.004733, 0.691367, 0.303900}}};
// Luminance of IEC 61966-2-1: what a photocopier or an eye without colour sees.
constexpr Matrix kGrey{
    {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}}};
constexpr Matrix kNormal{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};

// IEC 61966-2-1 (sRGB) decoding.
double linear(double v) {
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

Rgb seen(const QColor& colour, const Matrix& eye) {
    const Rgb in{linear(colour.redF()), linear(colour.greenF()), linear(colour.blueF())};
    Rgb out{};
    for (std::size_t r = 0; r < 3; ++r) {
        double sum = 0;
        for (std::size_t c = 0; c < 3; ++c) sum += eye[r][c] * in[c];
        out[r] = std::min(1.0, std::max(0.0, sum));
    }
    return out;
}

// CIE 1976 L*a*b* (ISO/CIE 11664-4), white point D65.
Rgb lab(const Rgb& c) {
    const double x = (0.4124 * c[0] + 0.3576 * c[1] + 0.1805 * c[2]) / 0.9505;
    const double y = 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
    const double z = (0.0193 * c[0] + 0.1192 * c[1] + 0.9505 * c[2]) / 1.0890;
    const auto f = [](double t) {
        return t > 216.0 / 24389.0 ? std::cbrt(t) : (24389.0 / 27.0 * t + 16) / 116;
    };
    return {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
}

double difference(const Rgb& a, const Rgb& b) {
    return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

double apart(Grade a, Grade b, const Matrix& eye) {
    return difference(lab(seen(gradeColour(a), eye)), lab(seen(gradeColour(b), eye)));
}

// ΔE*ab; the just noticeable difference is about 2.3 (Mahy, van Eycken, Oosterlinck, Color Research
// and Application 19 (2), 1994). The least is boxed in against blank; all other pairs keep 17.
TEST(GradeColours, StayApartForEyesWithoutRedGreenOrBlue) {
    for (const auto* eye : {&kNormal, &kProtan, &kDeutan, &kTritan})
        for (std::size_t i = 0; i < kGrades.size(); ++i)
            for (std::size_t k = i + 1; k < kGrades.size(); ++k) {
                const bool blank = kGrades[i] == Grade::BoxedIn && kGrades[k] == Grade::Blank;
                EXPECT_GT(apart(kGrades[i], kGrades[k], *eye), blank ? 4.5 : 16.5)
                    << "grades " << i << " and " << k;
            }
}

// In grey the well held grades stay apart by darkness. Where grey alone is not enough (taken off
// against our call, and the light ones among themselves) letter and shape carry the difference:
// GradeMarks.DifferInBlackAndWhite.
TEST(GradeColours, GreyKeepsTheHeldGradesApart) {
    for (const auto& [a, b] : {std::pair{Grade::InHand, Grade::Figured},
                               {Grade::Figured, Grade::TakenOff},
                               {Grade::TakenOff, Grade::BoxedIn}})
        EXPECT_GT(apart(a, b, kGrey), 10.0);
    EXPECT_LT(apart(Grade::TakenOff, Grade::OurCall, kGrey), 4.5);
}

TEST(GradeColours, SimulationLeavesGreyAlone) {
    for (const auto* eye : {&kProtan, &kDeutan, &kTritan, &kGrey}) {
        const Rgb grey = seen(QColor(128, 128, 128), *eye);
        EXPECT_NEAR(grey[0], grey[1], 1e-4);
        EXPECT_NEAR(grey[1], grey[2], 1e-4);
    }
}

TEST(GradeColours, RunDarkToLightFromInHandToBoxedIn) {
    double last = -1;
    for (const Grade grade : {Grade::InHand, Grade::Figured, Grade::TakenOff, Grade::BoxedIn}) {
        const double light = lab(seen(gradeColour(grade), kNormal))[0];
        EXPECT_GT(light, last);
        last = light;
    }
}

TEST(GradeMarks, DifferInBlackAndWhite) {
    std::set<QByteArray> shapes;
    for (const Grade grade : kGrades) {
        QImage image(24, 24, QImage::Format_Grayscale8);
        image.fill(255);
        QPainter painter(&image);
        app::report::figure::drawGradeMark(painter, QRectF(3, 3, 18, 18), grade, Qt::black,
                                           Qt::white);
        painter.end();
        QByteArray copy;  // as a hard photocopier sees it: black or white
        for (int y = 0; y < 24; ++y)
            for (int x = 0; x < 24; ++x) copy.append(qGray(image.pixel(x, y)) < 200 ? '#' : '.');
        EXPECT_TRUE(shapes.insert(copy).second) << "grade shape repeats";
    }
}

// The design's table and chalk: dark grades on a dark ground must not look open.
TEST(GradeMarks, FilledAndOpenDifferOnADarkGround) {
    const auto middle = [](Grade grade) {
        QImage image(24, 24, QImage::Format_Grayscale8);
        image.fill(QColor("#1E252C"));
        QPainter painter(&image);
        app::report::figure::drawGradeMark(painter, QRectF(3, 3, 18, 18), grade, QColor("#E8E4D9"),
                                           QColor("#1E252C"));
        painter.end();
        return qGray(image.pixel(12, 12));
    };
    EXPECT_GT(middle(Grade::BoxedIn) - middle(Grade::InHand), 100);
    EXPECT_GT(middle(Grade::CarriedOver) - middle(Grade::Figured), 100);
}

}  // namespace
