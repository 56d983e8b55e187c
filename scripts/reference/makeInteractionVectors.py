"""Interactions of condition and stratum by numpy's least squares and scipy's F, of made-up runs.

test/published/interaction.test.ts compares. Run with Debian 12's python3-scipy:
python3 scripts/reference/makeInteractionVectors.py > test/published/vectors/interaction.json
"""
import json

import numpy as np
import scipy
from scipy import stats


def residual(x, y):
    beta, _, rank, _ = np.linalg.lstsq(x, y, rcond=None)
    e = y - x @ beta
    return e @ e, rank


def interaction(condition, stratum, nuisance, y):
    """The model with a change a stratum against the model with one change."""
    cells = [(condition == c) & (stratum == s) for c in sorted(set(condition)) for s in sorted(set(stratum))]
    one = [condition == 'b'] + [stratum == s for s in sorted(set(stratum))]
    alike, rank_alike = residual(np.column_stack(one + nuisance).astype(float), y)
    apart, rank_apart = residual(np.column_stack(cells + nuisance).astype(float), y)
    df = rank_apart - rank_alike, len(y) - rank_apart
    f = ((alike - apart) / df[0]) / (apart / df[1])
    return {'f': f, 'df': [int(d) for d in df], 'p': float(stats.f.sf(f, *df))}


def study(name, counts, nuisance, random):
    """@param counts runs of a and of b in each stratum"""
    condition, stratum, place = [], [], []
    for k, (a, b) in enumerate(counts):
        order = random.permutation(['a'] * a + ['b'] * b)
        condition += list(order)
        stratum += [f's{k}'] * (a + b)
        place += list(range(1, a + b + 1))
    condition, stratum, place = np.array(condition), np.array(stratum), np.array(place, float)
    shift = {f's{k}': 0.08 * random.standard_normal() for k in range(len(counts))}
    y = 0.05 * random.standard_normal(len(place)) + 0.02 * place
    y += np.where(condition == 'b', -0.1 + np.array([shift[s] for s in stratum]), 0) + (stratum == 's1') * 0.4
    columns = {'none': [], 'straight': [place], 'curved': [place, place**2]}[nuisance]
    return {
        'name': name, 'condition': list(condition), 'stratum': list(stratum), 'nuisance': [list(c) for c in columns],
        'y': [float(v) for v in y], **interaction(condition, stratum, columns, y),
    }


random = np.random.default_rng(7)
print(json.dumps({
    'made_with': {'numpy': np.__version__, 'scipy': scipy.__version__},
    'studies': [
        study('2 strata, 4 runs in each cell', [(4, 4)] * 2, 'none', random),
        study('3 strata, 2 runs in each cell', [(2, 2)] * 3, 'none', random),
        study('3 strata with unequal cells', [(4, 3), (2, 5), (3, 3)], 'none', random),
        study('2 strata, a straight drift', [(4, 4)] * 2, 'straight', random),
        study('3 strata with unequal cells, a curved drift', [(6, 7), (6, 6), (8, 6)], 'curved', random),
    ],
    'survivals': [[f, a, b, float(stats.f.sf(f, a, b))] for f in (0, 0.3, 1, 4.07, 25, 400) for a, b in ((1, 4), (2, 11), (5, 2.5))],
}, indent=1))
