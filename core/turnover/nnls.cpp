// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/turnover/nnls.h"

#include <Eigen/QR>
#include <cassert>
#include <limits>
#include <vector>

namespace ullage {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

VectorXd non_negative_least_squares(const MatrixXd& all_rows, const VectorXd& all_b) {
    assert(all_rows.rows() == all_b.rows() && all_rows.cols() >= 1);
    const Index n = all_rows.cols();
    // Many rows are turned into n + 1 of the same lengths and angles once, not at each change of the set.
    MatrixXd a;
    VectorXd b;
    if (all_rows.rows() > 2 * n) {
        MatrixXd both(all_rows.rows(), n + 1);
        both << all_rows, all_b;
        const Eigen::HouseholderQR<MatrixXd> turned(both);
        const MatrixXd triangle = turned.matrixQR().topRows(n + 1).triangularView<Eigen::Upper>();
        a = triangle.leftCols(n);
        b = triangle.col(n);
    } else {
        a = all_rows;
        b = all_b;
    }
    VectorXd x = VectorXd::Zero(n);
    std::vector<bool> passive(static_cast<std::size_t>(n), false);
    VectorXd gradient = a.transpose() * b;
    const double tolerance =
        10 * std::numeric_limits<double>::epsilon() * a.cwiseAbs().colwise().sum().maxCoeff() *
        std::max(b.cwiseAbs().maxCoeff(), std::numeric_limits<double>::min());

    // Gives the rank of the passive columns.
    const auto solve_passive = [&](VectorXd& z) {
        std::vector<Index> columns;
        for (Index k = 0; k < n; ++k)
            if (passive[static_cast<std::size_t>(k)]) columns.push_back(k);
        MatrixXd sub(a.rows(), static_cast<Index>(columns.size()));
        for (std::size_t j = 0; j < columns.size(); ++j)
            sub.col(static_cast<Index>(j)) = a.col(columns[j]);
        const Eigen::ColPivHouseholderQR<MatrixXd> parts(sub);
        const VectorXd part = parts.solve(b);
        z.setZero();
        for (std::size_t j = 0; j < columns.size(); ++j)
            z[columns[j]] = part[static_cast<Index>(j)];
        return parts.rank();
    };

    VectorXd z(n);
    // Where the lowest point of all has no part below zero it is the one sought, in one step instead of n.
    passive.assign(passive.size(), true);
    if (solve_passive(z) == n && z.minCoeff() >= 0) return z;
    passive.assign(passive.size(), false);
    for (Index change = 0; change < 3 * n; ++change) {
        Index entering = -1;
        double steepest = tolerance;
        for (Index k = 0; k < n; ++k)
            if (!passive[static_cast<std::size_t>(k)] && gradient[k] > steepest) {
                steepest = gradient[k];
                entering = k;
            }
        if (entering < 0) break;
        passive[static_cast<std::size_t>(entering)] = true;
        solve_passive(z);
        if (z[entering] <= 0) {  // collinear with the passive set: this direction cannot help
            passive[static_cast<std::size_t>(entering)] = false;
            gradient[entering] = 0;
            continue;
        }
        for (;;) {
            double step = 1;
            Index leaving = -1;
            for (Index k = 0; k < n; ++k) {
                if (!passive[static_cast<std::size_t>(k)] || z[k] > 0) continue;
                const double to_zero = x[k] / (x[k] - z[k]);
                if (to_zero < step || leaving < 0) {
                    step = std::min(step, to_zero);
                    leaving = k;
                }
            }
            if (leaving < 0) break;
            x += step * (z - x);
            x[leaving] = 0;
            for (Index k = 0; k < n; ++k)
                if (passive[static_cast<std::size_t>(k)] && x[k] <= 0)
                    passive[static_cast<std::size_t>(k)] = false;
            bool any = false;
            for (Index k = 0; k < n; ++k) {
                if (!passive[static_cast<std::size_t>(k)]) x[k] = 0;
                any = any || passive[static_cast<std::size_t>(k)];
            }
            if (!any) {
                z.setZero();
                break;
            }
            solve_passive(z);
        }
        x = z;
        gradient = a.transpose() * (b - a * x);
    }
    return x.cwiseMax(0);
}

}  // namespace ullage
