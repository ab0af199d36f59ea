"""A whole squat test to forces, by SciPy alone: writes the figures that reading.test.ts compares with.

Run with Debian's python3-scipy: /usr/bin/python3 tests/reference/calibration/scipy_reading.py

Every elementary error (gain, gravity, wheelbase, each bag's rounding and place, each corner's zero,
gauge scale) is an unknown with a prior of mean 0 and variance 1; scipy.optimize.least_squares finds
the curve's parameters and all of them at once, with forces computed exactly from them. Nothing of
the product's own algebra is used: no elimination, no factor structure, no propagation formulas
beyond the covariance (J'J)^-1 and numerical differentiation.
"""
import json
import pathlib

import numpy as np
import scipy
from scipy.optimize import brentq, least_squares

HERE = pathlib.Path(__file__).parent
F = json.loads((HERE / "session.json").read_text())
BAGS = np.array(F["bagsKg"])
HEAPS = np.array(F["heaps"])
NB = len(BAGS)
# One corner's reading: repeatability and rounding together; the axle line is the mean of two.
ONE = np.hypot(F["repeatMm"], F["resolutionMm"] / np.sqrt(12))
OWN = ONE / np.sqrt(2)
ZERO = ONE / np.sqrt(2)  # two zero readings of each corner


def drops(heights):
    corners = [np.array(heights[side]) for side in ("left", "right")]
    return sum((h[[0, -1]].mean() - h)[1:-1] for h in corners) / 2


STIFFENING = drops(F["heightsMm"]["progressive"])
RANGE_MM = STIFFENING.max()


def forces(e):
    """Front axle forces of the nine steps for the elementary errors e (true = shown - error)."""
    gain, gravity, wheelbase = e[0:3]
    rounding, place = e[3:3 + NB], e[3 + NB:3 + 2 * NB]
    g = F["gravityMs2"] - F["gravityU"] * gravity
    base = F["wheelbaseMm"] - F["wheelbaseU"] * wheelbase
    mass = (BAGS - F["resolutionKg"] / np.sqrt(12) * rounding) * (1 - F["gainU"] * gain)
    x = F["xMm"] - F["placeU"] * place
    each = mass * g * (1 - x / base)
    return np.array([each[:n].sum() for n in HEAPS])


def linear(force, theta):
    return force / theta[0]


def progressive(force, theta):
    """Rate from theta[0] at rest to theta[1] at the largest drop read, linear in the drop between."""
    c = (theta[1] - theta[0]) / RANGE_MM
    return (np.sqrt(theta[0] ** 2 + 2 * c * force) - theta[0]) / c


def inverse(curve, drop, theta):
    return brentq(lambda force: curve(force, theta) - drop, 0, 40, xtol=1e-14)


def fit(curve, start, drop_read):
    p = len(start)
    count = 3 + 2 * NB + 2  # + zero of the mean of both corners, gauge scale

    def residuals(v):
        theta, e = v[:p], v[p:]
        zero, scale = e[-2], e[-1]
        shown = curve(forces(e), theta) + ZERO / np.sqrt(2) * zero + drop_read * F["gaugeScaleU"] * scale
        return np.concatenate([(drop_read - shown) / OWN, e])

    found = least_squares(residuals, np.concatenate([start, np.zeros(count)]), method="lm", xtol=1e-15, ftol=1e-15,
                          gtol=1e-15, max_nfev=100000, x_scale="jac")
    jac = jacobian(residuals, found.x)
    return found.x, np.linalg.inv(jac.T @ jac), 2 * found.cost


def jacobian(function, v):
    """Central differences of fourth order."""
    columns = []
    for i in range(len(v)):
        h = 1e-4 * max(1.0, abs(v[i]))
        at = lambda k: function(v + k * h * np.eye(len(v))[i])
        columns.append((at(-2) - 8 * at(-1) + 8 * at(1) - at(2)) / (12 * h))
    return np.array(columns).T


def result(curve, start, names, drop_read):
    v, covariance, chi2 = fit(curve, start, drop_read)
    p = len(start)
    read = []
    for drop in F["readings"]:
        def force(w):
            # What the gauge shows is the true drop and its scale error, which the curve's readings share.
            true_drop = drop * (1 - F["gaugeScaleU"] * w[-1])
            return np.array([inverse(curve, true_drop, w[:p])])
        gradient = jacobian(force, v)[0]
        slope = (inverse(curve, drop + 1e-4, v[:p]) - inverse(curve, drop - 1e-4, v[:p])) / 2e-4
        variance = gradient @ covariance @ gradient + (slope * F["readingU"]) ** 2
        read.append({"dropMm": drop, "forceN": inverse(curve, drop, v[:p]), "uN": float(np.sqrt(variance))})
    return {
        "chiSquare": chi2,
        "parameters": {n: {"value": v[i], "u": float(np.sqrt(covariance[i, i]))} for i, n in enumerate(names)},
        "readings": read,
    }


out = {
    "scipy": scipy.__version__,
    "numpy": np.__version__,
    "linear": result(linear, [2.2], ["rateNPerMm"], drops(F["heightsMm"]["linear"])),
    "progressive": result(progressive, [2.0, 2.4], ["rateNPerMm", "fullRateNPerMm"], STIFFENING),
}
(HERE / "scipy-reading.json").write_text(json.dumps(out, indent=1) + "\n")
print(json.dumps(out, indent=1))
