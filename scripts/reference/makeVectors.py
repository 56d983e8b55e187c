#!/usr/bin/python3
"""Makes test/published/vectors/*.json: what numpy and scipy give for signals that the tests can make again.

Run on Debian 12's packages (python3-numpy, python3-scipy):  /usr/bin/python3 scripts/reference/makeVectors.py [NAME...]
Each file names the versions it was made with. The signals come from whole-number arithmetic and sums that
IEEE 754 fixes to the last bit, so that no input needs to be stored.
"""

import json
import platform
import sys
from pathlib import Path

import numpy as np
import scipy
from scipy import interpolate, signal, stats

FOLDER = Path(__file__).resolve().parents[2] / "test" / "published" / "vectors"


def noise(seed, count):
    """Uniform numbers in [-0.5, 0.5) from a linear congruential generator modulo 2^32 (Numerical Recipes, 7.1)."""
    values = np.empty(count)
    state = seed
    for i in range(count):
        state = (1664525 * state + 1013904223) % 2**32
        values[i] = state / 2**32 - 0.5
    return values


def record(seed, count, offset=1.0, memory=0.75):
    """Coloured noise about an offset: y[n] = memory y[n-1] + u[n], x = offset + y."""
    y = 0.0
    values = np.empty(count)
    for i, u in enumerate(noise(seed, count)):
        y = memory * y + u
        values[i] = offset + y
    return values


def write(name, cases, by="makeVectors.py"):
    made = {
        "by": f"scripts/reference/{by}",
        "python": platform.python_version(),
        "numpy": np.__version__,
        "scipy": scipy.__version__,
    }
    text = json.dumps({"made": made, "cases": cases}, indent=None, separators=(",", ":"), default=plain)
    FOLDER.mkdir(parents=True, exist_ok=True)
    (FOLDER / f"{name}.json").write_text(text.replace('{"seed"', '\n{"seed"') + "\n")
    print(f"{name}: {len(text)} bytes")


def plain(value):
    if isinstance(value, np.ndarray):
        return value.tolist()
    if isinstance(value, np.generic):
        return value.item()
    raise TypeError(type(value))


def fft():
    cases = []
    for seed, count in enumerate([1, 2, 3, 4, 5, 6, 7, 12, 15, 16, 25, 60, 97, 100, 128, 225, 353, 1000], 1):
        spectrum = np.fft.rfft(record(seed, count))
        cases.append({"seed": seed, "count": count, "re": spectrum.real, "im": spectrum.imag})
    write("fft", cases)


WINDOWS = {
    "hann": "hann",
    "hamming": "hamming",
    "blackman": "blackman",
    "blackman-harris": "blackmanharris",
    "flattop": "flattop",
    "rectangular": "boxcar",
}


def windows():
    cases = []
    for ours, theirs in WINDOWS.items():
        for count in (8, 9, 64):
            cases.append({"seed": 0, "name": ours, "length": count, "shape": signal.get_window(theirs, count, fftbins=True)})
    write("windows", cases)


def welch():
    cases = []
    settings = [
        (1, [1000], 350.0, "hann", 128, 0.5),
        (2, [1000], 350.0, "hann", 100, 0.5),
        (3, [1203], 400.0, "flattop", 97, 0.75),
        (4, [700], 1000.0, "rectangular", 64, 0.0),
        (5, [900], 349.9999994, "blackman-harris", 75, 0.66),
        (6, [300, 420, 90, 255], 350.0, "hamming", 100, 0.5),
        (7, [513], 350.0, "blackman", 512, 0.5),
    ]
    for seed, lengths, rate, window, segment, overlap in settings:
        whole = record(seed, sum(lengths))
        options = dict(fs=rate, window=WINDOWS[window], nperseg=segment, noverlap=int(segment * overlap + 1e-9), detrend="constant")
        density, spectrum, segments = 0.0, 0.0, 0
        start = 0
        for length in lengths:
            piece = whole[start : start + length]
            start += length
            if length < segment:
                continue
            count = (length - segment) // (segment - options["noverlap"]) + 1
            density = density + count * signal.welch(piece, scaling="density", **options)[1]
            spectrum = spectrum + count * signal.welch(piece, scaling="spectrum", **options)[1]
            segments += count
        case = {"seed": seed, "lengths": lengths, "rate": rate, "window": window, "segment": segment, "overlap": overlap}
        cases.append({**case, "segments": segments, "density": density / segments, "spectrum": spectrum / segments})
    write("welch", cases)


