import { use } from "react";
import { measured, withUnit } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import type { Words } from "../../../lib/words/words";
import { TextField } from "../../fittings/fields";
import { Note } from "../../fittings/note";
import { words } from "../../language/language";
import { type ActButton, ActForm } from "../act-form";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";
import { PieceRow, type ShownPiece } from "./piece-row";

/** More than this fold away: what is done to all of them should stay in sight. */
const SHOWN_AT_ONCE = 12;

/** The pieces since the last good subgroup, and what was decided on each. */
export function Pieces({ shown, mayAct, zone }: { shown: ShownAlarm; mayAct: boolean; zone: string }) {
  const said = use(words());
  const { pieces: text } = said.alarms;
  const { alarm, suspect, decisions } = shown;
  const rows = pieceRows(shown, zone, said);
  if (rows.length === 0) {
    return (
      <Note kind="empty" title={text.none}>
        {suspect === null ? text.noSignal : text.noSerial}
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
        <summary>{canAct ? text.choose(rows.length) : text.see(rows.length)}</summary>
        {rowsShown}
      </details>
    );
  return (
    <>
      <p>{sinceWords(shown, zone, said)}</p>
      {mayAct ? (
        <ActForm
          alarmId={alarm.id}
          seen={shown.seen}
          isWanted={canAct}
          otherwise={list}
          buttons={buttonsFor(rows, text)}
        >
          {rows
            .filter(({ decision }) => decision === "none")
            .map(({ id }) => (
              <input key={id} type="hidden" name="all" value={id} />
            ))}
          {list}
          <TextField label={text.where} name="note" hint={text.whereHint} maxLength={2000} />
        </ActForm>
      ) : (
        list
      )}
      <p className={styles.soft}>
        {held > 0 ? `${text.onHold(held)} ` : ""}
        {text.caution}
      </p>
    </>
  );
}

function pieceRows(
  { pieces, serials, origins, decisions, heldElsewhere, history }: ShownAlarm,
  zone: string,
  { alarms: { card, pieces: text }, times }: Words,
): ShownPiece[] {
  const { feature } = history;
  const { lower, upper } = feature.plan.tolerance;
  const known = new Map(pieces?.pieces.map((piece) => [piece.pieceId, piece]));
  // What was decided on stays in sight, also when late measurements have moved the doubt elsewhere.
  const ids = [...known.keys(), ...[...decisions.keys()].filter((id) => !known.has(id))];
  return ids.map((id) => {
    const piece = known.get(id);
    const values = piece?.values ?? [];
    const lot = origins.lot.get(piece?.lot ?? 0);
    const fixture = origins.fixture.get(piece?.fixture ?? 0);
    const decision = decisions.get(id);
    const at = piece?.at;
    const figures = values.map((value) => measured(value, { resolution: feature.resolution })).join("; ");
    return {
      id,
      serial: serials.get(id) ?? text.piece(id),
      values:
        at === undefined
          ? text.noDoubt
          : `${withUnit(figures, feature.unit)}, ${shortMomentIn(at, zone, times)}`,
      origin: [
        ...(lot === undefined ? [] : [text.lot(lot)]),
        ...(fixture === undefined ? [] : [text.fixture(fixture)]),
      ].join(", "),
      isOutside: values.some(
        (value) => (lower !== null && value < lower) || (upper !== null && value > upper),
      ),
      decision: decision?.decision ?? "none",
      decided: decision ? `${decision.by ?? card.somebody}, ${shortMomentIn(decision.at, zone, times)}` : "",
      elsewhere: heldElsewhere.get(id) ?? [],
    };
  });
}

function buttonsFor(rows: readonly ShownPiece[], text: Words["alarms"]["pieces"]): ActButton[] {
  const free = rows.filter(({ decision }) => decision === "none").length;
  const held = rows.filter(({ decision }) => decision === "hold").length;
  return [
    ...(free > 0
      ? [
          {
            does: "hold all",
            label: text.holdAll(free),
            kind: "main" as const,
          },
        ]
      : []),
    { does: "hold", label: text.hold },
    ...(held > 0
      ? [
          { does: "release", label: text.release },
          { does: "scrap", label: text.scrap, kind: "grave" as const },
        ]
      : []),
  ];
}

function sinceWords(
  { suspect, pieces, evaluation }: ShownAlarm,
  zone: string,
  { alarms: { pieces: text }, times }: Words,
): string {
  if (!suspect || !pieces || pieces.from === null || pieces.to === null) return "";
  const moment = (at: number) => shortMomentIn(at, zone, times);
  const good =
    suspect.lastGood === null
      ? text.noGoodBefore
      : text.lastGood(moment(evaluation.points.at[suspect.lastGood] as number));
  const until = suspect.nextGood === null ? text.noGoodSince : text.goodSince;
  const nameless = pieces.withoutPiece > 0 ? text.nameless(pieces.withoutPiece) : "";
  const since = text.since(pieces.pieces.length, moment(pieces.from), moment(pieces.to));
  return `${good}. ${since}; ${until}.${nameless}`;
}
