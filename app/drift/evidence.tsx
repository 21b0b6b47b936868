import { counted, fixed, percent, placesOf, withUnit } from "../../lib/format/numbers";
import { sigmaWords } from "../../lib/sources/change-words";
import type { FeatureStep } from "../../lib/sources/find-step";
import { MM_PER_INCH, sharedShift } from "../../lib/sources/shared-shift";
import { Link } from "../fittings/link";
import { Num } from "../fittings/num";
import { StateWord } from "../fittings/state-word";
import { Table } from "../fittings/table";
import styles from "./drift.module.css";
import type { DriftNames } from "./drift-names";
import type { Moved } from "./part-drift";

/** What moved with a source and what did not, and how its neighbours did in the same lots. */
export function Evidence({ moved, names, from }: { moved: Moved; names: DriftNames; from: number }) {
  const { kind, source, change } = moved;
  const rows = [...change.features].sort(
    (a, b) => Number(b.moved) - Number(a.moved) || errorsOf(b) - errorsOf(a),
  );
  const places = Math.max(...rows.map((row) => placesFor(names.feature(row.feature).resolution)));
  const shared = kind === "gauge" ? sharedInMillimetres(rows, names) : null;
  return (
    <>
      <NeighbourWords change={change} names={names} />
      {shared ? <p className={styles.remarkWide}>{shared}</p> : null}
      <Table
        caption={`${counted(rows.filter((row) => row.moved).length, "feature")} moved with ${names.source(source)} since ${names.lot(change.since)}, ${rows.filter((row) => !row.moved).length} did not`}
        rows={rows}
        rowKey={(row) => row.feature}
        rowClass={(row) => (row.moved ? undefined : styles.still)}
        columns={[
          {
            key: "feature",
            head: "Feature",
            width: "38%",
            cell: (row) => (
              <Link href={`/features/${row.feature}?colour=${kind}&from=${from}`}>
                {names.feature(row.feature).name}
              </Link>
            ),
          },
          {
            key: "state",
            head: "Since then",
            tight: true,
            cell: (row) =>
              row.moved ? (
                <StateWord state="act">{row.difference > 0 ? "moved up" : "moved down"}</StateWord>
              ) : (
                <StateWord state="quiet">did not move</StateWord>
              ),
          },
          {
            key: "difference",
            head: "Change ± standard error",
            figures: true,
            cell: (row) => {
              const { unit, resolution } = names.feature(row.feature);
              const own = placesFor(resolution);
              return (
                <span className={styles.change}>
                  <Num value={row.difference} places={own} alignTo={places} signed />
                  <span>±</span>
                  <Num value={row.standardError} places={own} alignTo={places} unit={unit} />
                </span>
              );
            },
          },
          {
            key: "share",
            head: "Of tolerance",
            figures: true,
            cell: (row) => {
              const { width } = names.feature(row.feature);
              if (width === null) return <Num value={null} absent="no tolerance width" />;
              return percent(Math.abs(row.difference) / width);
            },
          },
          {
            key: "sigma",
            head: "In sigma",
            figures: true,
            cell: (row) => <Num value={row.differenceInSigma} places={1} signed />,
          },
        ]}
      />
    </>
  );
}

function NeighbourWords({ change, names }: { change: Moved["change"]; names: DriftNames }) {
  if (change.neighbours.length === 0) return null;
  return (
    <ul className={styles.neighbours}>
      {change.neighbours.map(({ source, difference, standardError, flat }) => (
        <li key={source}>
          <StateWord state={flat ? "quiet" : "watch"}>
            {names.source(source)} {flat ? "stayed flat" : "changed as well"}
          </StateWord>{" "}
          in its own readings on the same features since then: {sigmaWords(difference)} ±{" "}
          {fixed(standardError, 1)}, lots not taken out.
        </li>
      ))}
    </ul>
  );
}

/** A gauge that was set wrong adds the same length to everything it reads. */
function sharedInMillimetres(rows: readonly FeatureStep[], names: DriftNames): string | null {
  const lengths = rows.flatMap((row) => {
    const { unit } = names.feature(row.feature);
    const scale = unit === "mm" ? 1 : unit === "in" ? MM_PER_INCH : null;
    if (!row.moved || scale === null) return [];
    return [{ difference: row.difference * scale, standardError: row.standardError * scale }];
  });
  const shared = sharedShift(lengths);
  if (!shared || shared.disagreement === null) return null;
  const shift = withUnit(
    `${fixed(shared.shift, 4, { signed: true })} ± ${fixed(shared.standardError, 4)}`,
    "mm",
  );
  return shared.disagreement < 2
    ? `One shift explains all of them: ${shift} on ${counted(lengths.length, "feature")}. Check the gauge before the machine.`
    : `No single shift explains them: they scatter about ${shift} more than their errors allow, so this is not a gauge that reads everything off by the same amount.`;
}

/** One decimal finer than the gauge: differences of means resolve more than a reading. */
function placesFor(resolution: number | null): number {
  return placesOf(resolution) + 1;
}

function errorsOf({ difference, standardError }: FeatureStep): number {
  return Math.abs(difference) / standardError;
}