def band():
    """Bands by another road: the running integral of the density, interpolated at the edges."""
    cases = []
    for seed, count, rate, segment in [(1, 4000, 350.0, 256), (2, 4000, 400.0, 225)]:
        f, density = signal.welch(record(seed, count), fs=rate, nperseg=segment, noverlap=segment // 2)
        df = f[1]
        edges = np.concatenate(([0.0], f[:-1] + df / 2, [rate / 2]))
        running = np.concatenate(([0.0], np.cumsum(density * df)))
        bands = [(0, rate / 2), (0, 10), (10, 50), (50, 100), (33.3, 33.4), (100, rate / 2), (12.5, 12.5)]
        squares = [np.interp(high, edges, running) - np.interp(low, edges, running) for low, high in bands]
        cases.append({"seed": seed, "count": count, "rate": rate, "segment": segment, "bands": bands, "squares": squares})
    write("band", cases)


def levels():
    cases = []
    for seed, count, offset in [(1, 1, 1.0), (2, 2, 0.0), (3, 999, 1.0), (4, 5000, -40.0), (5, 20000, 0.0)]:
        x = record(seed, count, offset)
        away = x - x.mean()
        constant = count == 1
        cases.append(
            {
                "seed": seed,
                "count": count,
                "offset": offset,
                "mean": x.mean(),
                "rms": np.sqrt(np.mean(away**2)),
                "totalRms": np.sqrt(np.mean(x**2)),
                "peak": np.abs(away).max(),
                "peakToPeak": np.ptp(x),
                "crest": None if constant else np.abs(away).max() / np.sqrt(np.mean(away**2)),
                "kurtosis": None if constant else stats.kurtosis(x, fisher=False),
                "skewness": None if constant else stats.skew(x),
                "p99": np.percentile(np.abs(away), 99),
                "p999": np.percentile(np.abs(away), 99.9),
                "dose350": (np.sum((away * 9.80665) ** 4) / 350.0) ** 0.25,
            }
        )
    write("levels", cases)


def detrend():
    cases = []
    for seed, count in [(1, 2), (2, 101), (3, 300)]:
        x = record(seed, count) + 0.01 * np.arange(count)
        cases.append({"seed": seed, "count": count, "linear": signal.detrend(x, type="linear")})
    write("detrend", cases)


def confidence():
    """Effective averages by the plain double sum over pairs of segments, and chi-square factors."""
    cases = []
    for seed, (window, length, hop, segments) in enumerate(
        [("hann", 100, 50, 20), ("hann", 100, 25, 40), ("rectangular", 64, 64, 10), ("flattop", 90, 20, 7), ("hamming", 51, 17, 1)]
    ):
        w = signal.get_window(WINDOWS[window], length)
        starts = np.arange(segments) * hop
        shapes = np.zeros((segments, starts[-1] + length))
        for row, start in enumerate(starts):
            shapes[row, start : start + length] = w
        rho = (shapes @ shapes.T / np.sum(w**2)) ** 2
        averages = segments**2 / rho.sum()
        dof = 2 * averages
        factors = {str(level): dof / stats.chi2.ppf([0.5 + level / 2, 0.5 - level / 2], dof) for level in (0.8, 0.95, 0.99)}
        case = {"seed": seed, "window": window, "length": length, "hop": hop, "segments": segments}
        cases.append({**case, "averages": averages, "factors": factors})
    write("confidence", cases)


def filters():
    """Sections of butter, and what sosfiltfilt makes of a record with them."""
    cases = []
    settings = [
        ("highpass", 4, [2.0], 350.0),
        ("highpass", 1, [0.5], 350.0),
        ("highpass", 3, [30.0], 100.0),
        ("lowpass", 2, [40.0], 349.9999994),
        ("lowpass", 5, [10.0], 350.0),
        ("lowpass", 8, [100.0], 400.0),
        ("bandpass", 4, [10.0, 50.0], 350.0),
        ("bandpass", 1, [1.0, 100.0], 350.0),
        ("bandpass", 3, [0.5, 150.0], 350.0),
        ("bandpass", 3, [49.0, 51.0], 350.0),
    ]
    for seed, (kind, order, corners, rate) in enumerate(settings, 1):
        sos = signal.butter(order, corners if len(corners) > 1 else corners[0], kind, fs=rate, output="sos")
        y = signal.sosfiltfilt(sos, record(seed, 240))
        cases.append({"seed": seed, "kind": kind, "order": order, "corners": corners, "rate": rate, "sos": sos, "count": 240, "filtered": y})
    write("filters", cases)


def resampling():
    cases = []
    for seed, (up, down, count) in enumerate([(8, 7, 140), (7, 8, 161), (1, 4, 203), (3, 1, 50), (400, 349, 120), (6, 4, 90), (5, 9, 7)], 1):
        x = record(seed, count)
        case = {"seed": seed, "count": count, "up": up, "down": down}
        cases.append({**case, "values": signal.resample_poly(x, up, down, padtype="mean")})
    write("resampling", cases)


def spline():
    cases = []
    for seed, count, rate in [(1, 40, 10.0), (2, 90, 3.7), (3, 2, 5.0), (4, 3, 20.0)]:
        times = np.cumsum(0.1 * (1 + 0.8 * noise(seed + 100, count)))
        x = record(seed, count)
        even = times[0] + np.arange(int((times[-1] - times[0]) * rate) + 1) / rate
        values = interpolate.CubicSpline(times, x, bc_type="natural")(even)
        cases.append({"seed": seed, "count": count, "rate": rate, "values": values})
    write("spline", cases)


WEIGHTINGS = {  # f1, f2, f3, f4, Q4, f5, Q5, f6, Q6
    "wk": (0.4, 100, 12.5, 12.5, 0.63, 2.37, 0.91, 3.35, 0.91),
    "wd": (0.4, 100, 2.0, 2.0, 0.63, None, None, None, None),
    "wf": (0.08, 0.63, None, 0.25, 0.86, 0.0625, 0.80, 0.10, 0.80),
    "wc": (0.4, 100, 8.0, 8.0, 0.63, None, None, None, None),
    "we": (0.4, 100, 1.0, 1.0, 0.63, None, None, None, None),
    "wj": (0.4, 100, None, None, None, 3.75, 0.91, 5.32, 0.91),
    "wh": (10**0.8, 10**3.1, 15.915, 15.915, 0.64, None, None, None, None),
}


def weighting_polynomials(name):
    """Numerator and denominator in s, multiplied out: another road than the product of factors."""
    f1, f2, f3, f4, q4, f5, q5, f6, q6 = WEIGHTINGS[name]
    w = lambda f: 2 * np.pi * f
    q = 1 / np.sqrt(2)
    b = np.array([1.0, 0.0, 0.0])
    a = np.polymul([1.0, w(f1) / q, w(f1) ** 2], [1 / w(f2) ** 2, 1 / (q * w(f2)), 1.0])
    if f4 is not None:
        b = np.polymul(b, [1 / w(f3), 1.0] if f3 is not None else [1.0])
        a = np.polymul(a, [1 / w(f4) ** 2, 1 / (q4 * w(f4)), 1.0])
    if f5 is not None:
        b = np.polymul(b, np.array([1 / w(f5) ** 2, 1 / (q5 * w(f5)), 1.0]) * (f5 / f6) ** 2)
        a = np.polymul(a, [1 / w(f6) ** 2, 1 / (q6 * w(f6)), 1.0])
    return b, a


def weighting():
    cases = []
    for seed, name in enumerate(WEIGHTINGS, 1):
        b, a = weighting_polynomials(name)
        f = np.array([0.02, 0.1, 0.5, 1.0, 2.5, 4.0, 8.0, 16.0, 31.5, 80.0, 250.0, 1000.0])
        h = signal.freqs(b, a, 2 * np.pi * f)[1]
        rate = 350.0
        for count in (200, 151):
            x = record(seed, count)
            whole = signal.freqs(b, a, 2 * np.pi * np.fft.rfftfreq(count, 1 / rate))[1]
            y = np.fft.irfft(np.fft.rfft(x) * whole, count)
            case = {"seed": seed, "count": count, "name": name, "rate": rate}
            cases.append({**case, "frequencies": f, "re": h.real, "im": h.imag, "weighted": y})
    write("weighting", cases)


def integral_factor(f, times, low):
    """1 over (2 pi i f)^n, less a lowpass of 2.4 periods of the low cut: the transform of a sum of cosines."""
    x = 2.4 * f / low
    lowpass = np.sinc(x)
    for k, a in ((1, 1.117), (2, 0.117)):
        lowpass += a / 2 * (np.sinc(x - k) + np.sinc(x + k))
    factor = np.zeros(len(f), complex)
    factor[1:] = ((1 - lowpass[1:]) / (2j * np.pi * f[1:])) ** times
    return factor


def integration():
    cases = []
    for seed, count, times, low in [(1, 200, 1, 2.0), (2, 151, 2, 5.0), (3, 300, 1, 10.0)]:
        rate = 350.0
        f = np.fft.rfftfreq(count, 1 / rate)
        y = np.fft.irfft(np.fft.rfft(record(seed, count)) * integral_factor(f, times, low), count)
        cases.append({"seed": seed, "count": count, "times": times, "lowCut": low, "rate": rate, "values": y})
    write("integration", cases)


def running():
    cases = []
    for seed, count, length in [(1, 300, 50), (2, 101, 101), (3, 240, 7), (4, 20, 1)]:
        x = record(seed, count)
        values = np.sqrt(np.convolve(x**2, np.ones(length) / length, "valid"))
        cases.append({"seed": seed, "count": count, "length": length, "values": values})
    write("running", cases)


def spectrograms():
    cases = []
    for seed, count, window, segment, overlap in [(1, 700, "hann", 64, 32), (2, 500, "blackman", 45, 22)]:
        options = dict(fs=350.0, window=WINDOWS[window], nperseg=segment, noverlap=overlap, detrend="constant")
        _, times, density = signal.spectrogram(record(seed, count), mode="psd", **options)
        case = {"seed": seed, "count": count, "window": window, "segment": segment, "overlap": overlap / segment}
        cases.append({**case, "times": times, "density": density.T.ravel()})
    write("spectrograms", cases)


def transfers():
    cases = []
    for seed, count, segment in [(1, 3000, 100), (2, 2000, 75)]:
        x = record(seed, count)
        y = signal.lfilter([0.5, 0.3], [1.0, -0.6], x) + 0.2 * noise(seed + 50, count)
        options = dict(fs=350.0, window="hann", nperseg=segment, noverlap=segment // 2, detrend="constant")
        xy = signal.csd(x, y, **options)[1]
        xx = signal.welch(x, **options)[1]
        yy = signal.welch(y, **options)[1]
        case = {"seed": seed, "count": count, "segment": segment, "h1": np.abs(xy) / xx, "h2": yy / np.abs(xy), "phase": np.angle(xy)}
        cases.append({**case, "coherence": signal.coherence(x, y, **options)[1]})
    write("transfers", cases)


def weightings():
    """Wb and Wm by the parameters of ISO 8041 as one analogue transfer function, at third octaves and between them."""
    parameters = {
        "wb": (0.4, 100, 16, 16, 0.55, (2.5, 0.9, 4, 0.95), 1.024),
        "wm": (10**-0.1, 100, 1 / (0.028 * 2 * np.pi), 1 / (0.028 * 2 * np.pi), 0.5, None, 1),
    }
    cases = []
    for name, (f1, f2, f3, f4, q4, step, gain) in parameters.items():
        w1, w2, w3, w4 = (2 * np.pi * f for f in (f1, f2, f3, f4))
        above = [gain, 0, 0]
        below = np.polymul([1, np.sqrt(2) * w1, w1**2], [1 / w2**2, np.sqrt(2) / w2, 1])
        above = np.polymul(above, [1 / w3, 1])
        below = np.polymul(below, [1 / w4**2, 1 / (q4 * w4), 1])
        if step:
            w5, w6 = 2 * np.pi * step[0], 2 * np.pi * step[2]
            above = np.polymul(above, np.array([1 / w5**2, 1 / (step[1] * w5), 1]) * (w5 / w6) ** 2)
            below = np.polymul(below, [1 / w6**2, 1 / (step[3] * w6), 1])
        frequencies = 10 ** (np.arange(-20, 53) / 20)
        factors = np.abs(signal.freqs(above, below, 2 * np.pi * frequencies)[1])
        cases += [{"seed": 0, "name": name, "frequency": f, "factor": h} for f, h in zip(frequencies, factors)]
    write("weightings", cases)


MAKERS = [
    fft,
    windows,
    welch,
    band,
    levels,
    detrend,
    confidence,
    filters,
    resampling,
    spline,
    weighting,
    integration,
    running,
    spectrograms,
    transfers,
    weightings,
]

if __name__ == "__main__":
    wanted = sys.argv[1:]
    for make in MAKERS:
        if not wanted or make.__name__ in wanted:
            make()
