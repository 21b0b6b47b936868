import { counted, measured, withUnit } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import { TextField } from "../../fittings/fields";
import { Note } from "../../fittings/note";
import { type ActButton, ActForm } from "../act-form";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";
import { PieceRow, type ShownPiece } from "./piece-row";

/** More than this fold away: what is done to all of them should stay in sight. */
const SHOWN_AT_ONCE = 12;

/** The pieces since the last good subgroup, and what was decided on each. */
export function Pieces({ shown, mayAct, zone }: { shown: ShownAlarm; mayAct: boolean; zone: string }) {
  const { alarm, suspect, decisions } = shown;
  const rows = pieceRows(shown, zone);
  if (rows.length === 0) {
    return (
      <Note kind="empty" title="No piece to hold is known">
        {suspect === null
          ? "The measurements that this alarm rested on give no signal any more."
          : "The measurements in doubt state no serial of a piece. Hold what was made in this time by lot and crate."}
      </Note>
    );
  }
  const held = [...decisions.values()].filter(({ decision }) => decision === "hold").length;
  const canAct = mayAct && alarm.state !== "closed";
  const rowsShown = (
    <ul className={styles.pieces}>
      {rows.map((row) => (
        <li key={row.id}>
          <PieceRow {...row} isChoice={canAct} />
        </li>
      ))}
    </ul>
  );
  const list =
    rows.length <= SHOWN_AT_ONCE ? (
      rowsShown
    ) : (
      <details className={styles.fold}>
        <summary>
          {canAct ? "Choose single pieces" : "See the pieces"} (all {rows.length})
        </summary>
        {rowsShown}
      </details>
    );
  return (
    <>
      <p>{sinceWords(shown, zone)}</p>
      {mayAct ? (
        <ActForm
          alarmId={alarm.id}
          seen={shown.seen}
          isWanted={canAct}
          otherwise={list}
          buttons={buttonsFor(rows)}
        >
          {rows
            .filter(({ decision }) => decision === "none")
            .map(({ id }) => (
              <input key={id} type="hidden" name="all" value={id} />
            ))}
          {list}
          <TextField
            label="Where they are, or why"
            name="note"
            hint="For example: crate 12, 40 unmeasured pieces with them. Releasing and scrapping want the reason and whose decision it is."
            maxLength={2000}
          />
        </ActForm>
      ) : (
        list
      )}
      <p className={styles.soft}>
        {held > 0 ? `${counted(held, "piece")} on hold. ` : ""}
        Pieces that were made in this time and not measured are in doubt as well: the list cannot know them.
        Whether a piece may be used is decided by the drawing, the customer's requirements and the shop's
        procedure for nonconforming product, by its qualified people.
      </p>
    </>
  );
}

function pieceRows(
  { pieces, serials, decisions, heldElsewhere, history }: ShownAlarm,
  zone: string,
): ShownPiece[] {
  const { feature } = history;
  const { lower, upper } = feature.plan.tolerance;
  const known = new Map(pieces?.pieces.map((piece) => [piece.pieceId, piece]));
  // What was decided on stays in sight, also when late measurements have moved the doubt elsewhere.
  const ids = [...known.keys(), ...[...decisions.keys()].filter((id) => !known.has(id))];
  return ids.map((id) => {
    const values = known.get(id)?.values ?? [];
    const decision = decisions.get(id);
    const at = known.get(id)?.at;
    const figures = values.map((value) => measured(value, { resolution: feature.resolution })).join("; ");
    return {
      id,
      serial: serials.get(id) ?? `piece ${id}`,
      values:
        at === undefined
          ? "no longer in doubt"
          : `${withUnit(figures, feature.unit)}, ${shortMomentIn(at, zone)}`,
      isOutside: values.some(
        (value) => (lower !== null && value < lower) || (upper !== null && value > upper),
      ),
      decision: decision?.decision ?? "none",
      decided: decision ? `${decision.by ?? "somebody"}, ${shortMomentIn(decision.at, zone)}` : "",
      elsewhere: heldElsewhere.get(id) ?? [],
    };
  });
}

function buttonsFor(rows: readonly ShownPiece[]): ActButton[] {
  const free = rows.filter(({ decision }) => decision === "none").length;
  const held = rows.filter(({ decision }) => decision === "hold").length;
  return [
    ...(free > 0
      ? [
          {
            does: "hold all",
            label: free === 1 ? "Hold the one piece" : `Hold all ${free} pieces`,
            kind: "main" as const,
          },
        ]
      : []),
    { does: "hold", label: "Hold those chosen" },
    ...(held > 0
      ? [
          { does: "release", label: "Release those chosen" },
          { does: "scrap", label: "Scrap those chosen", kind: "grave" as const },
        ]
      : []),
  ];
}

function sinceWords({ suspect, pieces, evaluation }: ShownAlarm, zone: string): string {
  if (!suspect || !pieces || pieces.from === null || pieces.to === null) return "";
  const { points } = evaluation;
  const good =
    suspect.lastGood === null
      ? "No good subgroup came before"
      : `The last good subgroup was measured ${shortMomentIn(points.at[suspect.lastGood] as number, zone)}`;
  const until = suspect.nextGood === null ? "no good one has followed yet" : "then a good one followed";
  const nameless =
    pieces.withoutPiece > 0 ? ` ${counted(pieces.withoutPiece, "reading")} among them state no piece.` : "";
  return `${good}. Since then ${counted(pieces.pieces.length, "piece")}, measured ${shortMomentIn(pieces.from, zone)} to ${shortMomentIn(pieces.to, zone)}; ${until}.${nameless}`;
}
