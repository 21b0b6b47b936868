"""Measurement-system fixtures: crossed gauge studies, type-1 studies, linearity and bias."""
import os, json
from common import *
from scipy import stats

K1 = {2: 0.8862, 3: 0.5908}
K2 = {2: 0.7071, 3: 0.5231}
K3 = {2: 0.7071, 3: 0.5231, 4: 0.4467, 5: 0.4030, 6: 0.3742, 7: 0.3534, 8: 0.3375, 9: 0.3249, 10: 0.3146}
AIAG = "from memory: AIAG Measurement Systems Analysis manual, 4th edition"


def study(rng, p, o, r, part, operator, interaction, repeat, nominal, decimals=4):
    P = rng.normal(0, 1, p); O = rng.normal(0, 1, o); PO = rng.normal(0, 1, (p, o)); E = rng.normal(0, 1, (p, o, r))
    y = nominal + part * P[:, None, None] + operator * O[None, :, None] + interaction * PO[:, :, None] + repeat * E
    return np.round(y, decimals)


def components(y, with_interaction):
    p, o, r = y.shape
    g = y.mean(); mp_ = y.mean(axis=(1, 2)); mo = y.mean(axis=(0, 2)); mpo = y.mean(axis=2)
    ssp = o * r * np.sum((mp_ - g) ** 2); sso = p * r * np.sum((mo - g) ** 2)
    sspo = r * np.sum((mpo - mp_[:, None] - mo[None, :] + g) ** 2); sse = np.sum((y - mpo[:, :, None]) ** 2)
    return ssp, sso, sspo, sse


