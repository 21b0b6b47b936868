"""Values for control charts beyond the mean and range, computed with scipy and by direct formulas:

    python3 charts.py > ../charts.json

- spread: chance that R or s in control lies beyond a limit, and readings until a moving range does
- attributes: exact binomial and Poisson probability limits by adding up chances, beside 3-sigma limits
- ewma, cusum: the recursions written out over a seeded series
- autocorrelated: points until the first signal of run rules on an AR(1) series, simulated
"""
import json
import platform
import numpy as np
import scipy
from scipy import integrate, stats

random = np.random.default_rng(20260)


def range_above(w, n):
    """P(R > w) of n standard normals: 1 - n * integral of the chance that the others lie within w of the smallest."""
    inside = lambda x: n * stats.norm.pdf(x) * (stats.norm.cdf(x + w) - stats.norm.cdf(x)) ** (n - 1)
    return 1 - integrate.quad(inside, -12, 12, epsabs=1e-14, epsrel=1e-13, limit=400)[0]


def range_moments(n):
    mean = integrate.quad(lambda w: range_above(w, n), 0, 14, epsabs=1e-12, limit=200)[0]
    square = integrate.quad(lambda w: 2 * w * range_above(w, n), 0, 14, epsabs=1e-12, limit=200)[0]
    return mean, np.sqrt(square - mean**2)


def spread_cases():
    cases = []
    for n in (2, 3, 5, 8, 10):
        d2, d3 = range_moments(n)
        c4 = np.sqrt(2 / (n - 1)) * np.exp(scipy.special.gammaln(n / 2) - scipy.special.gammaln((n - 1) / 2))
        deviation = np.sqrt(1 - c4**2)
        low = d2 - 3 * d3
        r = range_above(d2 + 3 * d3, n) + (1 - range_above(low, n) if low > 0 else 0)
        chi = lambda s: (n - 1) * s**2
        low_s = c4 - 3 * deviation
        s = stats.chi2.sf(chi(c4 + 3 * deviation), n - 1) + (stats.chi2.cdf(chi(low_s), n - 1) if low_s > 0 else 0)
        cases.append({"size": n, "rangeBeyond3Sigma": r, "deviationBeyond3Sigma": s})
    return cases


def attribute_cases():
    """The widest whole-number limits whose tails hold at most alpha/2 each."""
    alpha = 2 * stats.norm.sf(3)
    cases = []
    for n, p in ((50, 0.02), (100, 0.05), (200, 0.2), (500, 0.004), (1000, 0.5), (80, 0.97)):
        k = np.arange(n + 1)
        below = np.cumsum(stats.binom.pmf(k, n, p))
        above = stats.binom.sf(k, n, p)
        # lower: the smallest count that is no signal, P(X < lower) <= alpha/2; upper: P(X > upper) <= alpha/2
        lower = int(np.argmax(below > alpha / 2))
        upper = int(np.argmax(above <= alpha / 2))
        cases.append({"kind": "binomial", "n": n, "p": p, "lower": lower, "upper": upper,
                      "falseAlarm": float(stats.binom.cdf(lower - 1, n, p) + stats.binom.sf(upper, n, p))})
    for mean in (0.8, 4.0, 9.5, 16.0, 120.0, 3000.0):
        k = np.arange(int(mean + 12 * np.sqrt(mean) + 20))
        below = stats.poisson.cdf(k, mean)
        above = stats.poisson.sf(k, mean)
        lower = int(np.argmax(below > alpha / 2))
        upper = int(np.argmax(above <= alpha / 2))
        cases.append({"kind": "poisson", "mean": mean, "lower": lower, "upper": upper,
                      "falseAlarm": float(stats.poisson.cdf(lower - 1, mean) + stats.poisson.sf(upper, mean))})
    return cases


def weighted_cases():
    values = np.round(10 + 0.5 * random.standard_normal(40) + np.where(np.arange(40) >= 25, 0.6, 0), 3)
    centre, sigma = 10.0, 0.5
    smoothing, width = 0.2, 2.962
    smoothed, lower, upper = [], [], []
    # Written out: the weights of every past value, not the recursion.
    for i in range(1, len(values) + 1):
        weights = smoothing * (1 - smoothing) ** np.arange(i)
        smoothed.append(float(weights @ values[:i][::-1] + (1 - smoothing) ** i * centre))
        reach = width * sigma * np.sqrt(np.sum(weights**2))
        lower.append(float(centre - reach))
        upper.append(float(centre + reach))
    k, h = 0.5, 4.0
    z = (values - centre) / sigma
    sums = {}
    for name, start in (("zero", 0.0), ("headStart", h / 2)):
        # Written out: the largest of the sums over the last j values, and of the start plus all of them.
        up, down = [], []
        for i in range(1, len(z) + 1):
            for sign, out in ((1, up), (-1, down)):
                parts = np.cumsum((sign * z[:i] - k)[::-1])
                out.append(float(max(0.0, parts.max(), start + parts[-1])))
        sums[name] = {"upper": up, "lower": down}
    return {"values": values.tolist(), "centre": centre, "sigma": sigma,
            "ewma": {"smoothing": smoothing, "width": width, "smoothed": smoothed, "lower": lower, "upper": upper},
            "cusum": {"reference": k, "decisionInterval": h, **sums}}


def first_signal(z, rules):
    """Points up to the first signal along each row; rules as (count, of, distance), one side each."""
    rows, points = z.shape
    first = np.full(rows, points + 1)
    for count, of, distance in rules:
        for side in (z > distance, z < -distance):
            sums = np.cumsum(np.pad(side, ((0, 0), (of, 0))), axis=1)
            inside = sums[:, of:] - sums[:, :-of]
            fires = side & (inside >= count)
            hit = np.where(fires.any(axis=1), fires.argmax(axis=1) + 1, points + 1)
            first = np.minimum(first, hit)
    return first


def autocorrelated_cases():
    western = [(1, 1, 3.0), (2, 3, 2.0), (4, 5, 1.0), (8, 8, 0.0)]
    cases = []
    for r in (0.0, 0.3, 0.6, -0.3):
        runs, points = 20_000, 2500
        lengths = []
        for _ in range(8):
            z = np.empty((runs // 8, points))
            z[:, 0] = random.standard_normal(runs // 8)
            for t in range(1, points):
                z[:, t] = r * z[:, t - 1] + np.sqrt(1 - r * r) * random.standard_normal(runs // 8)
            lengths.append(first_signal(z, western))
        lengths = np.concatenate(lengths)
        assert lengths.max() <= points, "a run was cut off"
        cases.append({"r": r, "averageRunLength": float(lengths.mean()),
                      "standardError": float(lengths.std(ddof=1) / np.sqrt(runs))})
    return cases


print(json.dumps({
    "source": "Computed independently by scripts/charts.py (scipy, numpy)",
    "seen": "computed, not printed anywhere",
    "generatedWith": {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__},
    "spread": spread_cases(),
    "attributes": attribute_cases(),
    "weighted": weighted_cases(),
    "autocorrelated": {"rules": ["beyond-3s", "two-of-three-2s", "four-of-five-1s", "eight-one-side"],
                       "cases": autocorrelated_cases()},
}, indent=1))
