"""Drift and comparison fixtures: trends, two-way and one-way models, multiple testing, change points, autocorrelation, pairwise comparisons."""
import os, json
from common import *
from scipy import stats, optimize, special
import statsmodels.api as sm
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm
import pandas as pd


def rounded(v, d=5):
    return [float(np.round(x, d)) for x in np.asarray(v).ravel()]


def trend(t, x, lag):
    t, x = np.array(t, float), np.array(x, float)
    n = len(x)
    tb = t - t.mean(); sxx = tb @ tb
    b = tb @ x / sxx; a = x.mean() - b * t.mean()
    e = x - a - b * t
    s = math.sqrt(e @ e / (n - 2)); se = s / math.sqrt(sxx)
    tv = b / se
    out = {"slope": b, "intercept": a, "slopeStandardError": se, "residualStandardDeviation": s, "rSquared": 1 - e @ e / np.sum((x - x.mean()) ** 2), "tValue": tv, "pValue": 2 * stats.t.sf(abs(tv), n - 2),
           "slopeInterval95": [b - t_quantile(.975, n - 2) * se, b + t_quantile(.975, n - 2) * se]}
    X = np.column_stack([np.ones(n), t])
    u = X * e[:, None]
    S = u.T @ u
    for l in range(1, lag + 1):
        G = u[l:].T @ u[:-l]
        S = S + (1 - l / (lag + 1)) * (G + G.T)
    bread = np.linalg.inv(X.T @ X)
    V = bread @ S @ bread
    nw = math.sqrt(V[1, 1])
    check = sm.OLS(x, X).fit(cov_type="HAC", cov_kwds={"maxlags": lag, "use_correction": False}).bse[1]
    assert abs(nw - check) < 1e-9 * nw
    out["neweyWest"] = {"lag": lag, "kernel": "Bartlett", "smallSampleCorrection": False, "slopeStandardError": nw, "slopeStandardErrorWithFactorNOverNMinus2": nw * math.sqrt(n / (n - 2)), "normalPValue": 2 * stats.norm.sf(abs(b / nw)), "tPValue": 2 * stats.t.sf(abs(b / nw), n - 2)}
    # Theil-Sen
    i, j = np.triu_indices(n, 1)
    ok = t[j] != t[i]
    slopes = np.sort((x[j] - x[i])[ok] / (t[j] - t[i])[ok])
    ts = float(np.median(slopes))
    _, ty = np.unique(x, return_counts=True)
    _, tt = np.unique(t, return_counts=True)
    vary = (n * (n - 1) * (2 * n + 5) - np.sum(ty * (ty - 1) * (2 * ty + 5))) / 18
    z = stats.norm.ppf(.975)
    N = len(slopes)
    r = stats.theilslopes(x, t, .95)
    half = z * math.sqrt(vary)
    lo_i, hi_i = int(np.round((N - half) / 2)) - 1, int(np.round((N + half) / 2))
    lo_i, hi_i = max(lo_i, 0), min(hi_i, N - 1)
    out["theilSen"] = {"slope": ts, "interceptMedianOfResiduals": float(np.median(x - ts * t)), "interceptMedianMinusSlopeTimesMedianTime": float(np.median(x) - ts * np.median(t)), "interval95": [slopes[lo_i], slopes[hi_i]], "intervalRanks": [lo_i, hi_i], "slopesCount": N,
                       "intervalRule": "Sen (1968): sorted pairwise slopes (0-based) at round((N - z sqrt(V))/2) - 1 and round((N + z sqrt(V))/2), V the tie-corrected variance of S"}
    assert abs(r[0] - ts) < 1e-12 and abs(r[2] - slopes[lo_i]) < 1e-12 and abs(r[3] - slopes[hi_i]) < 1e-12, (r, ts, slopes[lo_i], slopes[hi_i])
    # Mann-Kendall
    S_ = int(np.sum(np.sign(x[j] - x[i]) * np.sign(t[j] - t[i])))
    zmk = 0.0 if S_ == 0 else (S_ - np.sign(S_)) / math.sqrt(vary)
    tau = stats.kendalltau(t, x)[0]
    out["mannKendall"] = {"S": S_, "variance": vary, "zWithContinuity": zmk, "pValue": 2 * stats.norm.sf(abs(zmk)), "tauB": float(tau), "tauA": S_ / (n * (n - 1) / 2)}
    c = x - x.mean()
    r1 = float(np.sum(c[1:] * c[:-1]) / np.sum(c * c))
    def lb(h, c=c):
        rk = [np.sum(c[k:] * c[:-k]) / np.sum(c * c) for k in range(1, h + 1)]
        q = n * (n + 2) * sum(v * v / (n - k) for k, v in enumerate(rk, 1))
        return {"lags": h, "statistic": q, "pValue": stats.chi2.sf(q, h)}
    ec = e - e.mean()
    out["autocorrelation"] = {"lagOne": r1, "lagOneOfResiduals": float(np.sum(ec[1:] * ec[:-1]) / np.sum(ec * ec)), "ljungBoxOne": lb(1), "ljungBoxOneOfResiduals": lb(1, ec), **({"ljungBoxTen": lb(10)} if n > 10 else {}),
                              "durbinWatsonOfResiduals": float(np.sum(np.diff(e) ** 2) / np.sum(e * e)), "vonNeumannRatio": float((np.sum(np.diff(x) ** 2) / (n - 1)) / x.var(ddof=1))}
    return out


