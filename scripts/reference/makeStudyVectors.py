"""Makes one recording of 85 s by a formula and takes its figures with numpy and scipy.

test/cli/figures.test.ts writes the same recording, runs a notebook on it and compares. Run with Debian 12's
python3-scipy:  python3 scripts/reference/makeStudyVectors.py > test/published/vectors/study.json
"""
import json
import math

import numpy as np
import scipy
from scipy import signal

RATE = 349.6
SECONDS = 85


def rows():
    state = 20260301
    count = int(RATE * SECONDS)

    def noise():
        nonlocal state
        state = (state * 1664525 + 1013904223) % 2**32
        return state / 2**32 - 0.5

    for i in range(count):
        t = i / RATE
        bump = 1.5 if i % 4001 < 3 else 0.0
        x = 0.02 + 0.10 * noise()
        y = -0.01 + 0.08 * math.sin(2 * math.pi * 7.3 * t) + 0.05 * noise()
        z = 0.98 + 0.30 * math.sin(2 * math.pi * 17.77 * t) + 0.4 * noise() + bump
        yield f"{t:.3f},{x:.5f},{y:.5f},{z:.5f}"


text = "t (s),x (g),y (g),z (g)\n" + "".join(row + "\n" for row in rows())
data = np.loadtxt(text.splitlines(), delimiter=",", skiprows=1)
t = data[:, 0]
rate = (len(t) - 1) / (t[-1] - t[0])


def levels(x):
    ac = x - x.mean()
    m2 = np.mean(ac**2)
    return {
        "mean": x.mean(),
        "rms": math.sqrt(m2),
        "total_rms": math.sqrt(np.mean(x**2)),
        "peak": np.abs(ac).max(),
        "crest_factor": np.abs(ac).max() / math.sqrt(m2),
        "kurtosis": np.mean(ac**4) / m2**2,
        "vdv": (np.sum((9.80665 * ac) ** 4) / rate) ** 0.25,
    }


def spectrum(x, window, seconds, overlap, scaling="density"):
    length = int(round(seconds * rate))
    return signal.welch(x, rate, window=signal.get_window(window, length, fftbins=True), nperseg=length,
                        noverlap=int(math.floor(length * overlap + 1e-9)), detrend="constant", scaling=scaling)


def band(f, p, low, high):
    df = f[1]
    covered = np.clip(np.minimum(f + df / 2, high) - np.maximum(f - df / 2, low), 0, None)
    return math.sqrt(np.sum(p * covered))


start, end = 5.0, 80.0
index = np.arange(len(t)) / rate
keep = (index >= start - 1e-6) & (index < end - 1e-6)
parts = {name: data[keep, column] for name, column in (("x", 1), ("y", 2), ("z", 3))}
f, p = spectrum(parts["z"], "hann", 2, 0.5)
f4, p4 = spectrum(parts["z"], "blackmanharris", 1.5, 0.66)
fa, pa = spectrum(parts["z"], "flattop", 2, 0.75, "spectrum")
bands = [(4, 10), (10, 50), (50, 100), (0.7, 173.3)]
print(json.dumps({
    "made_with": {"numpy": np.__version__, "scipy": scipy.__version__},
    "rate_hz": rate,
    "samples": int(keep.sum()),
    "levels": {name: levels(part) for name, part in parts.items()},
    "psd": {"spacing_hz": f[1], "density": [float(f"{value:.17g}") for value in p[:200]]},
    "blackman_harris": {"spacing_hz": f4[1], "density": list(p4[:60])},
    "amplitude": {"spacing_hz": fa[1], "amplitude": list(np.sqrt(2 * pa[1:60]))},
    "bands": [{"from_hz": low, "to_hz": high, "rms": band(f, p, low, high)} for low, high in bands],
}, indent=1))
