"""Normal order statistic medians and bands of order statistics, computed with scipy:

    python3 probability_plot.py > ../probability-plot.json

- medians: scipy.stats.probplot, which documents Filliben's positions
- band: quantiles of the Beta(i, n - i + 1) distribution of the i-th smallest, on the normal scale
"""
import json
import scipy
from scipy import stats

SIZES = (3, 5, 24, 200)
cases = []
for n in SIZES:
    medians = stats.probplot([float(i) for i in range(n)])[0][0]
    ranks = sorted({1, 2, n // 2, n - 1, n})
    band = {
        str(i): [float(stats.norm.ppf(stats.beta.ppf(p, i, n - i + 1))) for p in (0.025, 0.975)] for i in ranks
    }
    cases.append({"count": n, "medians": [float(z) for z in medians], "band": band})

print(
    json.dumps(
        {
            "title": "Places of readings on a normal probability plot and their 95 % band",
            "source": f"Computed with scipy {scipy.__version__}: stats.probplot (Filliben's estimate) and stats.beta.ppf",
            "seen": "computed, not printed anywhere; script scripts/probability_plot.py",
            "tolerance": "1e-9 relative",
            "cases": cases,
        },
        indent=1,
    )
)