def change_point(x, minimum):
    x = np.array(x); n = len(x)
    rss0 = np.sum((x - x.mean()) ** 2)
    best = None
    for k in range(minimum, n - minimum + 1):
        a, b = x[:k], x[k:]
        rss = np.sum((a - a.mean()) ** 2) + np.sum((b - b.mean()) ** 2)
        if best is None or rss < best[0] - 1e-15:
            best = (rss, k)
    rss, k = best
    a, b = x[:k], x[k:]
    f = (rss0 - rss) / (rss / (n - 2))
    # unequal variances likelihood split
    bl = None
    for q in range(max(minimum, 2), n - max(minimum, 2) + 1):
        l = q * math.log(np.var(x[:q])) + (n - q) * math.log(np.var(x[q:]))
        if bl is None or l < bl[0]:
            bl = (l, q)
    return {"firstIndexOfSecondSegment": k, "meanBefore": a.mean(), "meanAfter": b.mean(), "residualSumOfSquares": rss, "residualSumOfSquaresNoChange": rss0,
            "pooledStandardDeviation": math.sqrt(rss / (n - 2)), "maximumF": f, "maximumAbsoluteT": math.sqrt(f), "likelihoodRatioStatistic": n * math.log(rss0 / rss),
            "meanAndVarianceSplit": {"firstIndexOfSecondSegment": bl[1], "likelihoodRatioStatistic": n * math.log(np.var(x)) - bl[0]}}


def two_way(frame, interaction):
    formula = "y ~ C(fixture) * C(lot)" if interaction else "y ~ C(fixture) + C(lot)"
    # sum-to-zero contrasts leave type II unchanged
    m = ols(formula, frame).fit()
    t = anova_lm(m, typ=2)
    rows = list(t.index)
    names = {"C(fixture)": "fixture", "C(lot)": "lot", "C(fixture):C(lot)": "fixtureByLot", "Residual": "residual"}
    return {"rows": [names[r] for r in rows], "degreesOfFreedom": [float(v) for v in t["df"]], "sumOfSquares": [float(v) for v in t["sum_sq"]],
            "fValue": [float(v) for v in t["F"][:-1]], "pValue": [float(v) for v in t["PR(>F)"][:-1]], "residualMeanSquare": float(t["sum_sq"].iloc[-1] / t["df"].iloc[-1])}


