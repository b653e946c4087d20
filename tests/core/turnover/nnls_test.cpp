// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/turnover/nnls.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>

namespace ullage {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

TEST(Nnls, GivesTheVectorThatThreeOtherSolversGive) {
    // scipy.optimize.nnls(A, b), R nnls::nnls(A, b)$x and Octave lsqnonneg(A, b) agree to 1e-15.
    MatrixXd a(5, 3);
    a << 1, 1, 2, 10, 11, 9, 2, 0, 1, 5, 3, 1, 1, 4, 2;
    VectorXd b(5);
    b << -1, 11, 0, 3, 2;
    const VectorXd x = non_negative_least_squares(a, b);
    EXPECT_NEAR(x[0], 0.302078913873568, 1e-12);
    EXPECT_NEAR(x[1], 0.664828171404327, 1e-12);
    EXPECT_EQ(x[2], 0);
    EXPECT_NEAR((a * x - b).norm(), 2.420040778486503, 1e-12);
    EXPECT_NEAR((a * x - b).squaredNorm(), 5.85659736953756, 1e-12);
}

TEST(Nnls, AProblemWhoseAnswerIsPositiveIsOrdinaryLeastSquares) {
    MatrixXd a(3, 2);
    a << 1, 0, 0, 1, 1, 1;
    VectorXd b(3);
    b << 1, 2, 3;
    const VectorXd x = non_negative_least_squares(a, b);
    EXPECT_NEAR(x[0], 1, 1e-14);
    EXPECT_NEAR(x[1], 2, 1e-14);
}

TEST(Nnls, NothingHelpsAgainstANegativeTargetOrAZeroOne) {
    MatrixXd a(3, 2);
    a << 1, 2, 3, 4, 5, 6;
    EXPECT_EQ(non_negative_least_squares(a, VectorXd::Constant(3, -1.0)), VectorXd(VectorXd::Zero(2)));
    EXPECT_EQ(non_negative_least_squares(a, VectorXd::Zero(3)), VectorXd(VectorXd::Zero(2)));
    EXPECT_EQ(non_negative_least_squares(MatrixXd::Zero(3, 2), VectorXd::Ones(3)),
              VectorXd(VectorXd::Zero(2)));
}

/// Karush–Kuhn–Tucker: x ≥ 0; gradient 0 where x > 0 and not upwards where x = 0. Necessary and
/// sufficient, as the problem is convex (Lawson and Hanson 1974, ch. 23, from memory).
void expect_optimal(const MatrixXd& a, const VectorXd& b, const VectorXd& x, double tolerance,
                    const std::string& which) {
    const VectorXd gradient = a.transpose() * (b - a * x);
    const double scale = a.cwiseAbs().colwise().sum().maxCoeff() * b.cwiseAbs().maxCoeff();
    for (Index k = 0; k < x.size(); ++k) {
        EXPECT_GE(x[k], 0) << which;
        EXPECT_LE(gradient[k], tolerance * scale) << which << ", column " << k;
        if (x[k] > 0) {
            EXPECT_GE(gradient[k], -tolerance * scale) << which << ", column " << k;
        }
    }
}

TEST(Nnls, RandomProblemsMeetTheOptimalityConditions) {
    std::mt19937_64 random(21);
    std::normal_distribution<double> normal;
    for (int trial = 0; trial < 400; ++trial) {
        const auto rows = static_cast<Index>(1 + random() % 40);
        const auto columns = static_cast<Index>(1 + random() % 25);
        MatrixXd a(rows, columns);
        VectorXd b(rows);
        for (Index i = 0; i < rows; ++i) {
            b[i] = normal(random);
            for (Index k = 0; k < columns; ++k) a(i, k) = normal(random);
        }
        if (trial % 3 == 0) a *= 1e9;
        if (trial % 3 == 1) b *= 1e12;
        expect_optimal(a, b, non_negative_least_squares(a, b), 1e-11,
                       "trial " + std::to_string(trial));
    }
}

TEST(Nnls, CollinearColumnsStillGiveTheLeastResidual) {
    std::mt19937_64 random(22);
    std::normal_distribution<double> normal;
    for (int trial = 0; trial < 200; ++trial) {
        MatrixXd own(12, 4);
        VectorXd b(12);
        for (Index i = 0; i < 12; ++i) {
            b[i] = normal(random);
            for (Index k = 0; k < 4; ++k) own(i, k) = normal(random);
        }
        MatrixXd a(12, 9);  // each column again, doubled, and the sum of two
        a << own, own.leftCols(2), 2 * own.rightCols(2), own.col(0) + own.col(1);
        const VectorXd x = non_negative_least_squares(a, b);
        ASSERT_TRUE(x.allFinite());
        expect_optimal(a, b, x, 1e-10, "trial " + std::to_string(trial));
        EXPECT_NEAR((a * x - b).norm(), (own * non_negative_least_squares(own, b) - b).norm(), 1e-9);
    }
}

TEST(Nnls, NearlyEqualExponentialsEndAndAreOptimal) {
    // Columns 1 − exp(−t/τ) with τ a percent apart: the numerical rank is far below their number.
    MatrixXd a(30, 120);
    VectorXd b(30);
    for (Index i = 0; i < 30; ++i) {
        for (Index k = 0; k < 120; ++k)
            a(i, k) = -std::expm1(-(double(i) + 1) / (0.5 * std::pow(1.01, double(k)) + 1));
        b[i] = -std::expm1(-(double(i) + 1) / 1.7) + 0.01 * std::sin(double(i * i));
    }
    const VectorXd x = non_negative_least_squares(a, b);
    ASSERT_TRUE(x.allFinite());
    expect_optimal(a, b, x, 1e-7, "exponentials");
}

// NIST Statistical Reference Datasets, nonlinear regression, Lanczos1 to Lanczos3: 24 observations of
// 0.0951 exp(−x) + 0.8607 exp(−3x) + 1.5576 exp(−5x) at x = 0, 0.05 … 1.15, to 14, 6 and 5 digits.
constexpr std::array<double, 24> lanczos3 = {
    2.5134, 2.0443, 1.6684, 1.3664, 1.1232, 0.9269, 0.7679, 0.6389, 0.5338, 0.4479, 0.3776, 0.3197,
    0.2720, 0.2325, 0.1997, 0.1723, 0.1493, 0.1301, 0.1138, 0.1000, 0.0883, 0.0783, 0.0698, 0.0624};

double lanczos(double x) {
    return 0.0951 * std::exp(-x) + 0.8607 * std::exp(-3 * x) + 1.5576 * std::exp(-5 * x);
}

double rounded_to(double value, int significant) {
    const double unit = std::pow(10, std::floor(std::log10(value)) - significant + 1);
    return std::round(value / unit) * unit;
}

/// exp(−x/τ) for 240 τ from 0.05 to 5, evenly on a log scale.
MatrixXd decays() {
    MatrixXd a(24, 240);
    for (Index i = 0; i < 24; ++i)
        for (Index k = 0; k < 240; ++k)
            a(i, k) = std::exp(-0.05 * double(i) / (0.05 * std::pow(100, double(k) / 239)));
    return a;
}

struct LanczosFit {
    double largest = 0, squares = 0;
    VectorXd x;
};

LanczosFit fit_lanczos(const VectorXd& y) {
    const MatrixXd a = decays();
    LanczosFit fit;
    fit.x = non_negative_least_squares(a, y);
    fit.largest = (a * fit.x - y).cwiseAbs().maxCoeff();
    fit.squares = (a * fit.x - y).squaredNorm();
    return fit;
}

TEST(NistLanczos, TheFiveDigitTableIsTheStatedFunctionRounded) {
    for (std::size_t i = 0; i < lanczos3.size(); ++i)
        EXPECT_NEAR(lanczos3[i], lanczos(0.05 * double(i)), 5.1e-5) << i;
}

TEST(NistLanczos, AFineGridReproducesAllThreeSetsToTheirDigits) {
    VectorXd y1(24), y2(24), y3(24);
    for (Index i = 0; i < 24; ++i) {
        y1[i] = lanczos(0.05 * double(i));
        y2[i] = rounded_to(y1[i], 6);
        y3[i] = lanczos3[static_cast<std::size_t>(i)];
    }
    // A grid of lifetimes does not hold 1, 1/3 and 1/5 exactly: 1e-6 is what its spacing costs.
    EXPECT_LE(fit_lanczos(y1).largest, 1e-6);
    EXPECT_LE(fit_lanczos(y2).largest, 5e-6);
    // Certified: residual sum of squares 1.6117193594e-08 for three free exponentials.
    const auto third = fit_lanczos(y3);
    EXPECT_LE(third.squares, 1.05 * 1.6117193594e-08);
    EXPECT_LE(third.largest, 8e-5);
    EXPECT_NEAR(third.x.sum(), 2.5134, 1e-3) << "the value at 0";
}

}  // namespace
}  // namespace ullage
