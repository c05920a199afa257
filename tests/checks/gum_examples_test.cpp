#include "evidence-core/network/solution.h"
#include "tests/checks/near.h"
#include "tests/checks/table.h"
#include "tests/evidence-core/network/net_sketch.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

// Worked examples of JCGM 100:2008 (the GUM), Annex H, put into a register.

namespace {

using namespace evidence;
using record::DimensionQuantity;
using testsupport::NetSketch;

double u(const network::Solution& s, std::size_t d) {
    return *s.dimensions[d].u;
}
double correlation(const network::Solution& s, std::size_t a, std::size_t b) {
    return s.covariance(a, b) / (u(s, a) * u(s, b));
}

// H.1, end gauge, Table H.1 (inputs looked up, printed results from memory); nm read as inches.
TEST(EndGaugeRegister, FirstOrderValueAndDoubt) {
    NetSketch b;
    const auto input = [&](DimensionQuantity quantity, double value, double doubt) {
        const auto d = b.dimension(quantity);
        b.reading(d, value, doubt, b.source());
    };
    input(DimensionQuantity::Length, 50000623, 25);                // D1 standard
    input(DimensionQuantity::Length, 215, 9.7);                    // D2 difference, u as printed
    input(DimensionQuantity::Ratio, 11.5e-6, 1.2e-6);              // D3 its expansion
    input(DimensionQuantity::Ratio, 0, 0.58e-6);                   // D4 difference of it
    input(DimensionQuantity::Ratio, -0.1, std::hypot(0.2, 0.35));  // D5 temperature
    input(DimensionQuantity::Ratio, 0, 0.029);                     // D6 difference of it
    b.dimension();                                                 // D7 the gauge
    b.relation("D7 = D1 + D2 - D1*(D4*D5 + D3*D6)");
    const auto s = network::solve(b.reg).value();
    EXPECT_NEAR(*s.dimensions[6].value, 50000838, 1e-6);
    EXPECT_NEAR(u(s, 6), 31.7106, 1e-3);  // printed 32
    // Contributions as pulls × u of the inputs.
    EXPECT_NEAR(s.covariance(0, 6) / u(s, 0), 25, 1e-3);
    EXPECT_NEAR(s.covariance(3, 6) / u(s, 3), 2.900036, 2e-5);
    EXPECT_NEAR(s.covariance(5, 6) / u(s, 5), -16.675208, 2e-4);
    EXPECT_NEAR(s.covariance(2, 6), 0, 1e-12);
    EXPECT_NEAR(s.covariance(4, 6), 0, 1e-9);
}

// H.2, resistance, reactance and impedance of a circuit element from five simultaneous
// observations of voltage, current and phase, whose errors are correlated: data/gum_h2.csv.
class Impedance : public ::testing::Test {
  protected:
    Impedance() {
        const checks::Table table("gum_h2.csv");
        m_rows = {table.numbers("V_volt"), table.numbers("I_mA"), table.numbers("phi_rad")};
        for (double& current : m_rows[1]) current /= 1000;
        for (std::size_t i = 0; i < 3; ++i) {
            for (const double x : m_rows[i]) m_mean(index(i)) += x / 5;
            for (std::size_t j = 0; j <= i; ++j)
                m_covariance(index(i), index(j)) = m_covariance(index(j), index(i)) =
                    covarianceOf(i, j);
        }
    }
    static constexpr std::array kInputs{DimensionQuantity::Ratio, DimensionQuantity::Ratio,
                                        DimensionQuantity::Angle};
    static Eigen::Index index(std::size_t i) { return static_cast<Eigen::Index>(i); }
    [[nodiscard]] double covarianceOf(std::size_t i, std::size_t j) const {
        double mi = 0, mj = 0, sum = 0;
        for (std::size_t k = 0; k < 5; ++k) {
            mi += m_rows[i][k] / 5;
            mj += m_rows[j][k] / 5;
        }
        for (std::size_t k = 0; k < 5; ++k) sum += (m_rows[i][k] - mi) * (m_rows[j][k] - mj);
        return sum / 20;  // of the means: n (n − 1)
    }
    /// A register of the three means with these covariances: each reading is exact but for shared
    /// errors, whose coefficients are the Cholesky factor.
    [[nodiscard]] network::Solution solved(const Eigen::Matrix3d& covariance) const {
        NetSketch b;
        for (std::size_t i = 0; i < 3; ++i) {
            const auto d = b.dimension(kInputs.at(i));
            b.reading(d, m_mean(index(i)), 0, b.source());
        }
        const Eigen::Matrix3d l = covariance.llt().matrixL();
        for (Eigen::Index k = 0; k < 3; ++k) {
            auto& e = b.sharedError(record::SharedErrorKind::Absolute, 1);
            for (Eigen::Index i = k; i < 3; ++i)
                e.on.push_back({{fmt::format("r{}", i + 1)}, l(i, k)});
        }
        for (int i = 0; i < 3; ++i) b.dimension(DimensionQuantity::Ratio);
        b.relation("D4 = D1*cos(D3)/D2");
        b.relation("D5 = D1*sin(D3)/D2");
        b.relation("D6 = D1/D2");
        return network::solve(b.reg).value();
    }
    std::array<std::vector<double>, 3> m_rows;
    Eigen::Vector3d m_mean = Eigen::Vector3d::Zero();
    Eigen::Matrix3d m_covariance = Eigen::Matrix3d::Zero();
};

TEST_F(Impedance, ItsInputs) {
    EXPECT_RELATIVE(m_mean(0), 4.9990, 1e-12);
    EXPECT_RELATIVE(m_mean(1), 19.6610e-3, 1e-12);
    EXPECT_RELATIVE(m_mean(2), 1.044460, 1e-12);
    const Eigen::Vector3d ui = m_covariance.diagonal().cwiseSqrt();
    EXPECT_RELATIVE(ui(0), 3.2093613e-3, 1e-7);
    EXPECT_RELATIVE(ui(1), 9.4710084e-6, 1e-7);
    EXPECT_RELATIVE(ui(2), 7.5206383e-4, 1e-7);
    EXPECT_NEAR(m_covariance(0, 1) / ui(0) / ui(1), -0.3553112, 1e-6);
    EXPECT_NEAR(m_covariance(0, 2) / ui(0) / ui(2), 0.8576242, 1e-6);
    EXPECT_NEAR(m_covariance(1, 2) / ui(1) / ui(2), -0.6451112, 1e-6);
}

TEST_F(Impedance, ValuesDoubtsAndCorrelations) {
    const auto s = solved(m_covariance);
    EXPECT_RELATIVE(*s.dimensions[3].value, 127.7321699, 1e-7);
    EXPECT_RELATIVE(*s.dimensions[4].value, 219.8465119, 1e-7);
    EXPECT_RELATIVE(*s.dimensions[5].value, 254.2597019, 1e-7);
    EXPECT_RELATIVE(u(s, 3), 0.07107141, 1e-7);
    EXPECT_RELATIVE(u(s, 4), 0.29558168, 1e-7);
    EXPECT_RELATIVE(u(s, 5), 0.23633613, 1e-7);
    EXPECT_NEAR(correlation(s, 3, 4), -0.5884298, 1e-6);
    EXPECT_NEAR(correlation(s, 3, 5), -0.4852592, 1e-6);
    EXPECT_NEAR(correlation(s, 4, 5), 0.9925116, 1e-6);
}

TEST_F(Impedance, RowByRow) {
    double r = 0, x = 0, z = 0;
    for (std::size_t k = 0; k < 5; ++k) {
        NetSketch b;
        for (std::size_t i = 0; i < 3; ++i) {
            const auto d = b.dimension(kInputs.at(i));
            b.reading(d, m_rows[i][k], 1e-6, b.source());
        }
        for (int i = 0; i < 3; ++i) b.dimension(DimensionQuantity::Ratio);
        b.relation("D4 = D1*cos(D3)/D2");
        b.relation("D5 = D1*sin(D3)/D2");
        b.relation("D6 = D1/D2");
        const auto s = network::solve(b.reg).value();
        r += *s.dimensions[3].value / 5;
        x += *s.dimensions[4].value / 5;
        z += *s.dimensions[5].value / 5;
    }
    EXPECT_RELATIVE(r, 127.7316305, 1e-9);
    EXPECT_RELATIVE(x, 219.8468946, 1e-9);
    EXPECT_RELATIVE(z, 254.2600496, 1e-9);
}

TEST_F(Impedance, WithoutItsCorrelationsTheDoubtIsWrong) {
    const auto s = solved(m_covariance.diagonal().asDiagonal());
    EXPECT_RELATIVE(u(s, 3), 0.1945445, 1e-6);
    EXPECT_RELATIVE(u(s, 4), 0.2009093, 1e-6);
    EXPECT_RELATIVE(u(s, 5), 0.2040764, 1e-6);
}

TEST_F(Impedance, WithCorrelationsRoundedToTwoPlaces) {
    const Eigen::Vector3d ui = m_covariance.diagonal().cwiseSqrt();
    Eigen::Matrix3d r;
    r << 1, -0.36, 0.86, -0.36, 1, -0.65, 0.86, -0.65, 1;
    const auto s = solved(ui.asDiagonal() * r * ui.asDiagonal());
    EXPECT_RELATIVE(u(s, 3), 0.0702465, 1e-6);
    EXPECT_RELATIVE(u(s, 4), 0.2960956, 1e-6);
    EXPECT_RELATIVE(u(s, 5), 0.2367325, 1e-6);
}

}  // namespace
