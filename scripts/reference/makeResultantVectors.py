#!/usr/bin/python3
"""Makes test/published/vectors/resultant.json: what numpy and scipy give for vectors of three axes.

Run on Debian's packages (python3-numpy, python3-scipy):  python3 scripts/reference/makeResultantVectors.py
The densities are the traces of scipy's spectral matrices, the levels those of the rows of numpy's arrays.
"""

import importlib.util
from pathlib import Path

import numpy as np
from scipy import signal

spec = importlib.util.spec_from_file_location("vectors", Path(__file__).with_name("makeVectors.py"))
vectors = importlib.util.module_from_spec(spec)
spec.loader.exec_module(vectors)

RATE = 200.0
COUNT = 4000
SEGMENT = 400
SPAN = 200
BANDS = [[8.0, 12.0], [18.0, 22.0], [0.0, 100.0], [3.3, 47.9]]
T = np.arange(COUNT) / RATE


def sine(frequency, amplitude, offset=0.0):
    return offset + amplitude * np.sin(2 * np.pi * frequency * T)


def noise(seeds, offsets):
    return np.array([vectors.record(seed, COUNT, offset) for seed, offset in zip(seeds, offsets)])


# Sines as [frequency in Hz, amplitude, offset] an axis, in g; or noise of a seed about an offset an axis.
SINES = {
    "a sine beside gravity": [[10, 0.5, 0], [0, 0, 0], [0, 0, 1]],
    "a sine along gravity": [[0, 0, 0], [0, 0, 0], [10, 0.5, 1]],
    "three sines": [[8, 0.3, 0.02], [12.5, 0.2, -0.1], [31, 0.4, 1]],
}
NOISE = {"noise": {"seeds": [1, 2, 3], "offsets": [0.05, -0.2, 1.0]}}


def density(axes):
    """The trace of the spectral matrix, over scipy's own frequencies."""
    options = dict(fs=RATE, window="hann", nperseg=SEGMENT, noverlap=SEGMENT // 2, detrend="constant")
    f, matrix = signal.csd(axes[:, None, :], axes[None, :, :], **options)
    return f, np.real(np.trace(matrix, axis1=0, axis2=1))


def band_rms(f, p, low, high):
    """Bins as steps, which the outermost keep whole in the half inside; integrated over the exact edges."""
    edges = np.concatenate([[0.0], (f[:-1] + f[1:]) / 2, [RATE / 2]])
    inside = np.clip(np.minimum(edges[1:], high) - np.maximum(edges[:-1], low), 0, None)
    share = inside / np.diff(edges)
    return np.sqrt(np.sum(p * (f[1] - f[0]) * share))


def weighted(axes, names):
    f = np.fft.rfftfreq(COUNT, 1 / RATE)
    responses = [signal.freqs(*vectors.weighting_polynomials(name), 2 * np.pi * f)[1] for name in names]
    return np.fft.irfft(np.fft.rfft(axes, axis=1) * np.array(responses), COUNT, axis=1)


def velocity(axes, low):
    """In m/s, without the 1.2 periods of the low cut at either end that an integration can't know."""
    factor = 9.80665 * vectors.integral_factor(np.fft.rfftfreq(COUNT, 1 / RATE), 1, low)
    lost = int(np.ceil(1.2 / low * RATE))
    return np.fft.irfft(np.fft.rfft(axes, axis=1) * factor, COUNT, axis=1)[:, lost:-lost]


def levels(axes):
    free = axes - axes.mean(axis=1, keepdims=True)
    length = np.linalg.norm(free, axis=0)
    squares = np.sum(free**2, axis=0)
    return {
        "mean": np.linalg.norm(axes.mean(axis=1)),
        "rms": np.sqrt(np.mean(squares)),
        "totalRms": np.sqrt(np.mean(np.sum(axes**2, axis=0))),
        "peak": length.max(),
        "crestFactor": length.max() / np.sqrt(np.mean(squares)),
        "percentile99": np.percentile(length, 99),
        "percentile999": np.percentile(length, 99.9),
        "mtvv": np.sqrt(np.convolve(squares, np.ones(SPAN) / SPAN, "valid").max()),
    }


def cases():
    for name, made in {**SINES, **NOISE}.items():
        of = {"noise": made} if name in NOISE else {"sines": made}
        axes = noise(**made) if name in NOISE else np.array([sine(*one) for one in made])
        f, p = density(axes)
        case = {"name": name, **of, "rate": RATE, "count": COUNT, "segment": SEGMENT, "levels": levels(axes)}
        yield {
            **case,
            "density": p,
            "bands": [[*band, band_rms(f, p, *band)] for band in BANDS],
            "weighted": levels(weighted(axes, ["wd", "wd", "wk"]))["rms"],
            "velocity": levels(velocity(axes, 2.0))["rms"],
        }


if __name__ == "__main__":
    vectors.write("resultant", list(cases()), by=Path(__file__).name)
