"""Charts of counts on samples of varying size, computed with scipy:

    python3 varying_counts.py > ../varying-counts.json

- rate: all counts over all sizes
- limits: rate +- 3 standard errors of each sample, cut at what is possible, from scipy's standard deviations of the
  binomial and the Poisson distribution
- pearson: the chi-square statistic of homogeneity, by scipy's test of a contingency table (pieces) or of expected
  counts (units): the sum of the squares of what every sample lies off the rate, in its own sigma
- exact: per sample size the widest counts with at most 0.135 % beyond on either side

The data are recalled from D. C. Montgomery, Introduction to Statistical Quality Control (purchase orders; dyed cloth). He
prints a centre line of 0.096 with the eleventh sample above its limit, and one of 1.42 with limits of 0.29 and 2.55 for
the first roll. All of that is from memory.
"""
import json
import platform
import numpy as np
import scipy
from scipy import stats

TAIL = 0.00135

orders = {
    "sizes": [100, 80, 80, 100, 110, 110, 100, 100, 90, 90, 110, 120, 120,
              120, 110, 80, 80, 80, 90, 100, 100, 100, 100, 90, 90],
    "counts": [12, 8, 6, 9, 10, 12, 11, 16, 10, 6, 20, 15, 9, 8, 6, 8, 10, 7, 5, 8, 5, 8, 10, 6, 9],
}
cloth = {
    "sizes": [10, 8, 13, 10, 9.5, 10, 12, 10.5, 12, 12.5],
    "counts": [14, 12, 20, 11, 7, 10, 21, 16, 19, 23],
}


def exact(law, most):
    """Widest counts with at most TAIL beyond on either side: a count at a limit is no signal."""
    lower = max((k for k in range(0, most + 1) if law.cdf(k - 1) <= TAIL), default=0)
    upper = min(k for k in range(0, most + 1) if law.sf(k) <= TAIL)
    return [int(lower), int(upper)]


def of(data, ofPieces):
    sizes, counts = np.array(data["sizes"], float), np.array(data["counts"], float)
    rate = counts.sum() / sizes.sum()
    law = (lambda n: stats.binom(int(n), rate)) if ofPieces else (lambda n: stats.poisson(n * rate))
    spread = np.array([law(n).std() / n for n in sizes])
    upper = np.minimum(rate + 3 * spread, 1 if ofPieces else np.inf)
    if ofPieces:
        pearson = stats.chi2_contingency(np.array([counts, sizes - counts]), correction=False)[0]
    else:
        pearson = stats.chisquare(counts, sizes * rate)[0]
    return {
        **data,
        "rate": rate,
        "lower": list(np.maximum(rate - 3 * spread, 0)),
        "upper": list(upper),
        "pearson": pearson,
        "exact": [[n, *exact(law(n), 200)] for n in sorted(set(data["sizes"]))],
    }


print(json.dumps({
    "source": "Data of Montgomery, Introduction to Statistical Quality Control (from memory); figures computed independently by scripts/varying_counts.py (scipy, numpy)",
    "seen": "computed; data from memory",
    "generatedWith": {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__},
    "orders": of(orders, True),
    "cloth": of(cloth, False),
}, indent=1))