def one_way(groups):
    k = len(groups); n = np.array([len(g) for g in groups]); N = n.sum()
    allv = np.concatenate([np.array(g) for g in groups]); gm = allv.mean()
    means = np.array([np.mean(g) for g in groups])
    ssb = float(np.sum(n * (means - gm) ** 2)); ssw = float(sum(np.sum((np.array(g) - np.mean(g)) ** 2) for g in groups))
    msb, msw = ssb / (k - 1), ssw / (N - k)
    n0 = (N - np.sum(n ** 2) / N) / (k - 1)
    raw = (msb - msw) / n0
    f = msb / msw
    # REML: profile over the ratio theta = variance between / variance within
    def nll(th):
        w = n / (1 + n * th)
        mu = np.sum(w * means) / np.sum(w)
        q = ssw + np.sum(w * (means - mu) ** 2)
        s2 = q / (N - 1)
        return 0.5 * ((N - 1) * math.log(s2) + np.sum(np.log1p(n * th)) + math.log(np.sum(w))), s2, mu
    r = optimize.minimize_scalar(lambda u: nll(math.exp(u))[0], bounds=(-25, 12), method="bounded", options={"xatol": 1e-13})
    th = math.exp(r.x)
    if nll(0.0)[0] <= nll(th)[0]:
        th = 0.0
    if th > 0:
        d = lambda u: (nll(math.exp(u + 1e-5))[0] - nll(math.exp(u - 1e-5))[0])
        try:
            th = math.exp(optimize.brentq(d, math.log(th) - .05, math.log(th) + .05, xtol=1e-12))
        except ValueError:
            pass
    _, s2, mu = nll(th)
    lev_a = stats.levene(*groups, center="mean"); lev_b = stats.levene(*groups, center="median")
    bart = stats.bartlett(*groups)
    out = {"anova": {"sumOfSquaresBetween": ssb, "sumOfSquaresWithin": ssw, "degreesOfFreedomBetween": k - 1, "degreesOfFreedomWithin": int(N - k), "meanSquareBetween": msb, "meanSquareWithin": msw, "fValue": f, "pValue": stats.f.sf(f, k - 1, N - k)},
           "varianceComponentsAnova": {"within": msw, "betweenRaw": raw, "between": max(0.0, raw), "effectiveGroupSize": n0, "intraclassCorrelation": max(0.0, raw) / (max(0.0, raw) + msw)},
           "varianceComponentsReml": {"within": s2, "between": th * s2, "mean": mu},
           "leveneMeanCentred": {"fValue": float(lev_a[0]), "pValue": float(lev_a[1])}, "brownForsytheMedianCentred": {"fValue": float(lev_b[0]), "pValue": float(lev_b[1])}, "bartlett": {"statistic": float(bart[0]), "pValue": float(bart[1])}}
    wel = []
    tuk = []
    for i in range(k):
        for j in range(i + 1, k):
            a, b = np.array(groups[i]), np.array(groups[j])
            va, vb = a.var(ddof=1) / len(a), b.var(ddof=1) / len(b)
            df = (va + vb) ** 2 / (va ** 2 / (len(a) - 1) + vb ** 2 / (len(b) - 1))
            t = (a.mean() - b.mean()) / math.sqrt(va + vb)
            wel.append({"pair": [i, j], "difference": a.mean() - b.mean(), "tValue": t, "degreesOfFreedom": df, "pValue": 2 * stats.t.sf(abs(t), df),
                        "interval95": [a.mean() - b.mean() - t_quantile(.975, df) * math.sqrt(va + vb), a.mean() - b.mean() + t_quantile(.975, df) * math.sqrt(va + vb)]})
            q = abs(a.mean() - b.mean()) / math.sqrt(msw / 2 * (1 / len(a) + 1 / len(b)))
            tuk.append({"pair": [i, j], "difference": b.mean() - a.mean(), "studentizedRange": q, "pValue": studentized_range_sf(q, k, int(N - k))})
    out["welch"] = wel
    out["tukeyKramer"] = tuk
    return out


def studentized_range_sf(q, k, df, nx=200, ns=200):
    """Upper tail by two Gauss-Legendre integrals without cancellation."""
    x, w = np.polynomial.legendre.leggauss(nx)
    u = x * 9.5; wu = w * 9.5                      # the largest value of the k
    if df is None or math.isinf(df):
        s, ws = np.array([1.0]), np.array([1.0])
    else:
        lo, hi = max(0.0, 1 - 14 / math.sqrt(2 * df)), 1 + 14 / math.sqrt(2 * df)
        if df < 12:
            lo, hi = 0.0, 1 + 30 / math.sqrt(2 * df) if df > 2 else 26.0
        edges = np.linspace(lo, hi, 41) if df >= 12 else hi * np.linspace(0, 1, 61) ** 3
        xs, wsx = np.polynomial.legendre.leggauss(24)
        h = np.diff(edges) / 2
        s = (edges[:-1, None] + h[:, None] * (xs + 1)).ravel(); ws = (h[:, None] * wsx).ravel()
        ld = math.log(2) + (df / 2) * math.log(df / 2) - special.gammaln(df / 2) + (df - 1) * np.log(s) - df * s * s / 2
        ws = ws * np.exp(ld)
    dens = np.exp(-u * u / 2) / math.sqrt(2 * math.pi)
    cap = special.ndtr(u)
    total = 0.0
    for si, wi in zip(s, ws):
        low = special.ndtr(u - q * si)
        ratio = np.where(cap > 0, low / np.maximum(cap, 1e-300), 1.0)
        ratio = np.minimum(ratio, 1.0)
        inner = k * np.sum(wu * dens * cap ** (k - 1) * -np.expm1((k - 1) * np.log1p(-np.minimum(ratio, 1 - 1e-16))))
        total += wi * inner
    return float(total)


