"""Takes the figures of the sample study of three pads with numpy and scipy, from its recordings and its run sheet.

test/samples/threePadsFigures.test.ts compares them with what the notebook gives. Run from anywhere:

    python3 scripts/reference/makeThreePadsVectors.py > test/published/vectors/threePads.json

Nothing here follows the program's own steps: densities are scipy's, the model is fitted by numpy's least squares on
indicator columns, and the degrees of freedom come from the mean and variance of the variance estimate as a quadratic
form of independent normal readings (Searle 1971, Linear Models, 2.5).
"""
import csv
import gzip
import json
import math
import os

import numpy as np
import scipy
from scipy import signal, stats

RAW = os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', '..', 'samples', 'three-pads')
RATE = 200.0
BANDS = [(10, 50), (4, 10)]
EXPONENT, UNCERTAINTY = 0.5, 0.2
CONDITIONS, SURFACES = ['foam', 'gel', 'air'], ['brick', 'tile']
ALPHA = 0.05


def band_rms(path):
    with gzip.open(path, 'rt') as text:
        z = np.array([float(line) for line in text.read().split('\n')[2:] if line])
    z = z[int(6 * RATE):int(30 * RATE)]
    f, p = signal.welch(z, RATE, window='hann', nperseg=int(2 * RATE), noverlap=int(RATE), detrend='constant')
    df = f[1]
    levels = []
    for low, high in BANDS:
        covered = np.clip(np.minimum(f + df / 2, high) - np.maximum(f - df / 2, low), 0, None)
        levels.append(math.sqrt(np.sum(p * covered)))
    return levels


with open(os.path.join(RAW, 'runs.csv'), newline='', encoding='utf8') as text:
    sheet = list(csv.DictReader(text))
levels = np.log([band_rms(os.path.join(RAW, line['file'])) for line in sheet])
condition = np.array([line['condition'] for line in sheet])
surface = np.array([line['surface'] for line in sheet])
place = np.array([float(line['order']) for line in sheet])
speed = np.log([float(line['speed (m/s)']) for line in sheet])


def change(y, wanted, kept):
    """The mean over surfaces of ln wanted - ln foam, one straight drift and one mean and variance a cell of the runs kept."""
    y, v, cells = y[kept], speed[kept], np.char.add(condition[kept], surface[kept])
    names = sorted(set(cells))
    on = [one for one in SURFACES if one in set(surface[kept])]
    x = np.column_stack([(cells == name).astype(float) for name in names] + [place[kept]])
    pick = np.zeros(x.shape[1])
    for one in on:
        pick[names.index(wanted + one)] += 1 / len(on)
        pick[names.index('foam' + one)] -= 1 / len(on)
    w = pick @ np.linalg.pinv(x)
    d = w @ (y - EXPONENT * v)
    m = np.eye(len(y)) - x @ np.linalg.pinv(x)
    groups = [np.diag((cells == name).astype(float)) for name in names]
    # The variances that make each group's residual sum of squares equal to its expectation.
    t = np.array([[np.trace(m @ g @ m @ h) for h in groups] for g in groups])
    shares = np.array([w @ g @ w for g in groups])
    coefficients = np.linalg.solve(t, shares)
    e = m @ (y - EXPONENT * v)
    variances = np.linalg.solve(t, [e @ g @ e for g in groups])
    variances = np.maximum(variances, 1e-9 * (e @ e))
    k = m @ sum(c * g for c, g in zip(coefficients, groups)) @ m
    sigma = sum(s * g for s, g in zip(variances, groups))
    variance = shares @ variances
    df = np.trace(k @ sigma) ** 2 / np.trace(k @ sigma @ k @ sigma)
    # By how much the change moves with the power of the speed.
    return d, variance, df, w @ v


def interaction(y, wanted, family):
    """The model with a change a surface against that with one change, of the runs of foam and wanted alone."""
    kept = (condition == 'foam') | (condition == wanted)
    y, on, to = (y - EXPONENT * speed)[kept], surface[kept], (condition[kept] == wanted).astype(float)
    alike = [to] + [(on == one).astype(float) for one in SURFACES] + [place[kept].astype(float)]
    apart = alike + [to * (on == one) for one in SURFACES[1:]]

    def squares(columns):
        x = np.column_stack(columns)
        e = y - x @ np.linalg.lstsq(x, y, rcond=None)[0]
        return e @ e

    free = len(y) - len(apart)
    f = (squares(alike) - squares(apart)) / (squares(apart) / free)
    p = stats.f.sf(f, 1, free)
    return {'interaction_f': f, 'interaction_p': p, 'interaction_p_adjusted': min(1, family * p)}


def row(y, wanted, one, family):
    kept = np.ones(len(sheet), bool) if one is None else surface == one
    d, variance, df, apart = change(y, wanted, kept)
    own = (UNCERTAINTY * apart) ** 2
    se = math.sqrt(variance + own)
    # Welch and Satterthwaite: the uncertainty that is stated is taken as known. Its degrees of freedom may close the interval
    # below that of the runs alone, of which the wider counts (Ballico 2000, Metrologia 37(1)).
    errors = [(se, se**4 / (variance**2 / df)), (math.sqrt(variance), df)]
    reach = max(stats.t.ppf(1 - ALPHA / (2 * family), free) * error for error, free in errors)
    p = max(2 * stats.t.sf(abs(d) / error, free) for error, free in errors)
    return {
        'change_percent': 100 * math.expm1(d), 'low_percent': 100 * math.expm1(d - reach),
        'high_percent': 100 * math.expm1(d + reach), 'p': p, 'p_adjusted': min(1, family * p),
        **(interaction(y, wanted, family) if one is None else {}),
    }


rows = []
for band, (low, high) in enumerate(BANDS):
    for one in [None] + SURFACES:
        for wanted in CONDITIONS[1:]:
            # Two changes hold together in the primary band and in the other; eight within surfaces.
            family = 2 if one is None else 8
            figures = row(levels[:, band], wanted, one, family)
            rows.append({'from_hz': low, 'to_hz': high, 'condition': wanted, 'stratum': one or 'all', **figures})
print(json.dumps({
    'made_with': {'numpy': np.__version__, 'scipy': scipy.__version__},
    'levels': [{'run': line['file'], 'rms': [float(math.exp(level)) for level in levels[k]]} for k, line in enumerate(sheet)],
    'rows': rows,
}, indent=1))
