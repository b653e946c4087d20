# SPDX-License-Identifier: GPL-3.0-or-later
"""First passage of Brownian motion with drift: when mu t + sigma W_t first reaches d.

    /usr/bin/python3 first_passage.py > first_passage.tsv

Continuous time: inverse Gaussian with mean m = d / mu and shape lam = d^2 / sigma^2, that is
scipy.stats.invgauss(mu=m/lam, scale=lam).ppf(p). Looked at once a day the passage is seen later: d becomes
d + beta sigma with beta = -zeta(1/2) / sqrt(2 pi) = 0.5825971579 (Siegmund; Broadie, Glasserman and Kou 1997,
abstract read), in the columns `daily`; `weekly` has beta sigma sqrt(7). The density of the daily law at
its quantile is what turns a share of paths into days.

With an uncertain drift (drift_sd > 0; mu ~ N(mu, drift_sd^2)) the distribution function is averaged over
80 Gauss-Hermite nodes, each from scipy.special.log_ndtr, and inverted by scipy.optimize.brentq. A drift below
zero may never bring the path there: those p are left out.
"""
import numpy as np
from scipy.optimize import brentq
from scipy.special import log_ndtr, ndtr, zeta
from scipy.stats import invgauss

# zeta at 1/2 by its functional equation, as scipy's zeta wants arguments above 1:
# zeta(s) = sum over n of (-1)^(n-1) n^-s / (1 - 2^(1-s)); the alternating sum by Euler's transformation.
def zeta_half():
    terms = [(-1) ** k / (k + 1) ** 0.5 for k in range(60)]
    sums = np.cumsum(terms)
    while len(sums) > 1:
        sums = (sums[1:] + sums[:-1]) / 2
    return sums[0] / (1 - 2 ** 0.5)


beta = -zeta_half() / np.sqrt(2 * np.pi)
assert abs(beta - 0.5825971579) < 1e-10
nodes, weights = np.polynomial.hermite_e.hermegauss(80)
weights = weights / weights.sum()


def cdf(t, d, mu, sigma, drift_sd):
    m = mu + drift_sd * nodes
    spread = sigma * np.sqrt(t)
    return weights @ (ndtr((m * t - d) / spread) + np.exp(2 * m * d / sigma**2 + log_ndtr(-(m * t + d) / spread)))


def quantile(p, d, mu, sigma, drift_sd):
    if drift_sd == 0:
        m, lam = d / mu, (d / sigma) ** 2
        return invgauss(mu=m / lam, scale=lam).ppf(p)
    return brentq(lambda t: cdf(t, d, mu, sigma, drift_sd) - p, 1e-3, 1e5, xtol=1e-10)


def density(t, d, mu, sigma, drift_sd):
    m = mu + drift_sd * nodes
    return weights @ (d / (sigma * np.sqrt(2 * np.pi * t**3)) * np.exp(-((d - m * t) ** 2) / (2 * sigma**2 * t)))


# d, mu, sigma, drift_sd
cases = [(100, 1, 0.5, 0), (100, 1, 1, 0), (100, 1, 2, 0), (100, 1, 5, 0), (30, 1, 3, 0), (10, 0.5, 2, 0),
         (500, 2, 20, 0), (20, 1, 1, 0), (40, 1, 1.5, 0), (25, 0.8, 2, 0), (100, 1, 2, 0.25), (30, 1, 1, 0.2)]

print("d", "mu", "sigma", "drift_sd", "p", "continuous", "daily", "weekly", "daily_density", sep="\t")
for d, mu, sigma, drift_sd in cases:
    for p in (0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95):
        of = [quantile(p, d + shift, mu, sigma, drift_sd) for shift in (0, beta * sigma, beta * sigma * np.sqrt(7))]
        at = density(of[1], d + beta * sigma, mu, sigma, drift_sd)
        print(d, mu, sigma, drift_sd, p, *(f"{v:.8f}" for v in of), f"{at:.8g}", sep="\t")
