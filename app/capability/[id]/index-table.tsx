import { use } from "react";
import { indexMayBeCalled } from "../../../lib/capability/gate-outcome";
import type { IndexName } from "../../../lib/capability/indices";
import { percent } from "../../../lib/capability/words";
import type { ShownStudy } from "../../../lib/statement/content";
import type { Words } from "../../../lib/words/words";
import { AtLeast, Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import styles from "./detail.module.css";

const ORDER: readonly IndexName[] = ["Cp", "Cpk", "Cpl", "Cpu", "Pp", "Ppk", "Ppl", "Ppu", "Cpm"];

type Row = { name: IndexName; meaning: string };

/** Every index that has a meaning here, with its interval, its lower bound and what it may be called. */
export function IndexTable({ study }: { study: ShownStudy }) {
  const { capability, claims, formulas } = use(words());
  const { indexTable: said } = capability;
  const { heads } = said;
  const rows = ORDER.filter((name) => study[name] !== null).map((name) => ({
    name,
    meaning: said.meanings[name],
  }));
  const level = percent(study.confidence);
  return (
    <Table<Row>
      caption={said.caption(level)}
      rows={rows}
      rowKey={({ name }) => name}
      columns={[
        { key: "name", head: heads.index, cell: ({ name }) => name },
        {
          key: "value",
          head: heads.value,
          figures: true,
          cell: ({ name }) => <Num value={study[name]} places={2} />,
        },
        {
          key: "bound",
          head: heads.bound,
          figures: true,
          cell: ({ name }) => <AtLeast value={study.lowerBounds[name]} />,
        },
        {
          key: "interval",
          head: heads.interval,
          figures: true,
          cell: ({ name }) => (
            <IntervalWords interval={study.intervals[name]} to={said.to} absent={formulas.notComputed} />
          ),
        },
        {
          key: "word",
          head: heads.word,
          tight: true,
          cell: ({ name }) => indexMayBeCalled(name, study, claims),
        },
        {
          key: "meaning",
          head: heads.meaning,
          width: "46%",
          cell: ({ meaning }) => <span className={styles.meaning}>{meaning}</span>,
        },
      ]}
    />
  );
}

function IntervalWords({
  interval,
  to,
  absent,
}: {
  interval: readonly [number, number] | null;
  to: string;
  absent: string;
}) {
  if (interval === null) return <Num value={null} absent={absent} />;
  return (
    <>
      <Num value={interval[0]} places={2} /> {to} <Num value={interval[1]} places={2} />
    </>
  );
}

/** Why an index that somebody looks for is not in the table. */
export function absentIndices(
  study: ShownStudy,
  { hasTarget, words: said }: { hasTarget: boolean; words: Words["capability"]["indexTable"]["absent"] },
): string[] {
  const isOneSided = study.Pp === null && study.Ppk !== null;
  return [
    ...(isOneSided ? [said.oneSided] : []),
    ...(study.modelStudy !== null ? [said.fitted] : []),
    ...(study.modelStudy === null && study.Cpk === null && study.Ppk !== null ? [said.noWithin] : []),
    ...(hasTarget || study.modelStudy !== null ? [] : [said.noTarget]),
  ];
}
