"""What the scripts share: JSON output, calls into R, and agreement bookkeeping."""
import json, math, os, platform, subprocess, sys, tempfile, argparse
import numpy as np, scipy, mpmath

HERE = os.path.dirname(os.path.abspath(__file__))


def clean(value):
    """Turn numpy/mpmath values into plain JSON values; non-finite numbers become null."""
    if isinstance(value, dict):
        return {str(k): clean(v) for k, v in value.items()}
    if isinstance(value, (list, tuple)):
        return [clean(v) for v in value]
    if isinstance(value, np.ndarray):
        return clean(value.tolist())
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    if isinstance(value, (int, np.integer)):
        return int(value)
    if isinstance(value, (mpmath.mpf,)):
        value = float(value)
    if isinstance(value, (float, np.floating)):
        value = float(value)
        return value if math.isfinite(value) else None
    return value


def versions(with_r=True):
    out = {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__,
           "mpmath": mpmath.__version__}
    try:
        import statsmodels
        out["statsmodels"] = statsmodels.__version__
    except Exception:
        pass
    if with_r:
        code = 'cat(R.version$major, ".", R.version$minor, "|", sep=""); for (p in c("nortest","lme4","MASS","jsonlite")) cat(p, "=", as.character(packageVersion(p)), "|", sep="")'
        text = subprocess.run(["Rscript", "-e", code], capture_output=True, text=True).stdout
        parts = [p for p in text.strip().split("|") if p]
        out["R"] = parts[0]
        for p in parts[1:]:
            k, v = p.split("=")
            out["R package " + k] = v
    return out


def _dump(obj, indent=0):
    """Compact but readable JSON: arrays of scalars stay on one line."""
    pad = "  " * indent
    if isinstance(obj, dict):
        if not obj:
            return "{}"
        return "{\n" + ",\n".join(pad + "  " + json.dumps(k) + ": " + _dump(v, indent + 1) for k, v in obj.items()) + "\n" + pad + "}"
    if isinstance(obj, list):
        if all(not isinstance(v, (dict, list)) for v in obj):
            return "[" + ", ".join(json.dumps(v, ensure_ascii=False, allow_nan=False) for v in obj) + "]"
        return "[\n" + ",\n".join(pad + "  " + _dump(v, indent + 1) for v in obj) + "\n" + pad + "]"
    return json.dumps(obj, ensure_ascii=False, allow_nan=False)


def write(path, about, cases, **extra):
    doc = {"about": about, "generatedWith": versions()}
    doc.update(extra)
    doc["cases"] = cases
    with open(path, "w") as handle:
        handle.write(_dump(clean(doc)) + "\n")
    print("wrote", os.path.basename(os.path.dirname(path)) + "/" + os.path.basename(path), len(cases), "cases")


def call_r(script, payload):
    """Run an R script of this folder on a JSON payload; numbers come back with 17 significant digits."""
    with tempfile.TemporaryDirectory() as folder:
        source, target = os.path.join(folder, "in.json"), os.path.join(folder, "out.json")
        with open(source, "w") as handle:
            json.dump(clean(payload), handle)
        done = subprocess.run(["Rscript", os.path.join(HERE, script), source, target], capture_output=True, text=True)
        if done.returncode != 0:
            sys.stderr.write(done.stdout[-3000:] + done.stderr[-6000:])
            raise SystemExit("R failed: " + script)
        if done.stderr.strip():
            sys.stderr.write("[R " + script + "] " + done.stderr[-1500:] + "\n")
        with open(target) as handle:
            return json.load(handle)


def t_quantile(p, df):
    """Student t quantile polished by Newton steps (scipy 1.10 alone is good to about 1e-9)."""
    from scipy import stats
    if p < 0.5:
        return -t_quantile(1 - p, df)
    x = stats.t.ppf(p, df)
    for _ in range(4):
        x += (stats.t.sf(x, df) - (1 - p)) / stats.t.pdf(x, df)
    return float(x)


def relative(a, b):
    """Difference relative to the larger magnitude; 0 when both are 0."""
    a, b = float(a), float(b)
    scale = max(abs(a), abs(b))
    return 0.0 if scale == 0 else abs(a - b) / scale


def compare(first, second, path=""):
    """Largest relative difference over the keys that both nested structures hold. Returns (difference, where, count)."""
    if isinstance(first, dict) and isinstance(second, dict):
        best = (0.0, "", 0)
        for key in first:
            if key in second:
                d, w, c = compare(first[key], second[key], path + "/" + str(key))
                n = best[2] + c
                best = (d, w, n) if d > best[0] else (best[0], best[1], n)
        return best
    if isinstance(first, (list, tuple, np.ndarray)) and isinstance(second, (list, tuple, np.ndarray)):
        best = (0.0, "", 0)
        if len(first) != len(second):
            return (float("inf"), path + " (lengths differ)", 1)
        for i, (a, b) in enumerate(zip(first, second)):
            d, w, c = compare(a, b, path + "/" + str(i))
            n = best[2] + c
            best = (d, w, n) if d > best[0] else (best[0], best[1], n)
        return best
    if isinstance(first, (list, tuple, np.ndarray)) and len(first) == 1 and not isinstance(second, (list, dict)):
        return compare(first[0], second, path)
    if isinstance(second, (list, tuple, np.ndarray)) and len(second) == 1 and not isinstance(first, (list, dict)):
        return compare(first, second[0], path)
    if first is None or second is None:
        return (0.0, "", 1) if first is second else (float("inf"), path + " (null against a value)", 1)
    if isinstance(first, str) or isinstance(second, str):
        return (0.0, "", 1) if first == second else (float("inf"), path + " (text differs)", 1)
    if isinstance(first, (bool, np.bool_)) or isinstance(second, (bool, np.bool_)):
        return (0.0, "", 1) if bool(first) == bool(second) else (float("inf"), path, 1)
    if isinstance(first, (int, float, np.number, mpmath.mpf)) and isinstance(second, (int, float, np.number, mpmath.mpf)):
        a, b = float(first), float(second)
        if not math.isfinite(a) and not math.isfinite(b):
            return (0.0, "", 1)
        # numbers that are zero up to rounding are compared absolutely
        if abs(a) < 1e-13 and abs(b) < 1e-13:
            return (0.0, "", 1)
        return (relative(a, b), path, 1)
    return (0.0, "", 0)


def agreement(methods, first, second):
    d, w, n = compare(clean(first), clean(second))
    out = {"methods": methods, "comparedNumbers": n, "largestRelativeDifference": d if math.isfinite(d) else "infinite"}
    if w:
        out["largestAt"] = w
    return out


def arguments():
    parser = argparse.ArgumentParser()
    parser.add_argument("--seed", type=int, required=True, help="seed of the data (or of the choice of arguments)")
    parser.add_argument("--size", type=float, default=1.0, help="1 gives the full set, 0.4 the small set")
    parser.add_argument("--out", required=True, help="folder that gets the JSON file")
    options = parser.parse_args()
    os.makedirs(options.out, exist_ok=True)
    return options
