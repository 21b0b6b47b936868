import { use } from "react";
import { percent, unitName } from "../../../../lib/format/numbers";
import type {
  SetupReading,
  StudyResult,
  StudySettings,
} from "../../../../lib/measurement-systems/study-data";
import { mean } from "../../../../lib/summary/moments";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
import { words } from "../../../language/language";
import { Formulas, figure } from "./formulas";

type Result = Extract<StudyResult, { kind: "setup" }>;

/** What setting a portable gauge up anew adds to its readings. */
export function SetupView({
  result: { study },
  readings,
  settings,
  unit,
}: {
  result: Result;
  readings: readonly SetupReading[];
  settings: StudySettings;
  unit: string;
}) {
  const sign = unitName(unit, use(words()).figures);
  const { setup: said, formulas } = use(words()).gaugeStudies;
  const cells = new Map<string, { piece: string; setup: string; values: number[] }>();
  for (const { piece, setup, value } of readings) {
    const key = JSON.stringify([piece, setup]);
    const cell = cells.get(key) ?? { piece, setup, values: [] };
    cell.values.push(value);
    cells.set(key, cell);
  }
  const interval = study.setupVarianceInterval;
  return (
    <>
      <Section title={said.components}>
        <Table
          caption={said.caption(study.setups, sign)}
          rows={[
            {
              name: said.anew,
              value: study.setup,
              interval:
                interval === null
                  ? said.noInterval
                  : formulas.fromTo(
                      figure(Math.sqrt(Math.max(0, interval[0]))),
                      figure(Math.sqrt(Math.max(0, interval[1]))),
                    ),
            },
            { name: said.within, value: study.repeatability, interval: "" },
          ]}
          rowKey={({ name }) => name}
          columns={[
            { key: "name", head: said.heads.from, cell: ({ name }) => name },
            {
              key: "value",
              head: said.heads.sd,
              figures: true,
              cell: ({ value }) => <data value={value}>{figure(value)}</data>,
            },
            {
              key: "interval",
              head: said.interval(percent(settings.confidence)),
              figures: true,
              cell: (row) => row.interval,
            },
          ]}
        />
      </Section>
      <Section title={said.setups}>
        <Table
          caption={said.meansCaption(sign)}
          rows={[...cells.values()]}
          rowKey={({ piece, setup }) => `${piece} ${setup}`}
          columns={[
            { key: "setup", head: said.heads.setup, cell: ({ setup }) => setup },
            { key: "piece", head: said.heads.piece, cell: ({ piece }) => piece },
            { key: "count", head: said.heads.count, figures: true, cell: ({ values }) => values.length },
            {
              key: "mean",
              head: said.heads.mean,
              figures: true,
              cell: ({ values }) => <data value={mean(values)}>{figure(mean(values))}</data>,
            },
          ]}
        />
      </Section>
      <Formulas
        formulas={[
          {
            figure: said.figures.anew,
            formula: said.anewFormula,
            numbers: said.anewIs(figure(study.setup), study.p === null ? null : figure(study.p)),
            source: said.anewSource,
          },
          {
            figure: said.figures.share,
            formula: said.shareFormula,
            numbers:
              study.share === null
                ? said.nothingVaried
                : `${figure(study.setup)}² / (${figure(study.setup)}² + ${figure(study.repeatability)}²) = ${figure(study.share)}`,
            source: said.byDefinition,
          },
        ]}
        assumptions={[
          {
            words: said.presumes.enough(study.setups),
            holds: study.setups >= 5,
          },
          { words: said.presumes.anew, holds: null },
        ]}
      />
    </>
  );
}