def describe(y, tolerance):
    p, o, r = y.shape
    ssp, sso, sspo, sse = components(y, True)
    dp, do, dpo, de = p - 1, o - 1, (p - 1) * (o - 1), p * o * (r - 1)
    msp, mso, mspo, mse = ssp / dp, sso / do, sspo / dpo, sse / de
    out = {"anovaWithInteraction": {
        "rows": ["part", "operator", "partByOperator", "repeatability", "total"],
        "degreesOfFreedom": [dp, do, dpo, de, p * o * r - 1], "sumOfSquares": [ssp, sso, sspo, sse, ssp + sso + sspo + sse],
        "meanSquare": [msp, mso, mspo, mse], "fValue": [msp / mspo, mso / mspo, mspo / mse],
        "pValue": [stats.f.sf(msp / mspo, dp, dpo), stats.f.sf(mso / mspo, do, dpo), stats.f.sf(mspo / mse, dpo, de)]}}
    dpool = dpo + de
    mspool = (sspo + sse) / dpool
    out["anovaWithoutInteraction"] = {
        "rows": ["part", "operator", "repeatability", "total"], "degreesOfFreedom": [dp, do, dpool, p * o * r - 1],
        "sumOfSquares": [ssp, sso, sspo + sse, ssp + sso + sspo + sse], "meanSquare": [msp, mso, mspool],
        "fValue": [msp / mspool, mso / mspool], "pValue": [stats.f.sf(msp / mspool, dp, dpool), stats.f.sf(mso / mspool, do, dpool)]}
    raw = {"repeatability": mse, "operator": (mso - mspo) / (p * r), "partByOperator": (mspo - mse) / r, "part": (msp - mspo) / (o * r)}
    raw2 = {"repeatability": mspool, "operator": (mso - mspool) / (p * r), "partByOperator": 0.0, "part": (msp - mspool) / (o * r)}

    def table(raw):
        v = {k: max(0.0, x) for k, x in raw.items()}
        e = {"repeatability": v["repeatability"], "operator": v["operator"], "partByOperator": v["partByOperator"],
             "reproducibility": v["operator"] + v["partByOperator"], "gauge": v["repeatability"] + v["operator"] + v["partByOperator"], "part": v["part"]}
        e["total"] = e["gauge"] + e["part"]
        sd = {k: math.sqrt(x) for k, x in e.items()}
        ratio = math.sqrt(2) * sd["part"] / sd["gauge"]
        return {"rawVarianceComponents": raw, "varianceComponents": e, "standardDeviations": sd,
                "percentContribution": {k: 100 * x / e["total"] for k, x in e.items()},
                "percentStudyVariation": {k: 100 * x / sd["total"] for k, x in sd.items()},
                "percentTolerance": {k: 100 * 6 * x / tolerance for k, x in sd.items()},
                "distinctCategoriesUnrounded": 1.41 * sd["part"] / sd["gauge"], "distinctCategories": math.floor(1.41 * sd["part"] / sd["gauge"]),
                "distinctCategoriesWithSquareRootOfTwoUnrounded": ratio}
    out["componentsWithInteraction"] = table(raw)
    out["componentsWithoutInteraction"] = table(raw2)
    out["interactionPValue"] = float(stats.f.sf(mspo / mse, dpo, de))
    out["poolingAt0.25"] = "pool" if out["interactionPValue"] > 0.25 else "keep"
    out["poolingAt0.05"] = "pool" if out["interactionPValue"] > 0.05 else "keep"
    # interval for the gauge variance (MS_O + (p-1) MS_PO + p(r-1) MS_E) / (p r)
    ms = np.array([mso, mspo, mse]); coef = np.array([1 / (p * r), (p - 1) / (p * r), (r - 1) / r]); df = np.array([do, dpo, de])
    gamma = float(coef @ ms)
    alpha = 0.05
    g = 1 - df / stats.chi2.ppf(1 - alpha / 2, df)
    h = df / stats.chi2.ppf(alpha / 2, df) - 1
    mls = [max(0.0, gamma - math.sqrt(np.sum((g * coef * ms) ** 2))), gamma + math.sqrt(np.sum((h * coef * ms) ** 2))]
    nu = gamma ** 2 / np.sum((coef * ms) ** 2 / df)
    sat = [nu * gamma / stats.chi2.ppf(1 - alpha / 2, nu), nu * gamma / stats.chi2.ppf(alpha / 2, nu)]
    out["gaugeVarianceInterval"] = {"confidence": 0.95, "estimateUntruncated": gamma, "modifiedLargeSample": mls, "satterthwaite": sat, "satterthwaiteDegreesOfFreedom": nu,
                                    "gaugeStandardDeviationModifiedLargeSample": [math.sqrt(v) for v in mls], "gaugeStandardDeviationSatterthwaite": [math.sqrt(v) for v in sat]}
    # repeatability exact chi-square
    out["repeatabilityVarianceInterval"] = {"confidence": 0.95, "chiSquare": [de * mse / stats.chi2.ppf(1 - alpha / 2, de), de * mse / stats.chi2.ppf(alpha / 2, de)]}
    # average and range
    rng_cells = np.ptp(y, axis=2)
    rbar = rng_cells.mean()
    op_means = y.mean(axis=(0, 2)); xdiff = np.ptp(op_means)
    rp = np.ptp(y.mean(axis=(1, 2)))
    ev = rbar * K1[r]
    under = (xdiff * K2[o]) ** 2 - ev ** 2 / (p * r)
    av = math.sqrt(max(0.0, under))
    grr = math.hypot(ev, av)
    pv = rp * K3[p]
    tv = math.hypot(grr, pv)
    out["averageAndRange"] = {"meanRange": rbar, "operatorRanges": rng_cells.mean(axis=0), "operatorMeans": op_means, "differenceOfOperatorMeans": xdiff, "partRange": rp,
                              "equipmentVariation": ev, "appraiserVariation": av, "gauge": grr, "partVariation": pv, "totalVariation": tv,
                              "percentStudyVariation": {"equipmentVariation": 100 * ev / tv, "appraiserVariation": 100 * av / tv, "gauge": 100 * grr / tv, "partVariation": 100 * pv / tv},
                              "percentTolerance": {"equipmentVariation": 600 * ev / tolerance, "appraiserVariation": 600 * av / tolerance, "gauge": 600 * grr / tolerance, "partVariation": 600 * pv / tolerance},
                              "distinctCategoriesUnrounded": 1.41 * pv / grr, "distinctCategories": math.floor(1.41 * pv / grr),
                              "rangeUpperLimit": (1 + 3 * {2: 0.8525024664274204 / 1.1283791670955126, 3: 0.8883680040452053 / 1.692568750643269}[r]) * rbar,
                              "constants": {"K1": K1[r], "K2": K2[o], "K3": K3[p]}}
    return out


