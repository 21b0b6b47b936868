#!/usr/bin/env python3
"""Limits, signals and capability of every feature of a tidy file: what people script with tables and arrays.

  study.py IN.csv OUT.json [--store OUT.db]

Consecutive subgroups of five in the file's order, limits from the first 25, eight run rules on the means and the limits
on the ranges, Cp and Cpk from the mean range, Pp and Ppk from the standard deviation. With --store measurements,
pieces, sources and signals go into SQLite as well: a new file without a journal, written to the disk and then put in
its place, so that it is there as a whole or not at all. No row is checked, and no duplicate or late one found. Needs
pandas. d2 and d3 of five by integration of the distribution of the range (SciPy), as tests/reference has them.
"""
import argparse
import json
import os
import sqlite3

import numpy as np
import pandas as pd

N, BASELINE = 5, 25
D2, D3 = 2.3259289472810396, 0.8640819410994985
TIE = 1e-9
NEEDED = ["taken_at", "part", "feature", "lower_tolerance", "upper_tolerance", "value"]
SOURCES = ["lot", "fixture", "tool", "machine", "gauge", "operator"]


def last(holds, width, place):
    """How many of the last `width` points of the same feature hold; 0 where there are fewer."""
    sums = np.concatenate([[0], np.cumsum(holds)])
    count = np.zeros(len(holds), np.int64)
    count[width - 1 :] = sums[width:] - sums[:-width]
    count[place < width - 1] = 0
    return count


def signals_of(z, place):
    """Each run rule with where it fires; `place` is the position of a point within its feature."""
    far = np.abs(z)
    step = np.zeros(len(z))
    step[1:] = z[1:] - z[:-1]
    step[place == 0] = 0
    way = np.sign(np.where(np.abs(step) < TIE, 0, step))
    turn = np.zeros(len(z), bool)
    turn[1:] = way[1:] * way[:-1] == -1
    turn[place < 2] = False

    def either(above, below, count, width):
        return (above & (last(above, width, place) >= count)) | (below & (last(below, width, place) >= count))

    return {
        "beyond-3s": far > 3,
        "two-of-three-2s": either(z > 2, z < -2, 2, 3),
        "four-of-five-1s": either(z > 1, z < -1, 4, 5),
        "nine-one-side": either(z > 0, z < 0, 9, 9),
        "six-trend": ((last(way > 0, 5, place) == 5) | (last(way < 0, 5, place) == 5)) & (place >= 5),
        "fourteen-alternating": (last(turn, 12, place) == 12) & (place >= 13),
        "fifteen-within-1s": last(far < 1, 15, place) == 15,
        "eight-outside-1s": last(far > 1, 8, place) == 8,
    }


