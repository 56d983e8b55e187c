"""Makes test/published/vectors/distributions.json: reference values of the distributions.

Run with Debian's packages:  python3 scripts/reference/makeDistributionVectors.py
Values are computed with mpmath at 40 digits, from the definitions and not from the formulas under test;
scipy computes each once more, and the run fails where the two part by more than scipy's known accuracy.
"""
import json
import os
import platform

import mpmath as mp
import scipy
from scipy import stats

mp.mp.dps = 40
HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, '..', '..', 'test', 'published', 'vectors', 'distributions.json')


def number(value):
    return float(mp.nstr(value, 20))


def close(ours, scipys, tolerance, what):
    if scipys is not None and ours != 0 and abs(float(ours) / scipys - 1) > tolerance:
        raise SystemExit(f'{what}: mpmath {mp.nstr(ours, 17)} but scipy {scipys!r}')


def root(f, guess):
    """The zero of f(ln x), by the secant method from scipy's answer."""
    start = mp.log(mp.mpf(guess))
    return mp.exp(mp.findroot(lambda u: f(mp.exp(u)), (start, start + mp.mpf('1e-9')), tol=mp.mpf('1e-50'), verify=False))


def normal():
    upper = lambda z: mp.erfc(z / mp.sqrt(2)) / 2
    tails = []
    for z in [0.0, 1e-8, 0.1, 0.5, 1.0, 1.6448536269514722, 1.959963984540054, 2.5, 4.0, 6.0, 10.0, 20.0, 37.0]:
        value = upper(mp.mpf(z))
        close(value, stats.norm.sf(z), 1e-12, f'normal sf({z})')
        tails.append([z, number(1 - value), number(value)])
    quantiles = []
    for q in [1e-300, 1e-100, 1e-20, 1e-8, 1e-4, 0.005, 0.025, 0.05, 0.2, 0.3, 0.45, 0.499999]:
        guess = stats.norm.isf(q)
        value = mp.findroot(lambda z: mp.log(upper(z)) - mp.log(mp.mpf(q)), guess, tol=mp.mpf('1e-50'), verify=False)
        close(value, guess, 1e-10, f'normal isf({q})')
        quantiles.append([q, number(value)])
    return {'tails': tails, 'upperQuantiles': quantiles}


def chi_square_upper(x, df):
    return mp.gammainc(mp.mpf(df) / 2, mp.mpf(x) / 2, mp.inf, regularized=True)


def chi_square_lower(x, df):
    return mp.gammainc(mp.mpf(df) / 2, 0, mp.mpf(x) / 2, regularized=True)


def chi_square():
    tails, quantiles = [], []
    for df in [0.1, 0.5, 1, 2, 3, 4.7, 10, 30, 79.6, 159.26, 500, 1e4]:
        for ratio in [1e-6, 0.1, 0.5, 0.9, 1.0, 1.1, 1.5, 3.0, 8.0]:
            x = df * ratio
            lower, upper = chi_square_lower(x, df), chi_square_upper(x, df)
            if min(lower, upper) < mp.mpf('1e-290'):
                continue
            close(upper, stats.chi2.sf(x, df), 1e-9, f'chi-square sf({x}, {df})')
            tails.append([x, df, number(lower), number(upper)])
        for p in [1e-12, 1e-4, 0.025, 0.3, 0.5]:
            guess = stats.chi2.ppf(p, df)
            if guess > 1e-290:
                value = root(lambda x: mp.log(chi_square_lower(x, df)) - mp.log(mp.mpf(p)), guess)
                close(value, guess, 1e-9, f'chi-square ppf({p}, {df})')
                quantiles.append([p, df, number(value)])
    return {'tails': tails, 'quantiles': quantiles}


def beta_lower(a, b, odds):
    """I_x(a, b) for x <= 1/2 from its odds x/y, by the hypergeometric series, which has positive terms in this form."""
    x, y = odds / (1 + odds), 1 / (1 + odds)
    kernel = mp.exp(a * mp.log(x) + b * mp.log(y) - mp.log(a) - mp.loggamma(a) - mp.loggamma(b) + mp.loggamma(a + b))
    total, term, k, least = mp.mpf(0), mp.mpf(1), 0, mp.eps / 100
    while term > total * least or x * (a + b + k) > a + 1 + k:
        total += term
        term *= x * (a + b + k) / (a + 1 + k)
        k += 1
    return kernel * total


def beta_tails(a, b, odds):
    """Both tails; one is the complement of the other, so the digits carried allow for the smallest tail kept."""
    with mp.workdps(340):
        a, b, odds = mp.mpf(a), mp.mpf(b), mp.mpf(odds)
        if odds <= 1:
            lower = beta_lower(a, b, odds)
            return lower, 1 - lower
        upper = beta_lower(b, a, 1 / odds)
        return 1 - upper, upper


