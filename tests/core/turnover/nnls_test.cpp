// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/turnover/nnls.h"

#include "tests/reference/reference_table.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>
#include <vector>

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

TEST(Nnls, GivesWhatScipyGivesForTwelveProblemsOfEveryKind) {
    // scipy.optimize.nnls(A, b): tests/reference/nnls.tsv, made by nnls.py beside it.
    const auto rows = testing::reference_table("nnls.tsv");
    EXPECT_EQ(rows.size(), 12u);
    int compared = 0;
    for (const auto& row : rows) {
        const auto& name = row.text("name");
        const auto m = static_cast<Index>(row.number("rows"));
        const auto n = static_cast<Index>(row.number("columns"));
        const auto entries = row.numbers("a");
        const auto target = row.numbers("b");
        const auto expected = row.numbers("x");
        ASSERT_EQ(static_cast<Index>(entries.size()), m * n) << name;
        ASSERT_EQ(static_cast<Index>(target.size()), m) << name;
        ASSERT_EQ(static_cast<Index>(expected.size()), n) << name;
        using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
        const MatrixXd a = Eigen::Map<const RowMajor>(entries.data(), m, n);
        const VectorXd b = Eigen::Map<const VectorXd>(target.data(), m);
        const VectorXd x = non_negative_least_squares(a, b);
        EXPECT_GE(x.minCoeff(), 0) << name;
        EXPECT_NEAR((a * x - b).norm(), row.number("residual"), 1e-10 * b.norm()) << name;
        if (row.text("unique") != "yes") continue;
        ++compared;
        // In bytes of the target: a column of large entries has small coefficients. A condition of
        // 1e5 costs five of sixteen digits.
        for (Index k = 0; k < n; ++k)
            EXPECT_NEAR(x[k] * a.col(k).norm(), expected[std::size_t(k)] * a.col(k).norm(),
                        1e-9 * b.norm())
                << name << ", column " << k;
    }
    EXPECT_GE(compared, 7);
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

// Certified amplitudes b1, b3, b5, rates b2, b4, b6 and residual sum of squares.
struct Certified {
    int digits = 0;
    std::array<double, 3> amplitudes{}, rates{};
    double squares = 0;
};
const std::array<Certified, 3> certified = {{
    {14,
     {9.5100000027e-02, 8.6070000013e-01, 1.5575999998e+00},
     {1.0000000001e+00, 3.0000000002e+00, 5.0000000001e+00},
     1.4307867721e-25},
    {6,
     {9.6251029939e-02, 8.6424689056e-01, 1.5529016879e+00},
     {1.0057332849e+00, 3.0078283915e+00, 5.0028798100e+00},
     2.2299428125e-11},
    {5,
     {8.6816414977e-02, 8.4400777463e-01, 1.5825685901e+00},
     {9.5498101505e-01, 2.9515951832e+00, 4.9863565084e+00},
     1.6117193594e-08},
}};

/// The first two sets are the stated function rounded, the third is the published table (rounded to
/// four decimals, so its smaller values have three digits).
VectorXd lanczos_data(const Certified& set) {
    VectorXd y(24);
    for (Index i = 0; i < 24; ++i)
        y[i] = set.digits == 5 ? lanczos3[static_cast<std::size_t>(i)]
                               : rounded_to(lanczos(0.05 * double(i)), set.digits);
    return y;
}

MatrixXd decays_at(const std::vector<double>& rates) {
    MatrixXd a(24, static_cast<Index>(rates.size()));
    for (Index i = 0; i < 24; ++i)
        for (Index k = 0; k < a.cols(); ++k)
            a(i, k) = std::exp(-0.05 * double(i) * rates[std::size_t(k)]);
    return a;
}

TEST(NistLanczos, AtTheCertifiedRatesTheAmplitudesAndTheResidualAreTheCertifiedOnes) {
    for (const auto& set : certified) {
        const VectorXd y = lanczos_data(set);
        const MatrixXd a = decays_at({set.rates.begin(), set.rates.end()});
        const VectorXd x = non_negative_least_squares(a, y);
        // Eleven digits of the rates leave seven or more of the amplitudes.
        for (Index k = 0; k < 3; ++k)
            EXPECT_NEAR(x[k] / set.amplitudes[std::size_t(k)], 1, 1e-7)
                << set.digits << " digits, " << k;
        // The first set's residual, 1e-25, is below what eleven digits of the rates can give.
        EXPECT_NEAR((a * x - y).squaredNorm(), set.squares, 1e-6 * set.squares + 1e-19)
            << set.digits << " digits";
    }
}

TEST(NistLanczos, AFineGridThatHoldsTheCertifiedRatesFindsThem) {
    // Non-negative amplitudes on 243 rates may split one exponential over its neighbours on the
    // grid, so what is nearest to a certified rate is taken together. Not so for the third set: its
    // five digits do not tell three exponentials from others, which leave a smaller residual than
    // the certified one. The solver stops where the gradient is 1e-13 of the data's size: that
    // leaves 1e-6 of the values. Neighbours on the grid are 1.95 % apart.
    for (const auto& set : certified) {
        std::vector<double> rates(set.rates.begin(), set.rates.end());
        for (int k = 0; k < 240; ++k) rates.push_back(20 / std::pow(100, double(k) / 239));
        const VectorXd y = lanczos_data(set);
        const MatrixXd a = decays_at(rates);
        const VectorXd x = non_negative_least_squares(a, y);
        EXPECT_LE((a * x - y).squaredNorm(), set.squares + 1e-12) << set.digits << " digits";
        if (set.digits == 5) continue;
        std::array<double, 3> amplitude{}, moment{};
        for (std::size_t k = 0; k < rates.size(); ++k) {
            std::size_t nearest = 0;
            for (std::size_t j = 1; j < 3; ++j)
                if (std::abs(std::log(rates[k] / set.rates[j])) <
                    std::abs(std::log(rates[k] / set.rates[nearest])))
                    nearest = j;
            amplitude[nearest] += x[Index(k)];
            moment[nearest] += x[Index(k)] * rates[k];
        }
        for (std::size_t j = 0; j < 3; ++j) {
            EXPECT_NEAR(amplitude[j] / set.amplitudes[j], 1, 0.05)
                << set.digits << " digits, " << j;
            EXPECT_NEAR(moment[j] / amplitude[j] / set.rates[j], 1, 0.0195)
                << set.digits << " digits, " << j;
        }
    }
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