def study(frame):
    parts, names = frame["part"].cat, frame["feature"].cat
    key = parts.codes.to_numpy(np.int64) * len(names.categories) + names.codes.to_numpy()
    ids, code, count = np.unique(key, return_inverse=True, return_counts=True)
    order = np.argsort(code.astype(np.uint16), kind="stable")
    value = frame["value"].to_numpy()[order]
    start = np.concatenate([[0], np.cumsum(count)[:-1]])

    groups = count // N
    first = np.concatenate([[0], np.cumsum(groups)[:-1]])
    owner = np.repeat(np.arange(len(ids)), groups)
    place = np.arange(groups.sum()) - first[owner]
    members = value[(start[owner] + place * N)[:, None] + np.arange(N)]
    mean = members.mean(1)
    spread = members.max(1) - members.min(1)

    begins = place < BASELINE
    used = np.bincount(owner[begins], minlength=len(ids))
    centre = np.bincount(owner[begins], mean[begins], len(ids)) / used
    width = np.bincount(owner[begins], spread[begins], len(ids)) / used
    sigma = width / D2
    z = (mean - centre[owner]) / (sigma[owner] / np.sqrt(N))
    fired = signals_of(z, place)
    d = 3 * D3 / D2
    fired["range"] = (spread > (1 + d) * width[owner]) | (spread < max(0, 1 - d) * width[owner])

    at = order[start]
    lower, upper = frame["lower_tolerance"].to_numpy()[at], frame["upper_tolerance"].to_numpy()[at]
    overall = np.add.reduceat(value, start) / count
    deviation = np.sqrt(np.add.reduceat((value - np.repeat(overall, count)) ** 2, start) / (count - 1))
    within = np.bincount(owner, spread, len(ids)) / groups / D2
    near = np.minimum(upper - overall, overall - lower) / 3
    figures = {
        "centre": centre,
        "sigma": sigma,
        "mean": overall,
        "Cp": (upper - lower) / 6 / within,
        "Cpk": near / within,
        "Pp": (upper - lower) / 6 / deviation,
        "Ppk": near / deviation,
    }
    rows = [(rule, np.flatnonzero(where)) for rule, where in fired.items()]
    signals = pd.DataFrame(
        {
            "feature": np.concatenate([owner[where] for _, where in rows]),
            "rule": np.concatenate([np.full(len(where), i) for i, (_, where) in enumerate(rows)]),
            "at": np.concatenate([place[where] for _, where in rows]),
        }
    ).sort_values(["feature", "at", "rule"], kind="stable")
    named = [(parts.categories[i // len(names.categories)], names.categories[i % len(names.categories)]) for i in ids]
    return named, count, figures, signals, list(fired), (code, order)


def as_json(named, count, figures, signals, rules):
    ends = np.searchsorted(signals["feature"].to_numpy(), np.arange(len(named) + 1))
    rows = signals[["rule", "at"]].to_numpy().tolist()
    columns = {name: values.tolist() for name, values in figures.items()}
    return {
        "rules": rules,
        "features": [
            {
                "part": part,
                "feature": feature,
                "count": int(count[i]),
                **{name: values[i] for name, values in columns.items()},
                "signals": rows[ends[i] : ends[i + 1]],
            }
            for i, (part, feature) in enumerate(named)
        ],
    }


def store(path, frame, named, signals, code, order):
    making = f"{path}.making"
    for each in (making, path):
        if os.path.exists(each):
            os.remove(each)
    db = sqlite3.connect(making, isolation_level=None)
    db.executescript(
        """PRAGMA journal_mode=OFF; PRAGMA synchronous=OFF; PRAGMA cache_size=-65536; PRAGMA locking_mode=EXCLUSIVE;
        CREATE TABLE feature(id INTEGER PRIMARY KEY, part TEXT, name TEXT);
        CREATE TABLE source(kind TEXT, id INT, name TEXT, PRIMARY KEY(kind, id)) WITHOUT ROWID;
        CREATE TABLE piece(id INTEGER PRIMARY KEY, name TEXT);
        CREATE TABLE measurement(feature INT, taken_at INT, id INT, value REAL, piece INT, lot INT, fixture INT, tool INT,
          machine INT, gauge INT, operator INT, part_temp REAL, PRIMARY KEY(feature, taken_at, id)) WITHOUT ROWID;
        CREATE TABLE signal(feature INT, at INT, rule INT, PRIMARY KEY(feature, at, rule)) WITHOUT ROWID;
        BEGIN;"""
    )
    moments = frame["taken_at"].cat
    milliseconds = pd.to_datetime(pd.Series(moments.categories), utc=True).astype("int64").to_numpy() // 10**6
    taken = milliseconds[moments.codes.to_numpy()]
    db.executemany("INSERT INTO feature VALUES(?,?,?)", [(i, part, name) for i, (part, name) in enumerate(named)])
    db.executemany("INSERT INTO piece VALUES(?,?)", enumerate(frame["piece"].cat.categories.tolist()))
    for kind in SOURCES:
        rows = [(kind, i, name) for i, name in enumerate(frame[kind].cat.categories.tolist())]
        db.executemany("INSERT INTO source VALUES(?,?,?)", rows)
    columns = [code, taken, np.arange(len(frame)), frame["value"].to_numpy()]
    columns += [frame[name].cat.codes.to_numpy() for name in ["piece", *SOURCES]] + [frame["part_temp_c"].to_numpy()]
    db.executemany(
        f"INSERT INTO measurement VALUES({','.join('?' * len(columns))})",
        zip(*[column[order].tolist() for column in columns]),
    )
    db.executemany("INSERT INTO signal VALUES(?,?,?)", signals[["feature", "at", "rule"]].to_numpy().tolist())
    db.execute("CREATE INDEX measurement_piece ON measurement(piece)")
    db.execute("COMMIT")
    db.close()
    for each in (making, os.path.dirname(os.path.abspath(path))):
        handle = os.open(each, os.O_RDONLY)
        os.fsync(handle)
        os.close(handle)
    os.rename(making, path)


def main():
    words = argparse.ArgumentParser()
    words.add_argument("csv")
    words.add_argument("out")
    words.add_argument("--store")
    given = words.parse_args()
    texts = ["taken_at", "part", "feature"] + (["piece", "unit", *SOURCES] if given.store else [])
    frame = pd.read_csv(
        given.csv,
        usecols=None if given.store else NEEDED,
        dtype={name: "category" for name in texts},
        na_filter=False,
    )
    named, count, figures, signals, rules, (code, order) = study(frame)
    with open(given.out, "w") as out:
        out.write(json.dumps(as_json(named, count, figures, signals, rules), separators=(",", ":")))
    if given.store:
        store(given.store, frame, named, signals, code, order)


if __name__ == "__main__":
    main()
