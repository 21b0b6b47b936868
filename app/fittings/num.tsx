import { useCommonWords } from "#common-words";
import { fixedAtLeast, measured, placesOf, unitSign } from "../../lib/format/numbers";
import styles from "./num.module.css";

/**
 * A figure with its resolution, sign and unit.
 *
 * `alignTo` is the number of decimals of its column: a figure with fewer keeps the room of those it lacks, so
 * that decimal points stand under each other. `extra` adds decimals for means and limits. The figure with all its
 * digits goes along for who saves a table.
 */
export function Num({
  value,
  resolution = null,
  places,
  extra = 0,
  unit,
  signed = false,
  alignTo,
  absent,
}: {
  value: number | null | undefined;
  /** Step of the gauge. Ignored where `places` says how many decimals to show. */
  resolution?: number | null;
  places?: number;
  extra?: number;
  unit?: string | undefined;
  signed?: boolean;
  alignTo?: number;
  /** What a screen reader says for a figure that is not there; a dash is shown. */
  absent?: string;
}) {
  const { figures } = useCommonWords();
  if (value === null || value === undefined || Number.isNaN(value)) {
    return (
      <span className={styles.absent}>
        <span aria-hidden="true">–</span>
        <span className="only-read-out">{absent ?? figures.notKnown}</span>
      </span>
    );
  }
  const own = places ?? placesOf(resolution) + extra;
  const text = measured(value, { resolution: 10 ** -own, signed });
  const sign = unit === undefined ? "" : unitSign(unit);
  return (
    <data value={value} className={styles.num}>
      {text}
      {alignTo !== undefined && alignTo > own ? <Room places={own} alignTo={alignTo} /> : null}
      {sign === "" ? null : <span className={styles.unit}>{sign === "°" ? sign : `\u00a0${sign}`}</span>}
    </data>
  );
}

/** The lower bound of an index, rounded down to two decimals. */
export function AtLeast({ value }: { value: number | null | undefined }) {
  const { figures } = useCommonWords();
  if (value === null || value === undefined) return <Num value={null} absent={figures.notComputed} />;
  return (
    <data value={value} className={styles.num}>
      {fixedAtLeast(value, 2)}
    </data>
  );
}

/** As wide as the decimals that are not shown. */
function Room({ places, alignTo }: { places: number; alignTo: number }) {
  return (
    <span aria-hidden="true" className={styles.room}>
      {places === 0 ? "." : ""}
      {"0".repeat(alignTo - places)}
    </span>
  );
}