def linearity(ref, bias):
    """Each reading's bias against its reference value; regression on all single readings."""
    x = np.array([v for v, b in zip(ref, bias) for _ in b]); y = np.array([v for b in bias for v in b])
    n = len(x)
    sxx = np.sum((x - x.mean()) ** 2)
    slope = np.sum((x - x.mean()) * (y - y.mean())) / sxx
    a = y.mean() - slope * x.mean()
    res = y - a - slope * x
    s = math.sqrt(np.sum(res ** 2) / (n - 2))
    t975 = t_quantile(.975, n - 2)
    se_b, se_a = s / math.sqrt(sxx), s * math.sqrt(1 / n + x.mean() ** 2 / sxx)
    r2 = 1 - np.sum(res ** 2) / np.sum((y - y.mean()) ** 2)
    at = np.array(ref, float)
    half = t975 * s * np.sqrt(1 / n + (at - x.mean()) ** 2 / sxx)
    parts = []
    for b in bias:
        b = np.array(b); m = len(b); sd = b.std(ddof=1); t = b.mean() / (sd / math.sqrt(m))
        parts.append({"meanBias": b.mean(), "standardDeviation": sd, "tValue": t, "pValue": 2 * stats.t.sf(abs(t), m - 1),
                      "interval95": [b.mean() - t_quantile(.975, m - 1) * sd / math.sqrt(m), b.mean() + t_quantile(.975, m - 1) * sd / math.sqrt(m)]})
    return {"slope": slope, "intercept": a, "residualStandardDeviation": s, "rSquared": r2, "slopeStandardError": se_b, "interceptStandardError": se_a,
            "slopeTValue": slope / se_b, "slopePValue": 2 * stats.t.sf(abs(slope / se_b), n - 2), "interceptTValue": a / se_a, "interceptPValue": 2 * stats.t.sf(abs(a / se_a), n - 2),
            "fittedAtReferences": a + slope * at, "bandLower95": a + slope * at - half, "bandUpper95": a + slope * at + half,
            "overallMeanBias": y.mean(), "parts": parts}


def type_one(x, reference, tolerance, resolution):
    x = np.array(x); n = len(x); m, s = x.mean(), x.std(ddof=1)
    bias = m - reference
    t = bias / (s / math.sqrt(n))
    return {"mean": m, "standardDeviation": s, "bias": bias, "tValue": t, "pValue": 2 * stats.t.sf(abs(t), n - 1),
            "biasInterval95": [bias - t_quantile(.975, n - 1) * s / math.sqrt(n), bias + t_quantile(.975, n - 1) * s / math.sqrt(n)],
            "Cg20PercentOver6s": 0.2 * tolerance / (6 * s), "Cgk20PercentOver6s": (0.1 * tolerance - abs(bias)) / (3 * s),
            "Cg20PercentOver4s": 0.2 * tolerance / (4 * s), "Cgk20PercentOver4s": (0.1 * tolerance - abs(bias)) / (2 * s),
            "resolutionPercentOfTolerance": 100 * resolution / tolerance}


