"""Run length of an EWMA chart with exact limits, simulated: a second opinion on one value of arl.json.

arl.json gives 489.08 +- 2.18 for lambda 0.4, L 3.054 in control. With another seed and ten times the runs,
    python3 ewma_exact_limits.py > ../ewma-exact-limits.json
"""
import json
import platform
import numpy as np

SEED, RUNS, SMOOTHING, WIDTH = 99, 2_000_000, 0.4, 3.054


def run_lengths(random, runs):
    z = np.zeros(runs)
    silent = np.arange(runs)
    lengths = np.zeros(runs)
    t = 0
    while silent.size:
        t += 1
        z = SMOOTHING * random.standard_normal(silent.size) + (1 - SMOOTHING) * z
        limit = WIDTH * np.sqrt(SMOOTHING / (2 - SMOOTHING) * (1 - (1 - SMOOTHING) ** (2 * t)))
        out = np.abs(z) > limit
        lengths[silent[out]] = t
        silent, z = silent[~out], z[~out]
    return lengths


random = np.random.default_rng(SEED)
lengths = np.concatenate([run_lengths(random, RUNS // 4) for _ in range(4)])
print(json.dumps({
    "source": "Simulated independently by scripts/ewma_exact_limits.py",
    "seen": "computed, not printed anywhere",
    "generatedWith": {"python": platform.python_version(), "numpy": np.__version__},
    "seed": SEED,
    "smoothing": SMOOTHING,
    "width": WIDTH,
    "shift": 0,
    "runs": RUNS,
    "averageRunLength": lengths.mean(),
    "standardError": lengths.std(ddof=1) / np.sqrt(RUNS),
}, indent=1))