def student_t():
    upper = lambda t, df: beta_tails(mp.mpf(1) / 2, mp.mpf(df) / 2, mp.mpf(t) ** 2 / df)[1] / 2
    tails, quantiles = [], []
    for df in [0.5, 1, 2, 3.549, 4, 5.9, 10, 30.25, 120, 1000, 1e5, 1e9]:
        for t in [1e-9, 0.01, 0.7, 1.0, 2.0, 3.5, 8.0, 30.0, 1000.0]:
            value = upper(t, df)
            if value < mp.mpf('1e-290'):
                continue
            # scipy 1.10 loses digits in the far tail for large df
            close(value, stats.t.sf(t, df), 1e-7, f't sf({t}, {df})')
            tails.append([t, df, number(1 - value), number(value)])
        for q in [1e-15, 1e-8, 1e-4, 0.005, 0.025, 0.05, 0.1, 0.2, 0.3, 0.45, 0.4999]:
            guess = stats.t.isf(q, df)
            value = root(lambda t: mp.log(upper(t, df)) - mp.log(mp.mpf(q)), guess)
            close(value, guess, 1e-7, f't isf({q}, {df})')
            quantiles.append([q, df, number(value)])
    return {'tails': tails, 'upperQuantiles': quantiles}


def mean_over_chi(df, delta, g):
    """The mean of g(S) over S = sqrt(chi-square/df), by Gauss-Legendre quadrature in ln S over where the integrand lives."""
    scale = mp.log(2) + df / 2 * mp.log(df / 2) - mp.loggamma(df / 2)
    integrand = lambda u: mp.exp(scale + df * u - df * mp.exp(2 * u) / 2) * g(mp.exp(u))
    grid = [mp.mpf(k) / 50 for k in range(-3000, 120)] if df < 20 else [mp.mpf(k) / 400 for k in range(-800, 800)]
    values = [integrand(u) for u in grid]
    most = max(values)
    inside = [u for u, value in zip(grid, values) if value > most * mp.mpf('1e-18')]
    step = grid[1] - grid[0]
    low, high = inside[0] - step, inside[-1] + step
    # Narrow enough for the step of Phi, whose width in ln S is 1/delta.
    panels = int((high - low) * (1 + abs(delta) / 4) * max(1, mp.sqrt(df) / 4)) + 8
    cuts = [low + (high - low) * k / panels for k in range(panels + 1)]
    total, error = mp.quad(lambda u: integrand(u) / most, cuts, method='gauss-legendre', error=True, maxdegree=5)
    if not error < total * mp.mpf('1e-12'):
        raise SystemExit(f'noncentral t quadrature fails at df {df}: {error} of {total}')
    return total * most


def noncentral_t_tails(t, df, delta):
    """The means of Phi(t S - delta) and of its complement."""
    t, df, delta = mp.mpf(t), mp.mpf(df), mp.mpf(delta)
    phi = lambda z: mp.erfc(-z / mp.sqrt(2)) / 2
    lower = mean_over_chi(df, delta, lambda s: phi(t * s - delta))
    upper = mean_over_chi(df, delta, lambda s: phi(delta - t * s))
    if abs(lower + upper - 1) > mp.mpf('1e-16'):
        raise SystemExit(f'noncentral t quadrature fails at {t}, {df}, {delta}')
    return lower, upper


def noncentral_t():
    mp.mp.dps = 25
    tails = []
    for df in [1.5, 4, 6, 10.3, 58, 400]:
        for delta in [-2.0, 0.5, 2.8, 6.0, 20.0]:
            for t in [-3.0, 0.0, 2.4469118511449697, delta + 1, 2 * delta + 8]:
                lower, upper = noncentral_t_tails(t, df, delta)
                tails.append([t, df, delta, number(lower), number(upper)])
                if lower > 1e-6:
                    close(lower, stats.nct.cdf(t, df, delta), 1e-6, f'noncentral t cdf({t}, {df}, {delta})')
    mp.mp.dps = 40
    return {'tails': tails}


def write(document):
    """JSON with one row a line."""

    def render(value, indent):
        pad = ' ' * indent
        if isinstance(value, dict):
            inner = ',\n'.join(f'{pad}  {json.dumps(key)}: {render(item, indent + 2)}' for key, item in value.items())
            return '{\n' + inner + '\n' + pad + '}'
        if isinstance(value, list) and value and isinstance(value[0], list):
            return '[\n' + ',\n'.join(f'{pad}  {json.dumps(item)}' for item in value) + '\n' + pad + ']'
        return json.dumps(value)

    with open(OUT, 'w', encoding='utf-8') as file:
        file.write(render(document, 0) + '\n')


if __name__ == '__main__':
    os.makedirs(os.path.dirname(OUT), exist_ok=True)
    write({
        'made by': 'scripts/reference/makeDistributionVectors.py',
        'versions': {'python': platform.python_version(), 'mpmath': mp.__version__, 'scipy': scipy.__version__},
        'normal': normal(),
        'chiSquare': chi_square(),
        'studentT': student_t(),
        'noncentralT': noncentral_t(),
    })
