"""Makes test/published/vectors/comparison.json: worked examples of the comparison of runs, and of its planning.

Run with Debian's packages:  python3 scripts/reference/makeComparisonVectors.py
Every figure comes from scipy's and numpy's own routines, not from the formulas under test; scipy 1.10's quantiles of
t and its noncentral t hold only 9 to 11 digits, so these are polished with mpmath, and must agree to those digits.
"""
import json
import os
import platform

import mpmath as mp
import numpy as np
import scipy
from scipy import optimize, stats

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, '..', '..', 'test', 'published', 'vectors', 'comparison.json')

# Three runs of each condition, r.m.s. in g: the worked example. Then less regular ones.
EXAMPLES = {
    'worked example': {'a': [0.300, 0.312, 0.305], 'b': [0.262, 0.255, 0.270], 'orderA': [1, 4, 5], 'orderB': [2, 3, 6]},
    'four and four, ABBA BAAB': {
        'a': [1.02, 1.11, 1.30, 1.19],
        'b': [0.99, 1.04, 1.09, 1.23],
        'orderA': [1, 4, 6, 7],
        'orderB': [2, 3, 5, 8],
    },
    'unequal counts and scatter': {'a': [2.0, 2.1, 2.05, 2.02, 1.98], 'b': [1.1, 2.9, 1.7], 'orderA': [1, 3, 5, 7, 8], 'orderB': [2, 4, 6]},
}


def t_quantile(p, df):
    """The t with P(T <= t) = p > 1/2: scipy's answer, polished with mpmath."""
    start = stats.t.ppf(p, df)
    upper = lambda t: mp.betainc(mp.mpf(df) / 2, mp.mpf(1) / 2, 0, df / (df + t * t), regularized=True) / 2
    value = float(mp.findroot(lambda t: upper(t) - (1 - mp.mpf(p)), start))
    assert abs(value / start - 1) < 1e-8, (p, df, value, start)
    return value


def interval(d, se, df, confidence):
    reach = t_quantile((1 + confidence) / 2, df) * se
    return [float(np.exp(d - reach)), float(np.exp(d + reach))]


def method(d, se, df, p):
    return {
        'difference': float(d), 'standardError': float(se), 'df': float(df), 'p': float(p),
        'ratio': float(np.exp(d)), 'interval95': interval(d, se, df, 0.95), 'interval90': interval(d, se, df, 0.90),
    }


def compare(example):
    a, b = np.log(example['a']), np.log(example['b'])
    d = b.mean() - a.mean()
    out = {}
    welch = stats.ttest_ind(b, a, equal_var=False)
    se = d / welch.statistic
    # Welch's degrees of freedom are those for which scipy's p belongs to its t.
    df = optimize.brentq(lambda v: 2 * stats.t.sf(abs(welch.statistic), v) - welch.pvalue, 0.5, 200, xtol=1e-13)
    out['welch'] = method(d, se, df, welch.pvalue)
    pooled = stats.ttest_ind(b, a)
    out['pooled'] = method(d, d / pooled.statistic, len(a) + len(b) - 2, pooled.pvalue)
    if len(a) == len(b):
        paired = stats.ttest_rel(b, a)
        out['paired'] = method(d, d / paired.statistic, len(a) - 1, paired.pvalue)
    y = np.concatenate([a, b])
    x = np.column_stack([np.ones(len(y)), [0] * len(a) + [1] * len(b), example['orderA'] + example['orderB']])
    beta, residuals, _, _ = np.linalg.lstsq(x, y, rcond=None)
    df = len(y) - 3
    errors = np.sqrt(np.diag(np.linalg.inv(x.T @ x)) * residuals[0] / df)
    out['trend'] = method(beta[1], errors[1], df, 2 * stats.t.sf(abs(beta[1] / errors[1]), df))
    out['trend']['drift'] = {'slope': float(beta[2]), 'p': float(2 * stats.t.sf(abs(beta[2] / errors[2]), df))}
    out['equivalence'] = [
        {'margin': m, 'p': float(max(
            stats.t.sf((out['welch']['difference'] + np.log1p(m)) / out['welch']['standardError'], out['welch']['df']),
            stats.t.sf((np.log1p(m) - out['welch']['difference']) / out['welch']['standardError'], out['welch']['df'])))}
        for m in (0.05, 0.10, 0.25)
    ]
    return {**example, **out}


def power_by_scipy(effect, n, alpha=0.05):
    df, ncp = 2 * n - 2, effect / np.sqrt(2 / n)
    t = stats.t.ppf(1 - alpha / 2, df)
    return np.nan_to_num(stats.nct.sf(t, df, ncp)) + np.nan_to_num(stats.nct.cdf(-t, df, ncp))


def power(effect, n, alpha=0.05):
    """The chance that |T| exceeds its limit: 1 minus the mean of Phi(tS - ncp) - Phi(-tS - ncp) over S = sqrt(chi2/df)."""
    df, ncp = 2 * n - 2, mp.mpf(effect) * mp.sqrt(mp.mpf(n) / 2)
    t = mp.mpf(t_quantile(1 - alpha / 2, df))
    log_scale = mp.log(2) + mp.mpf(df) / 2 * mp.log(mp.mpf(df) / 2) - mp.loggamma(mp.mpf(df) / 2)
    density = lambda s: mp.exp(log_scale + (df - 1) * mp.log(s) - df * s * s / 2)
    width = 1 / mp.sqrt(2 * df)
    cuts = [c for c in (1 + k * width for k in range(-12, 13, 3)) if c > 0] + [1 + 20 * width]
    missed = mp.quad(lambda s: density(s) * (mp.ncdf(t * s - ncp) - mp.ncdf(-t * s - ncp)), [0] + cuts)
    value = float(1 - missed)
    assert abs(value - power_by_scipy(effect, n)) < 1e-7, (effect, n, value)
    return value


def smallest_reduction(s, n):
    start = optimize.brentq(lambda x: power_by_scipy(x, n) - 0.8, 0.01, 40, xtol=1e-9)
    effect = optimize.newton(lambda x: power(x, n) - 0.8, start, x1=start * (1 + 1e-6), tol=1e-12)
    return float(100 * (1 - np.exp(-effect * s)))


def planning():
    spreads, runs = [0.02, 0.03, 0.05, 0.08, 0.10], [2, 3, 4, 5, 6, 8, 10, 12]
    return {
        'spreads': spreads, 'runs': runs,
        'smallestReductionPercent': [[smallest_reduction(s, n) for n in runs] for s in spreads],
        'power': [[d, n, float(power(d, n))] for d in (0.3, 1.0, 2.5) for n in (3, 4, 8, 30)],
    }


if __name__ == '__main__':
    document = {
        'made by': 'scripts/reference/makeComparisonVectors.py',
        'versions': {'python': platform.python_version(), 'mpmath': mp.__version__, 'numpy': np.__version__, 'scipy': scipy.__version__},
        'examples': {name: compare(example) for name, example in EXAMPLES.items()},
        'planning': planning(),
    }
    with open(OUT, 'w', encoding='utf-8') as file:
        json.dump(document, file, indent=1)
        file.write('\n')
