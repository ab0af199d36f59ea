"""Writes library-figures.json: figures of general-purpose numeric libraries that the tests compare with.

Distributions from mpmath in 40 digits, rounded to doubles; tests of means and ratios from scipy.
Rerun with a Python that has both:  python3 tests/reference/uncertainty/library_figures.py
"""
import json
import pathlib

import mpmath as mp
import numpy as np
import scipy
from scipy import optimize, stats

mp.mp.dps = 40


def normal_upper(x):
    return mp.erfc(mp.mpf(x) / mp.sqrt(2)) / 2


def chi_upper(x, dof):
    return mp.gammainc(mp.mpf(dof) / 2, mp.mpf(x) / 2, mp.inf, regularized=True)


def t_upper(t, dof):
    t, dof = mp.mpf(t), mp.mpf(dof)
    return mp.betainc(dof / 2, mp.mpf(1) / 2, 0, dof / (dof + t * t), regularized=True) / 2


def f_upper(f, above, below):
    f, above, below = mp.mpf(f), mp.mpf(above), mp.mpf(below)
    return mp.betainc(below / 2, above / 2, 0, below / (below + above * f), regularized=True)


def solve(upper, start, target):
    """Quantile by root-finding in 40 digits on the logarithm of the tail."""
    return mp.findroot(lambda x: mp.log(upper(x)) - mp.log(mp.mpf(target)), mp.mpf(start), tol=1e-34)


dofs = [0.7, 1, 2, 2.5, 3, 5, 9, 10, 17.3, 30, 100, 1000, 1e5]
tails = [0.4, 0.25, 0.1, 0.05, 0.025, 0.005, 1e-4, 1e-9]
figures = {
    "made with": {"mpmath": mp.__version__, "scipy": scipy.__version__, "numpy": np.__version__},
    "normalUpper": [[x, float(normal_upper(x))] for x in [-3, -1, -0.1, 0, 0.3, 1, 1.96, 2.5, 4, 6, 10, 20]],
    "normalTail": [[q, float(solve(normal_upper, stats.norm.isf(q), q))] for q in tails],
    "chiSquareUpper": [[x, dof, float(chi_upper(x, dof))]
                       for dof in dofs for x in [0.1 * dof, 0.6 * dof, dof, 1.5 * dof, 3 * dof + 8]],
    "chiSquareTail": [[q, dof, float(solve(lambda x: chi_upper(x, dof), stats.chi2.isf(q, dof), q))]
                      for dof in dofs for q in tails],
    "studentUpper": [[t, dof, float(t_upper(t, dof))] for dof in dofs for t in [0.01, 0.5, 1, 2, 3.3, 8, 40]],
    "studentTail": [[q, dof, float(solve(lambda x: t_upper(x, dof), stats.t.isf(q, dof), q))]
                    for dof in dofs for q in tails],
    "fUpper": [[f, a, b, float(f_upper(f, a, b))]
               for a in [1, 2, 3.5, 10, 200] for b in [1, 2, 4, 12, 500] for f in [0.1, 0.9, 1, 2.4, 7, 50]],
    "fTail": [[q, a, b, float(solve(lambda x: f_upper(x, a, b), stats.f.isf(q, a, b), q))]
              for a in [1, 3, 10, 200] for b in [2, 4, 12, 500] for q in [0.5, 0.1, 0.05, 0.01, 1e-4]],
}

# Welch: invented lap times, s.
first = [3.99, 4.02, 3.97, 4.05, 4.00]
second = [4.08, 4.11, 4.03, 4.17, 4.06, 4.09, 4.21]
welch = stats.ttest_ind(first, second, equal_var=False)
va, vb = np.var(first, ddof=1) / len(first), np.var(second, ddof=1) / len(second)
welch_dof = (va + vb) ** 2 / (va**2 / (len(first) - 1) + vb**2 / (len(second) - 1))
half = stats.t.ppf(0.975, welch_dof) * np.sqrt(va + vb)
difference = np.mean(first) - np.mean(second)
figures["welch"] = {
    "first": first, "second": second, "value": difference, "pValue": welch.pvalue, "t": welch.statistic,
    "dof": welch_dof, "low": difference - half, "high": difference + half,
}


# Fieller: the ratios at which the t statistic of numerator - ratio x denominator is just significant.
def fieller(a, b, va, vb, cab, dof, brackets):
    t = float(solve(lambda x: t_upper(x, dof), stats.t.isf(0.025, dof), 0.025)) if dof != "Infinity" else float(
        solve(normal_upper, 1.96, 0.025))
    off = lambda r: (a - r * b) ** 2 - t * t * (va - 2 * r * cab + r * r * vb)
    ends = [optimize.brentq(off, *bracket, xtol=1e-15, rtol=1e-14) for bracket in brackets]
    return {"numerator": a, "denominator": b, "varianceNumerator": va, "varianceDenominator": vb,
            "covariance": cab, "dof": dof, "ends": ends}


figures["fieller"] = {
    "bounded": fieller(4.2, 9.1, 0.09, 0.16, 0.05, 8, [(0, 4.2 / 9.1), (4.2 / 9.1, 2)]),
    "knownVariances": fieller(-1.3, 2.0, 0.2, 0.1, -0.02, "Infinity", [(-10, -0.65), (-0.65, 2)]),
    "outside": fieller(2.5, 0.6, 0.09, 0.16, 0.01, 12, [(-100, 0), (0, 4.1)]),
}

path = pathlib.Path(__file__).with_name("library-figures.json")
path.write_text(json.dumps(figures, indent=1) + "\n")
print(path.name, "written")
