import { indexMayBeCalled } from "../../../lib/capability/gate-outcome";
import type { IndexName } from "../../../lib/capability/indices";
import { percent } from "../../../lib/capability/words";
import type { ShownStudy } from "../../../lib/statement/content";
import { AtLeast, Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import styles from "./detail.module.css";

const MEANINGS: readonly [name: IndexName, meaning: string][] = [
  ["Cp", "Width of the tolerance over six sigma within subgroups, wherever the process lies."],
  ["Cpk", "From the mean to the nearer limit, over three sigma within subgroups."],
  ["Cpl", "The same towards the lower limit alone."],
  ["Cpu", "The same towards the upper limit alone."],
  ["Pp", "Width of the tolerance over six standard deviations of all readings."],
  ["Ppk", "From the mean to the nearer limit, over three standard deviations of all readings."],
  ["Ppl", "The same towards the lower limit alone."],
  ["Ppu", "The same towards the upper limit alone."],
  ["Cpm", "Width of the tolerance over six times the spread about the target instead of the mean."],
];

type Row = { name: IndexName; meaning: string };

/** Every index that has a meaning here, with its interval, its lower bound and what it may be called. */
export function IndexTable({ study }: { study: ShownStudy }) {
  const rows = MEANINGS.filter(([name]) => study[name] !== null).map(([name, meaning]) => ({
    name,
    meaning,
  }));
  const level = percent(study.confidence);
  return (
    <Table<Row>
      caption={`Intervals two-sided, lower bounds one-sided, both with ${level} confidence`}
      rows={rows}
      rowKey={({ name }) => name}
      columns={[
        { key: "name", head: "Index", cell: ({ name }) => name },
        {
          key: "value",
          head: "Estimate",
          figures: true,
          cell: ({ name }) => <Num value={study[name]} places={2} />,
        },
        {
          key: "bound",
          head: "At least",
          figures: true,
          cell: ({ name }) => <AtLeast value={study.lowerBounds[name]} />,
        },
        {
          key: "interval",
          head: "Interval",
          figures: true,
          cell: ({ name }) => <IntervalWords interval={study.intervals[name]} />,
        },
        {
          key: "word",
          head: "May be called",
          tight: true,
          cell: ({ name }) => indexMayBeCalled(name, study),
        },
        {
          key: "meaning",
          head: "What it says",
          width: "46%",
          cell: ({ meaning }) => <span className={styles.meaning}>{meaning}</span>,
        },
      ]}
    />
  );
}

function IntervalWords({ interval }: { interval: readonly [number, number] | null }) {
  if (interval === null) return <Num value={null} absent="not computed" />;
  return (
    <>
      <Num value={interval[0]} places={2} /> to <Num value={interval[1]} places={2} />
    </>
  );
}

/** Why an index that somebody looks for is not in the table. */
export function absentIndices(study: ShownStudy, { hasTarget }: { hasTarget: boolean }): string[] {
  const isOneSided = study.Pp === null && study.Ppk !== null;
  return [
    ...(isOneSided
      ? ["Only one tolerance limit is judged against, so there is no Cp and no Pp: nothing has a width."]
      : []),
    ...(study.modelStudy !== null
      ? ["No Cp, Cpk and Cpm: only the normal model parts a spread within subgroups from the whole."]
      : []),
    ...(study.modelStudy === null && study.Cpk === null && study.Ppk !== null
      ? ["No Cp and no Cpk: the subgroups show no spread of their own that could be estimated."]
      : []),
    ...(hasTarget || study.modelStudy !== null ? [] : ["No Cpm: the control plan states no target."]),
  ];
}
