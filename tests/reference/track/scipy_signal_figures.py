"""Writes scipy_signal_figures.json: what scipy.signal makes of the filters and signals below.

Run with Debian's python3-scipy:  /usr/bin/python3 tests/reference/track/scipy_signal_figures.py
The signals are closed formulas, so that the test makes them again without a random generator.
"""
import json
from pathlib import Path

import numpy as np
import scipy
from scipy import signal

CASES = [
    {"order": 1, "cutoffHz": 5.0, "rateHz": 100.0},
    {"order": 2, "cutoffHz": 3.0, "rateHz": 200.0},
    {"order": 3, "cutoffHz": 8.0, "rateHz": 50.0},
    {"order": 4, "cutoffHz": 2.0, "rateHz": 200.0},
    {"order": 4, "cutoffHz": 20.0, "rateHz": 50.0},
    {"order": 6, "cutoffHz": 10.0, "rateHz": 400.0},
    {"order": 8, "cutoffHz": 1.0, "rateHz": 25.0},
]


def series(count, rate):
    """A ramp, three tones, a step and a hash-like noise, all in closed form."""
    i = np.arange(count)
    t = i / rate
    noise = np.modf(np.sin(i * 12.9898) * 43758.5453)[0]
    return 0.5 * t + np.sin(2 * np.pi * 0.7 * t) + 0.4 * np.sin(2 * np.pi * 7 * t + 1) \
        + 0.2 * np.sin(2 * np.pi * 19 * t) + (t > count / rate / 2) * 1.5 + 0.3 * noise


def figures(case):
    sos = signal.butter(case["order"], case["cutoffHz"], fs=case["rateHz"], output="sos")
    at = np.linspace(0, case["rateHz"] / 2, 21)
    _, response = signal.sosfreqz(sos, worN=at, fs=case["rateHz"])
    x = series(240, case["rateHz"])
    y = signal.sosfiltfilt(sos, x)
    once = signal.sosfilt(sos, x)
    return {
        **case,
        "responseHz": at.tolist(),
        "response": np.abs(response).tolist(),
        "input": x[:8].tolist(),
        "filtered": y.tolist(),
        "oncePassedLast": once[-5:].tolist(),
    }


target = Path(__file__).with_suffix(".json")
target.write_text(json.dumps({
    "scipy": scipy.__version__, "cases": [figures(case) for case in CASES],
}, indent=1) + "\n")
print(f"{target.name}: scipy {scipy.__version__}, {len(CASES)} filters")
