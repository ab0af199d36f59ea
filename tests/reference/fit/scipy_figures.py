"""Writes scipy-figures.json: fits by scipy.odr, scipy.optimize.curve_fit and least_squares that the tests compare with.

The curves are written here a second time, from their definition. Rerun with a Python that has scipy:
  python3 tests/reference/fit/scipy_figures.py
"""
import json
import pathlib

import numpy as np
import scipy
from scipy import odr, optimize

RANGE_N, RANGE_MM, ROUND_N = 12.0, 6.0, 0.15
rng = np.random.default_rng(20240611)


def beyond_knee(x, knee):
    """max(0, x - knee) with a parabola within +-w of the corner; w is at most the knee."""
    w = np.minimum(ROUND_N, np.maximum(knee, 0))
    travel = x - knee
    with np.errstate(divide="ignore", invalid="ignore"):
        blend = (travel + w) ** 2 / (4 * w)
    return np.where(travel <= -w, 0.0, np.where(travel >= w, travel, blend))


def linear(b, f):
    return f / b[0]


def progressive(b, f):
    """Drop d with f = k0 d + (k1 - k0) d^2/(2 range); straight outside 0..range."""
    k0, k1 = b
    end = RANGE_MM * (k0 + k1) / 2
    inside = np.clip(f, 0, end)
    d = 2 * inside / (k0 + np.sqrt(k0**2 + 2 * (k1 - k0) * inside / RANGE_MM))
    return d + np.minimum(f, 0) / k0 + np.maximum(f - end, 0) / k1


def threshold(b, f):
    return beyond_knee(f, b[0]) / b[1]


def stop(b, f):
    k, knee, k2 = b
    return f / k - (1 / k - 1 / k2) * beyond_knee(f, k * knee)


def threshold_stop(b, f):
    f0, k, knee, k2 = b
    return beyond_knee(f, f0) / k - (1 / k - 1 / k2) * beyond_knee(f, f0 + k * knee)


CURVES = {
    "linear": (linear, [2.0]),
    "threshold": (threshold, [1.4, 1.8]),
    "progressive": (progressive, [1.4, 2.9]),
    "stop": (stop, [1.5, 3.1, 4.2]),
    "thresholdStop": (threshold_stop, [1.3, 1.6, 2.4, 5.0]),
}


def readings(curve, truth, ux, uy, n=60):
    true_x = np.linspace(0.2, RANGE_N, n)
    return true_x + ux * rng.standard_normal(n), curve(truth, true_x) + uy * rng.standard_normal(n)


def case_odr(name):
    curve, truth = CURVES[name]
    ux, uy = np.full(60, 0.04), np.full(60, 0.05)
    ux[::3] *= 1.7
    uy[::4] *= 0.6
    x, y = readings(curve, truth, ux, uy)
    run = odr.ODR(odr.RealData(x, y, sx=ux, sy=uy), odr.Model(curve), beta0=truth, sstol=1e-15, partol=1e-15, maxit=2000)
    run.set_job(deriv=1)
    out = run.run()
    for _ in range(10):
        run = odr.ODR(odr.RealData(x, y, sx=ux, sy=uy), odr.Model(curve), beta0=out.beta,
                      sstol=1e-15, partol=1e-15, maxit=2000)
        run.set_job(deriv=1)
        out = run.run()
    # cov_beta is not scaled by the residual variance; sd_beta is. The unscaled one is from the uncertainties alone.
    return {"x": x.tolist(), "y": y.tolist(), "ux": ux.tolist(), "uy": uy.tolist(),
            "theta": out.beta.tolist(), "sd": np.sqrt(np.diag(out.cov_beta)).tolist(), "chiSquare": out.sum_square}


def case_curve_fit(name):
    """Exact forces, drops with independent errors, a common zero and a gauge scale: full covariance of y."""
    curve, truth = CURVES[name]
    n = 60
    uy = np.full(n, 0.04)
    x, clean = readings(curve, truth, 0.0, 0.0)
    zero, scale = np.full(n, 0.06), 0.004 * clean
    y = clean + uy * rng.standard_normal(n) + zero * rng.standard_normal() + scale * rng.standard_normal()
    cov = np.diag(uy**2) + np.outer(zero, zero) + np.outer(scale, scale)
    popt, pcov = optimize.curve_fit(lambda f, *b: curve(b, f), x, y, p0=truth, sigma=cov, absolute_sigma=True,
                                    ftol=1e-15, xtol=1e-15, gtol=1e-15)
    off = y - curve(popt, x)
    return {"x": x.tolist(), "y": y.tolist(), "uy": uy.tolist(), "zero": zero.tolist(), "scale": scale.tolist(),
            "theta": popt.tolist(), "sd": np.sqrt(np.diag(pcov)).tolist(),
            "chiSquare": float(off @ np.linalg.solve(cov, off))}


def case_everything(name):
    """Both variables uncertain, a gain shared by all forces and a zero shared by all drops, friction with both
    branches: every latent force and every shared factor is an explicit unknown of one large problem."""
    curve, truth = CURVES[name]
    n, friction = 60, 0.35
    ux, uy = np.full(n, 0.02), np.full(n, 0.05)
    sign = np.where(np.arange(n) % 2 == 0, 1, -1)
    true_x = np.linspace(0.9, RANGE_N - 0.5, n)
    gain, zero = 0.003 * true_x, np.full(n, 0.05)
    branch = lambda f, fr: f - sign * fr
    x = true_x + ux * rng.standard_normal(n) + gain * rng.standard_normal()
    y = curve(truth, branch(true_x, friction)) + uy * rng.standard_normal(n) + zero * rng.standard_normal()
    p = len(truth)

    def residuals(v):
        theta, fr, z, xi = v[:p], v[p], v[p + 1:p + 3], v[p + 3:]
        return np.concatenate([(x - xi - gain * z[0]) / ux, (y - curve(theta, branch(xi, fr)) - zero * z[1]) / uy, z])

    start = np.concatenate([truth, [friction, 0, 0], x])
    out = optimize.least_squares(residuals, start, jac="3-point", method="lm", ftol=1e-15, xtol=1e-15, gtol=1e-15,
                                 x_scale="jac", max_nfev=20000)
    # Newton's last digits: least_squares stops at the rounding of its objective.
    for _ in range(6):
        jac = optimize._numdiff.approx_derivative(residuals, out.x, method="3-point")
        out.x = out.x + np.linalg.lstsq(jac, -residuals(out.x), rcond=None)[0]
    jac = optimize._numdiff.approx_derivative(residuals, out.x, method="3-point")
    cov = np.linalg.inv(jac.T @ jac)
    keep = p + 3
    return {"x": x.tolist(), "y": y.tolist(), "ux": ux.tolist(), "uy": uy.tolist(), "sign": sign.tolist(),
            "gain": gain.tolist(), "zero": zero.tolist(), "theta": out.x[:p + 1].tolist(), "z": out.x[p + 1:keep].tolist(),
            "sd": np.sqrt(np.diag(cov))[:keep].tolist(), "chiSquare": float(np.sum(residuals(out.x) ** 2))}


figures = {
    "made with": {"scipy": scipy.__version__, "numpy": np.__version__},
    "span": {"rangeN": RANGE_N, "rangeMm": RANGE_MM, "roundN": ROUND_N},
    "odr": {name: case_odr(name) for name in CURVES},
    "curveFit": {name: case_curve_fit(name) for name in CURVES},
    "everything": {name: case_everything(name) for name in CURVES},
}
path = pathlib.Path(__file__).with_name("scipy-figures.json")
path.write_text(json.dumps(figures) + "\n")
print(path.name, "written")
