# SPDX-License-Identifier: GPL-3.0-or-later
"""Non-negative least squares: small problems and what scipy.optimize.nnls(A, b) makes of them.

    /usr/bin/python3 nnls.py > nnls.tsv

One problem a line: name, rows, columns, A (row by row), b, x, residual norm ||A x - b||, and whether x is
the only solution ("unique": the columns are independent; otherwise only the norm can be compared).
Numbers are written with 17 significant digits, so that reading them gives the same doubles.
"""
import numpy as np
from scipy.optimize import nnls

random = np.random.default_rng(20261125)


def decays(times, lifetimes):
    """What of unit amounts is gone after each time: 1 - exp(-t / lifetime)."""
    return -np.expm1(-np.outer(times, 1 / lifetimes))


def problems():
    yield "square", random.normal(size=(6, 6)), random.normal(size=6)
    yield "tall", random.normal(size=(20, 5)), random.normal(size=20)
    yield "wide", random.normal(size=(5, 9)), random.normal(size=5)

    a = random.uniform(size=(12, 5))
    yield "exact and positive", a, a @ np.array([1.0, 0.5, 2.0, 0.25, 3.0])
    yield "exact with zeros", a, a @ np.array([1.0, 0.0, 2.0, 0.0, 0.0])
    yield "all zero", random.uniform(size=(8, 4)), -random.uniform(size=8)

    low = random.normal(size=(10, 3))
    yield "rank 3 of 6 columns", low @ random.uniform(-1, 1, size=(3, 6)), random.normal(size=10)
    own = random.uniform(size=(10, 3))
    yield "a column twice and a sum of two", np.column_stack([own, own[:, 0], own[:, 1] + own[:, 2]]), \
        own @ np.array([2.0, -1.0, 3.0]) + 0.1 * random.normal(size=10)

    base = random.uniform(size=(15, 1))
    yield "nearly collinear", base + 1e-5 * random.normal(size=(15, 4)), 3 * base[:, 0] + 0.01 * random.normal(size=15)
    scales = 10.0 ** np.arange(0, 13, 3)
    yield "columns of unlike size", random.uniform(size=(12, 5)) * scales, 1e6 * random.uniform(size=12)

    days = np.concatenate([np.arange(1, 15), 7 * np.arange(3, 9), 30 * np.arange(3, 13)]).astype(float)
    sparse = np.geomspace(0.3, 1000, 8)
    yield "exponentials, 8 lifetimes", decays(days, sparse), \
        decays(days, np.array([2.0, 60.0])) @ np.array([5.0, 100.0]) * random.lognormal(0, 0.1, days.size)
    dense = np.geomspace(0.02, 3650, 32)
    yield "exponentials, 32 lifetimes", decays(days, dense), \
        decays(days, np.array([1.0, 30.0, 500.0])) @ np.array([2.0, 10.0, 300.0]) + 0.5 * random.normal(size=days.size)


def numbers(values):
    return " ".join(f"{v:.17g}" for v in np.ravel(values))


print("name", "rows", "columns", "a", "b", "x", "residual", "unique", sep="\t")
for name, a, b in problems():
    x, residual = nnls(a, b)
    unique = np.linalg.matrix_rank(a) == a.shape[1]
    print(name, *a.shape, numbers(a), numbers(b), numbers(x), f"{residual:.17g}", "yes" if unique else "no", sep="\t")
