"""Times scipy for test/bench in processor time: reads one job a line, answers with one line of JSON each, until its input ends."""

import json
import statistics
import sys
import time

import numpy as np
import scipy
from scipy import signal

print(json.dumps({"scipy": scipy.__version__, "numpy": np.__version__, "python": sys.version.split()[0]}), flush=True)

records = {}


def record(count):
    if count not in records:
        records.clear()
        records[count] = np.random.default_rng(1).standard_normal(count) + 1.0
    return records[count]


def welch(count, segment):
    signal.welch(record(count), fs=350.0, window="hann", nperseg=segment, noverlap=segment // 2, detrend="constant")


def highpass(count):
    sos = signal.butter(4, 2.0, "highpass", fs=350.0, output="sos")
    signal.sosfiltfilt(sos, record(count))


JOBS = {"welch": welch, "highpass": highpass}

for line in sys.stdin:
    job = json.loads(line)
    run = lambda: JOBS[job["name"]](*job["arguments"])
    record(job["arguments"][0])
    times = []
    for _ in range(job["repeats"]):
        start = time.process_time()
        run()
        times.append(1000 * (time.process_time() - start))
    print(json.dumps({"times": times, "median": statistics.median(times)}), flush=True)
