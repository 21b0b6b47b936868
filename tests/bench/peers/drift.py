#!/usr/bin/env python3
"""Which feature depends on which source, feature by feature: what people script without a scan.

  drift.py IN.csv OUT.json --engine statsmodels|numpy

For every feature a linear model on lot, fixture and tool with type II sums of squares and a p-value for each source;
p-values over all features are adjusted after Benjamini and Hochberg (1995). Both engines give the same figures:
"statsmodels" as most would write it, a formula for each feature; "numpy" with one orthogonal decomposition for all
features of a part that were measured on the same pieces. Needs pandas and scipy, and statsmodels for its engine.
"""
import os

for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(name, "1")  # so that processor time and the clock compare
import argparse
import json

import numpy as np
import pandas as pd
from scipy import stats

SOURCES = ["lot", "fixture", "tool"]


def by_formula(frame):
    import statsmodels.formula.api as smf
    from statsmodels.stats.anova import anova_lm

    for (part, feature), rows in frame.groupby(["part", "feature"], observed=True):
        rows = rows.assign(**{name: rows[name].cat.remove_unused_categories() for name in SOURCES})
        used = [name for name in SOURCES if len(rows[name].cat.categories) > 1]
        if not used:
            continue
        model = smf.ols("value ~ " + " + ".join(f"C({name})" for name in used), data=rows).fit()
        table = anova_lm(model, typ=2)
        for name in used:
            yield part, feature, name, table.loc[f"C({name})", "PR(>F)"]


def by_decomposition(frame):
    groups = {}
    for (part, feature), rows in frame.groupby(["part", "feature"], observed=True):
        key = (part, rows["piece"].cat.codes.to_numpy().tobytes(), rows["tool"].cat.codes.to_numpy().tobytes())
        groups.setdefault(key, []).append((feature, rows))
    for (part, _, _), members in groups.items():
        first = members[0][1]
        values = np.stack([rows["value"].to_numpy() for _, rows in members], axis=1)
        values = values - values.mean(axis=0)
        columns = {}
        for name in SOURCES:
            levels, place = np.unique(first[name].cat.codes.to_numpy(), return_inverse=True)
            if len(levels) > 1:
                columns[name] = (place[:, None] == np.arange(1, len(levels))).astype(float)

        def left_over(names):
            design = np.concatenate([np.ones((len(first), 1)), *(columns[name] for name in names)], axis=1)
            q, r = np.linalg.qr(design)
            rank = int((np.abs(np.diag(r)) > 1e-9 * np.sqrt(len(first))).sum())
            if rank < design.shape[1]:
                q, sizes, _ = np.linalg.svd(design, full_matrices=False)
                rank = int((sizes > 1e-9 * sizes[0]).sum())
                q = q[:, :rank]
            rest = values - q @ (q.T @ values)
            return (rest * rest).sum(axis=0), rank

        full, rank = left_over(list(columns))
        freedom = len(first) - rank
        for name in columns:
            reduced, fewer = left_over([other for other in columns if other != name])
            if rank == fewer or freedom <= 0:
                continue
            ratio = (reduced - full) / (rank - fewer) / (full / freedom)
            for (feature, _), p in zip(members, stats.f.sf(ratio, rank - fewer, freedom)):
                yield part, feature, name, p


def adjusted(p):
    order = np.argsort(p)
    steps = p[order] * len(p) / np.arange(1, len(p) + 1)
    out = np.empty(len(p))
    out[order] = np.minimum(1, np.minimum.accumulate(steps[::-1])[::-1])
    return out


def main():
    words = argparse.ArgumentParser()
    words.add_argument("csv")
    words.add_argument("out")
    words.add_argument("--engine", choices=["statsmodels", "numpy"], default="statsmodels")
    given = words.parse_args()
    used = ["piece", "part", "feature", *SOURCES]
    frame = pd.read_csv(given.csv, usecols=[*used, "value"], dtype={name: "category" for name in used})
    engine = by_formula if given.engine == "statsmodels" else by_decomposition
    found = [(part, feature, name, float(p)) for part, feature, name, p in engine(frame)]
    p = adjusted(np.array([one[3] for one in found]))
    with open(given.out, "w") as out:
        json.dump([[*one, float(q)] for one, q in zip(found, p)], out)


main()
