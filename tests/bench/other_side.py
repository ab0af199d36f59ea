"""The other side of the benchmark: the same work by scipy and numpy. Reads one task a line, answers with seconds."""
import json
import sys
import time

import numpy as np
import scipy
from scipy import odr, optimize

data = json.loads(sys.stdin.readline())
SPAN, U_FORCE, U_DROP, V = data["span"], data["uForce"], data["uDrop"], data["values"]
RANGE_MM, ROUND_N = SPAN["rangeMm"], SPAN["roundN"]


def beyond(x, knee):
    w = min(ROUND_N, max(knee, 0))
    travel = x - knee
    return np.where(travel <= -w, 0.0, np.where(travel >= w, travel, (travel + w) ** 2 / (4 * w)))


def stop(b, f):
    return f / b[0] - (1 / b[0] - 1 / b[2]) * beyond(f, b[0] * b[1])


def threshold(b, f):
    return beyond(f, b[0]) / b[1]


def threshold_stop(b, f):
    return beyond(f, b[0]) / b[1] - (1 / b[1] - 1 / b[3]) * beyond(f, b[0] + b[1] * b[2])


def progressive(b, f):
    return 2 * f / (b[0] + np.sqrt(np.maximum(1e-9, b[0] ** 2 + 2 * (b[1] - b[0]) * f / RANGE_MM)))


def cubic_drop(b, f):
    """Drop as a cubic of the force: the same number of parameters, and kinder to this side (nothing to solve)."""
    return f * (b[0] + f * (b[1] + f * b[2]))


MODELS = {"straight": odr.unilinear, "quadratic": odr.quadratic, "knee": odr.Model(stop)}
FITS = {name: (odr.RealData(t["x"], t["y"], sx=U_FORCE, sy=U_DROP), MODELS[name], t["start"])
        for name, t in data["fits"].items()}


def fit(name, repeats):
    points, model, start = FITS[name]
    begin = time.perf_counter()
    for _ in range(repeats):
        out = odr.ODR(points, model, beta0=start).run()
    return (time.perf_counter() - begin) / repeats, out.beta.tolist()


def refit(n, repeats):
    """All six shapes with friction, exact forces, full covariance of the drops, from starts near the answer."""
    s = data["sessions"][str(n)]
    f, d, sign = (np.array(s[k]) for k in ("forceN", "dropMm", "branchSign"))
    begin = time.perf_counter()
    for _ in range(repeats):
        cov = np.diag(np.square(s["uDropMm"]))
        for each in s["factors"]:
            load = np.array(each["onDropMm"]) if each["onDropMm"] else -0.5 * np.array(each["onForceN"])
            cov += np.outer(load, load)
        for curve, start in [(lambda b, t: t / b[0], [2]), (threshold, [0.5, 2]), (progressive, [1.5, 2.8]),
                             (cubic_drop, [0.6, -0.01, 0.0]), (stop, [1.7, 3, 2.5]),
                             (threshold_stop, [0.5, 1.7, 3, 2.5])]:
            try:
                optimize.curve_fit(lambda _, *b: curve(b[:-1], np.maximum(0, f - sign * b[-1])), f, d,
                                   p0=[*start, 0.3], sigma=cov, absolute_sigma=True, maxfev=400)
            except RuntimeError:
                pass
    return (time.perf_counter() - begin) / repeats, None


def trials(m, _repeats):
    rng = np.random.default_rng(1)
    begin = time.perf_counter()
    z = rng.standard_normal((5, m))
    d = V["drop"] + V["uReading"] * z[0] + V["uZero"] * z[1]
    a = V["a"] + V["uA"] * z[2]
    b = V["b"] + V["uB"] * z[3]
    force = (1 + V["uGain"] * z[4]) * (np.sqrt(a * a + 4 * b * d) - a) / (2 * b)
    mean, u = force.mean(), force.std(ddof=1)
    span = int(0.95 * m + 0.5)
    spare = m - 1 - span
    force.partition((spare, span))
    low, high = np.sort(force[:spare + 1]), np.sort(force[span:])
    first = (m - span + 1) // 2 - 1
    best = np.argmin(high - low)
    answer = [mean, u, low[first], high[first], low[best], high[best]]
    return time.perf_counter() - begin, [float(each) for each in answer]


print(json.dumps({"scipy": scipy.__version__, "numpy": np.__version__}), flush=True)
for line in sys.stdin:
    task = json.loads(line)
    seconds, answer = {"fit": fit, "refit": refit, "trials": trials}[task["do"]](task["what"], task["repeats"])
    print(json.dumps({"seconds": seconds, "answer": answer}), flush=True)