def main():
    o = arguments(); full = o.size >= 1
    rng = np.random.default_rng(o.seed)
    cases, payload = [], {"trend": [], "change": [], "twoWay": [], "oneWay": [], "adjust": [], "tukey": []}
    work = []
    plans = [("tool-wear", 80, .0009, 0.0, .02, 4), ("no-trend", 60, 0.0, 0.0, .03, 3), ("autocorrelated-no-trend", 120, 0.0, .6, .02, 5), ("autocorrelated-trend", 100, .0006, .5, .015, 4), ("rounded-with-ties", 50, .0010, 0.0, .012, 3), ("short-8", 8, .01, 0.0, .02, 1)] if full else \
            [("held-wear", 70, -.0008, .3, .018, 4), ("held-ties", 45, .0007, 0.0, .012, 2)]
    for name, n, slope, phi, s, lag in plans:
        e = rng.normal(0, s, n)
        for i in range(1, n):
            e[i] = phi * e[i - 1] + e[i] * math.sqrt(1 - phi ** 2)
        t = np.arange(n, dtype=float)
        if name == "tool-wear":
            t = np.round(np.cumsum(rng.uniform(.2, 2.0, n)), 2)     # uneven times
        x = rounded(10 + slope * t + e, 2 if "ties" in name else 5)
        work.append(("trend-" + name, "trend", {"times": rounded(t), "values": x, "neweyWestLag": lag}))
        payload["trend"].append({"t": rounded(t), "x": x, "lag": lag})
    for name, n, at, size in ([("late-step", 60, 41, 1.5), ("early-step", 50, 9, 2.0), ("no-step", 70, 35, 0.0), ("small-step", 90, 50, .6)] if full else [("held-step", 55, 22, 1.2), ("held-none", 40, 20, 0.0)]):
        x = rng.normal(0, .01, n); x[at:] += size * .01
        x = rounded(5 + x)
        work.append(("change-point-" + name, "change-point", {"values": x, "minimumSegment": 2})); payload["change"].append({"x": x, "minimum": 2})
    for name, nf, nl, balanced, rep in ([("balanced", 4, 5, True, 3), ("unbalanced", 4, 5, False, 4), ("balanced-no-replication", 6, 4, True, 1)] if full else [("held-unbalanced", 3, 6, False, 3)]):
        fe, le = rng.normal(0, .01, nf), rng.normal(0, .008, nl); ie = rng.normal(0, .004, (nf, nl))
        fx, lo, y = [], [], []
        for i in range(nf):
            for j in range(nl):
                m = rep if balanced else int(rng.integers(1, rep + 1))
                for _ in range(m):
                    fx.append(f"F{i + 1}"); lo.append(f"L{j + 1}"); y.append(float(np.round(8 + fe[i] + le[j] + ie[i, j] + rng.normal(0, .01), 5)))
        work.append(("two-way-" + name, "two-way", {"fixture": fx, "lot": lo, "values": y, "withInteraction": rep > 1})); payload["twoWay"].append({"fixture": fx, "lot": lo, "y": y, "interaction": rep > 1})
    for name, sizes, sb, sw in ([("balanced-8-by-5", [5] * 8, .012, .010), ("unbalanced", [4, 7, 3, 6, 5, 8], .010, .012), ("no-between", [6] * 5, 0.0, .010), ("unequal-spread", [12, 9, 15], .004, .010)] if full else [("held-unbalanced", [5, 9, 4, 7], .011, .009), ("held-small-between", [5] * 6, .003, .012)]):
        while True:
            g = [rounded(20 + rng.normal(0, sb) + rng.normal(0, sw * (1 + (2.0 * i if name == "unequal-spread" else 0)), m)) for i, m in enumerate(sizes)]
            msb = sum(len(v) * (np.mean(v) - np.mean(sum(g, []))) ** 2 for v in g) / (len(g) - 1); msw = sum(np.sum((np.array(v) - np.mean(v)) ** 2) for v in g) / (sum(sizes) - len(g))
            if name != "no-between" or msb < msw:
                break
        work.append(("one-way-" + name, "one-way", {"groups": g})); payload["oneWay"].append({"groups": g})
    for name, m in ([("thirty", 30), ("with-ties", 12)] if full else [("held-thirty", 30)]):
        p = np.concatenate([rng.uniform(0, 1, m - m // 4), 10 ** -rng.uniform(1, 5, m // 4)]); rng.shuffle(p)
        if name == "with-ties":
            p = np.array([.01, .01, .04, .03, .04, .5, .5, .9, 1.0, .2, .0005, .03])
        p = [float("%.6g" % v) for v in p]
        work.append(("adjusted-p-" + name, "adjusted-p-values", {"pValues": p})); payload["adjust"].append({"p": p})
    grid = [(3.5, 3, 10), (2.0, 2, 5), (4.5, 5, 20), (3.63, 3, 60), (6.0, 10, 30), (5.0, 4, 12), (8.0, 6, 8), (3.31, 3, None), (4.47, 10, None), (10.0, 3, 15), (1.0, 4, 40), (12.0, 5, 40), (3.77, 3, 12), (20.0, 8, 10)] if full else [(float(np.round(rng.uniform(1.5, 8), 2)), int(rng.integers(2, 11)), None if i == 0 else int(rng.integers(6, 70))) for i in range(5)]
    work.append(("studentized-range", "studentized-range-upper-tail", {"q": [g[0] for g in grid], "groupCount": [g[1] for g in grid], "degreesOfFreedom": [g[2] for g in grid]}))
    payload["tukey"] = [{"q": a, "k": b, "df": "Inf" if c is None else c} for a, b, c in grid]
    other = call_r("drift.R", payload)
    counters = {}
    rkey = {"trend": "trend", "change-point": "change", "two-way": "twoWay", "one-way": "oneWay", "adjusted-p-values": "adjust"}
    for name, kind, inp in work:
        idx = counters.get(kind, 0); counters[kind] = idx + 1
        tol = {"relative": 1e-8}
        extra = {}
        if kind == "trend":
            mine = trend(inp["times"], inp["values"], inp["neweyWestLag"])
            extra["note"] = "R Box.test takes 1 - cdf, so Ljung-Box p values below about 1e-8 keep few digits there; the expected ones come from the upper tail"
        elif kind == "change-point":
            mine = change_point(inp["values"], inp["minimumSegment"])
        elif kind == "two-way":
            frame = pd.DataFrame({"fixture": inp["fixture"], "lot": inp["lot"], "y": inp["values"]})
            mine = {"additiveModel": two_way(frame, False)}
            if inp["withInteraction"]:
                mine["modelWithInteraction"] = two_way(frame, True)
        elif kind == "one-way":
            mine = one_way(inp["groups"]); tol["varianceComponentsReml"] = 1e-5; tol["tukeyPValueAbsolute"] = 1e-8
        elif kind == "adjusted-p-values":
            from statsmodels.stats.multitest import multipletests
            p = np.array(inp["pValues"]); m = len(p)
            order = np.argsort(p, kind="stable"); q = p[order] * m / np.arange(1, m + 1); q = np.minimum.accumulate(q[::-1])[::-1]
            bh = np.empty(m); bh[order] = np.minimum(q, 1)
            assert np.allclose(bh, multipletests(p, method="fdr_bh")[1], atol=1e-14)
            mine = {"benjaminiHochberg": bh, "bonferroni": np.minimum(1, p * m), "holm": multipletests(p, method="holm")[1]}
        else:
            mine = {"upperTail": [studentized_range_sf(a, b, c) for a, b, c in grid]}
            rr = {"upperTail": other["tukey"]["upperTail"]}
            sc = [float(stats.studentized_range.sf(a, b, 1e5 if c is None else c)) if c is not None else None for a, b, c in grid]
            extra["scipyStudentizedRange"] = sc
            extra["absoluteDifferenceToR"] = [abs(u - v) for u, v in zip(mine["upperTail"], rr["upperTail"])]
            extra["absoluteDifferenceToScipy"] = [abs(u - v) if v is not None else None for u, v in zip(mine["upperTail"], sc)]
            tol = {"absolute": 1e-9}
            extra["note"] = "R ptukey (4.2.2) is good to about 1e-8 absolute only: in tails near 1e-6 it can be off by a percent; the expected values are the quadrature of this script, which scipy confirms"
        mine = clean(mine)
        if kind in rkey:
            rr = other[rkey[kind]][idx]
        case = {"id": name, "kind": kind, "units": "mm" if kind in ("trend", "change-point", "two-way", "one-way") else "none", "input": inp, "expected": mine, "tolerance": tol,
                "agreement": {**agreement(["Python (numpy, scipy, statsmodels)", "R (base, lme4)"], mine, rr), **extra}}
        cases.append(case)
    write(os.path.join(o.out, "trends-and-groups.json"),
          "Trend, change-point, factor and autocorrelation fixtures on simulated data. Change points: the split that minimises the residual sum of squares with one common variance; index is 0-based and names the first point after the change. Two-way tables are type II. Variance components: expected mean squares (ANOVA) and REML. Brown-Forsythe is Levene on medians. Tukey-Kramer differences are second group minus first.",
          cases, seed=o.seed)


if __name__ == "__main__":
    main()