def main():
    o = arguments()
    full = o.size >= 1
    rng = np.random.default_rng(o.seed)
    plans = [("good-gauge", 10, 3, 3, .10, .012, .010, .020, 25.0, .8), ("poor-gauge", 10, 3, 3, .05, .030, .020, .045, 12.0, .5),
             ("two-operators-two-trials", 10, 2, 2, .08, .010, .008, .015, 40.0, .6)] if full else \
            [("held-gauge", 10, 3, 3, .07, .018, .012, .022, 18.0, .6), ("held-two-trials", 8, 3, 2, .09, .011, .004, .017, 33.0, .7)]
    studies = []
    for name, p, op, r, sp, so, spo, se, nominal, tol in plans:
        studies.append((name, study(rng, p, op, r, sp, so, spo, se, nominal), tol, {"part": sp ** 2, "operator": so ** 2, "partByOperator": spo ** 2, "repeatability": se ** 2}))

    def search(test, p, op, r, *sig):
        while True:
            y = study(rng, p, op, r, *sig)
            ssp, sso, sspo, sse = components(y, True)
            ms = [ssp / (p - 1), sso / (op - 1), sspo / ((p - 1) * (op - 1)), sse / (p * op * (r - 1))]
            if test(ms):
                return y
    # no true interaction: F of the interaction not significant at 0.25 and its component positive
    sig = (.08, .015, 0.0, .020, 30.0)
    studies.append(("no-interaction", search(lambda m: m[2] > m[3] and stats.f.sf(m[2] / m[3], 18, 60) > .25, 10, 3, 3, *sig), .7, {"part": .08 ** 2, "operator": .015 ** 2, "partByOperator": 0.0, "repeatability": .02 ** 2}))
    # negative components: operator and interaction below zero before truncation
    sig = (.08, 0.0, 0.0, .020, 30.0)
    if full:
        studies.append(("negative-component", search(lambda m: m[1] < m[2] < m[3], 10, 3, 3, *sig), .7, {"part": .08 ** 2, "operator": 0.0, "partByOperator": 0.0, "repeatability": .02 ** 2}))
        # exactly constant interaction: additive cell means, so the interaction sum of squares is zero up to rounding
        base = np.round(10 + rng.normal(0, .1, 10), 3); opv = np.array([0.0, .01, -.02]); dev = np.array([-.01, 0.0, .01])
        y = base[:, None, None] + opv[None, :, None] + dev[None, None, :]
        studies.append(("exactly-additive", np.round(y, 4), .7, None))
    payload = {"studies": [{"values": y.transpose(0, 1, 2).ravel().tolist(), "parts": y.shape[0], "operators": y.shape[1], "trials": y.shape[2], "tolerance": tol} for _, y, tol, _ in studies]}
    # type-1
    ones = []
    for i in range(3 if full else 2):
        ref = [10.0, 4.005, 22.5, 6.35, 15.0][i if full else i + 3]
        tol = [0.1, 0.05, 0.4, 0.06, 0.2][i if full else i + 3]
        n = [50, 25, 50, 50, 30][i if full else i + 3]
        res = [0.001, 0.0005, 0.001, 0.001, 0.001][i if full else i + 3]
        bias = rng.normal(0, tol * .01)
        x = [float(np.round(round(v / res) * res, 6)) for v in ref + bias + rng.normal(0, tol * rng.uniform(.012, .03), n)]
        ones.append((x, ref, tol, res))
    payload["typeOne"] = [{"values": x, "reference": r_, "tolerance": t} for x, r_, t, _ in ones]
    lines = []
    for i in range(2 if full else 1):
        ref = [2.0, 4.0, 6.0, 8.0, 10.0]
        slope, start = (-.012, .07) if i == 0 else (0.0, 0.01)
        lines.append((ref, [[float(np.round(start + slope * v + e, 4)) for e in rng.normal(0, .03, 12 if full else 10)] for v in ref]))
    payload["linearity"] = [{"reference": r_, "bias": [v for b in bs for v in b], "each": len(bs[0])} for r_, bs in lines]
    other = call_r("msa.R", payload)
    cases = []
    for (name, y, tol, truth), rr in zip(studies, other["studies"]):
        mine = clean(describe(y, tol))
        agree = agreement(["Python sums of squares", "R aov() mean squares, own component code"], mine, rr)
        cases.append({"id": "crossed-" + name, "kind": "crossed-gauge-study", "units": "mm",
                      "input": {"measurements": [[list(map(float, y[i, j])) for j in range(y.shape[1])] for i in range(y.shape[0])], "indexOrder": "part, operator, trial", "toleranceWidth": tol, "studyVariationFactor": 6},
                      "trueVarianceComponents": truth, "expected": mine, "tolerance": {"relative": 1e-9, "sumOfSquaresAbsolute": 1e-12, "note": "in 'exactly-additive' the interaction sum of squares is zero up to rounding: its F and p are not to be compared"},
                      "agreement": agree})
    for i, ((x, ref, tol, res), rr) in enumerate(zip(ones, other["typeOne"])):
        mine = clean(type_one(x, ref, tol, res))
        cases.append({"id": f"type-1-{i}", "kind": "type-1-gauge-study", "units": "mm", "input": {"readings": x, "reference": ref, "toleranceWidth": tol, "resolution": res},
                      "expected": mine, "tolerance": {"relative": 1e-9}, "agreement": agreement(["Python", "R t.test"], mine, rr)})
    for i, ((ref, bs), rr) in enumerate(zip(lines, other["linearity"])):
        mine = clean(linearity(ref, bs))
        cases.append({"id": f"linearity-{i}", "kind": "linearity-and-bias", "units": "mm", "input": {"references": ref, "biasReadings": bs},
                      "expected": mine, "tolerance": {"relative": 1e-9}, "agreement": agreement(["Python formulas", "R lm, predict, t.test"], mine, rr)})
    write(os.path.join(o.out, "gauge-studies.json"),
          "Measurement-system studies of simulated readings. Components by expected mean squares, cut at zero one by one (rawVarianceComponents holds the values before the cut). Percent study variation uses standard deviations (6 sigma cancels), percent tolerance = 6 sigma over the full tolerance width. Distinct categories = floor(1.41 part sigma over gauge sigma). The interval for the gauge variance uses the untruncated sum; modified large sample = Graybill-Wang form with all-positive coefficients. Both anova tables are given: with and without the interaction (pooled into repeatability).",
          cases, seed=o.seed, sources=[AIAG + ": K1, K2, K3 factors, ndc, average and range method", "from memory: Burdick, Borror and Montgomery (2003) for the modified large sample interval; Satterthwaite (1946)", "common practice, no source: Cg and Cgk on 20 percent of the tolerance with 6 s or 4 s"])


if __name__ == "__main__":
    main()
