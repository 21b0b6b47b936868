import { use } from "react";
import type { FeatureRow } from "../../db/queries/features";
import type { FeatureStudy } from "../../lib/capability/feature-study";
import { presentable } from "../../lib/capability/gate-outcome";
import { unbroken } from "../../lib/format/figures";
import { partName } from "../../lib/format/names";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Num } from "../fittings/num";
import { Table } from "../fittings/table";
import { words } from "../language/language";
import styles from "./capability.module.css";
import type { ChosenWindow } from "./chosen-window";
import { GateMarks } from "./gate-marks";
import { IndexLines } from "./index-lines";
import { Verdicts } from "./verdicts";

/** A feature with its study, without the readings behind it: a page holds hundreds. */
export type CapabilityRow = { feature: FeatureRow } & Pick<
  FeatureStudy,
  "study" | "subgroups" | "pieces" | "lots"
>;

/** One feature a line: what may be said of it, and the figures that it rests on. */
export function CapabilityTable({
  rows,
  window,
  caption,
}: {
  rows: readonly CapabilityRow[];
  window: ChosenWindow;
  caption: string;
}) {
  const { capability, claims } = use(words());
  const { table: said } = capability;
  const { heads } = said;
  const { mayBeCalled } = claims;
  return (
    <Table
      caption={caption}
      rows={rows}
      rowKey={({ feature }) => feature.id}
      empty={
        <Note kind="empty" title={said.none}>
          {said.noneWhy}
        </Note>
      }
      columns={[
        {
          key: "feature",
          head: heads.feature,
          width: "17%",
          cell: ({ feature }) => <FeatureCell feature={feature} window={window} />,
        },
        {
          key: "claim",
          head: heads.claim,
          cell: (row) => (
            <>
              <p className={styles.rowClaim}>{unbroken(row.study.claim)}</p>
              <Verdicts study={row.study} feature={row.feature} />
              <DataLine row={row} />
              <OtherModel row={row} window={window} />
            </>
          ),
        },
        { key: "gates", head: heads.gates, cell: ({ study }) => <GateMarks gates={study.gates} /> },
        {
          key: "within",
          head: heads.within,
          tight: true,
          cell: ({ study }) => (
            <Indices
              study={study}
              names={["Cp", "Cpk"]}
              word={{ ...mayBeCalled, performance: mayBeCalled.not }[presentable(study)]}
            />
          ),
        },
        {
          key: "overall",
          head: heads.overall,
          tight: true,
          cell: ({ study }) => (
            <Indices
              study={study}
              names={["Pp", "Ppk"]}
              word={presentable(study) === "none" ? mayBeCalled.none : mayBeCalled.performance}
            />
          ),
        },
      ]}
    />
  );
}

function FeatureCell({ feature, window }: { feature: FeatureRow; window: ChosenWindow }) {
  const { table: said } = use(words()).capability;
  return (
    <>
      <Link href={`/capability/${feature.id}?window=${window.slug}`} className={styles.name}>
        {feature.name}
      </Link>{" "}
      <span className={styles.under}>
        {partName(feature.part)}{" "}
        {feature.keyCharacteristic ? <span className={styles.key}>{said.key}</span> : null}{" "}
        <Link href={`/features/${feature.id}`} aria-label={said.chartOf(feature.name)}>
          {said.chart}
        </Link>
      </span>
    </>
  );
}

/** What the claim rests on; nothing measured says so itself. */
function DataLine({ row: { feature, study, subgroups, lots } }: { row: CapabilityRow }) {
  const { table: said } = use(words()).capability;
  if (study.count === 0) return null;
  return (
    <p className={styles.data}>
      {said.rests(study.count, subgroups, lots)}
      <Num value={study.mean} resolution={feature.resolution} extra={1} unit={feature.unit} />
    </p>
  );
}

/** This table goes by the normal model; where that does not stand for the readings, another is a step away. */
function OtherModel({ row: { feature, study }, window }: { row: CapabilityRow; window: ChosenWindow }) {
  const { table: said } = use(words()).capability;
  if (!study.gates.some(({ gate, passed }) => gate === "normal" && passed === false)) return null;
  return (
    <p className={styles.data}>
      <Link href={`/capability/${feature.id}?window=${window.slug}&model=auto`}>
        {said.otherModel(feature.name)}
      </Link>
    </p>
  );
}

function Indices({
  study,
  names,
  word,
}: {
  study: CapabilityRow["study"];
  names: readonly ("Cp" | "Cpk" | "Pp" | "Ppk")[];
  word: string;
}) {
  return (
    <>
      {study.problem === null ? <IndexLines study={study} names={names} /> : null}
      <span className={styles.indexWord}>{word}</span>
    </>
  );
}
