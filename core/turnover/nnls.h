// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Non-negative least squares: min ‖A x − b‖ subject to x ≥ 0.
///
/// Lawson and Hanson's active-set method: variables enter the passive set by steepest descent, the
/// passive least-squares problem is solved by pivoted QR, and variables that would go negative leave.
/// Source: C. L. Lawson, R. J. Hanson, Solving Least Squares Problems, 1974, ch. 23 (from memory).

#include <Eigen/Core>

namespace ullage {

/// rows ≥ 1, columns ≥ 1, all entries finite. Always ends; at most 3 × columns changes of the set
/// beyond which the present feasible point is returned.
Eigen::VectorXd non_negative_least_squares(const Eigen::MatrixXd& a, const Eigen::VectorXd& b);

}  // namespace ullage
