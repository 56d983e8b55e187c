"""The study of test/bench/study.bench.ts as a plain script: `study.py FOLDER PROCESSES`. Reads with pandas where it is there, else with
numpy, takes Welch's averages from scipy where it is there, else from numpy, and prints the changes and what it took."""

import glob
import json
import os
import resource
import sys
import time
from multiprocessing import Pool

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
import numpy as np

try:
    import pandas
except ImportError:
    pandas = None
try:
    from scipy import signal
except ImportError:
    signal = None

BANDS = [(4, 10), (10, 50), (50, 100)]


def columns(path):
    if pandas is not None:
        frame = pandas.read_csv(path)
        return frame["time"].to_numpy(), frame["z"].to_numpy()
    rows = np.loadtxt(path, delimiter=",", skiprows=1, usecols=(0, 3))
    return rows[:, 0], rows[:, 1]


def welch(samples, rate, segment):
    if signal is not None:
        return signal.welch(samples, fs=rate, window="hann", nperseg=segment, noverlap=segment // 2)
    window = 0.5 - 0.5 * np.cos(2 * np.pi * np.arange(segment) / segment)
    starts = range(0, len(samples) - segment + 1, segment - segment // 2)
    blocks = np.array([samples[s : s + segment] for s in starts])
    power = np.abs(np.fft.rfft((blocks - blocks.mean(axis=1, keepdims=True)) * window)) ** 2
    density = power.mean(axis=0) / (rate * (window**2).sum())
    density[1:-1] *= 2
    return np.fft.rfftfreq(segment, 1 / rate), density


def levels(path):
    t, z = columns(path)
    rate = (len(t) - 1) / (t[-1] - t[0])
    frequency, density = welch(z[(t >= 5) & (t < 80)], rate, round(2 * rate))
    step = frequency[1]
    return [float(np.sqrt(density[(frequency >= low) & (frequency < high)].sum() * step)) for low, high in BANDS]


def main(folder, processes):
    began = time.perf_counter()
    sides = [sorted(glob.glob(f"{folder}/raw/{side}-*.csv")) for side in "ab"]
    with Pool(processes) as pool:
        found = np.log(np.array(pool.map(levels, sides[0] + sides[1], chunksize=4)))
    a, b = found[: len(sides[0])], found[len(sides[0]) :]
    change = np.exp(b.mean(axis=0) - a.mean(axis=0)) - 1
    own, children = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    cpu = sum(one.ru_utime + one.ru_stime for one in (own, children))
    # Of the processes together, as each holds its own.
    peak = own.ru_maxrss / 1024 + processes * children.ru_maxrss / 1024
    usage = {"wall": 1000 * (time.perf_counter() - began), "cpu": 1000 * cpu, "peak": peak}
    tools = {one.__name__.split(".")[0]: sys.modules[one.__name__.split(".")[0]].__version__ for one in (np, pandas, signal) if one}
    print(json.dumps({"changes": change.tolist(), "tools": tools, **usage}))


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]))
