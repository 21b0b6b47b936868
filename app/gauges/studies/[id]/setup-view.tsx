import { counted, percent, unitSign } from "../../../../lib/format/numbers";
import type {
  SetupReading,
  StudyResult,
  StudySettings,
} from "../../../../lib/measurement-systems/study-data";
import { mean } from "../../../../lib/summary/moments";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
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
  const sign = unitSign(unit);
  const inUnit = sign === "" ? "" : `, in ${sign}`;
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
      <Section title="Components">
        <Table
          caption={`${counted(study.setups, "setup")}${inUnit}`}
          rows={[
            {
              name: "setting up anew",
              value: study.setup,
              interval:
                interval === null
                  ? "setups have different numbers of readings"
                  : `${figure(Math.sqrt(Math.max(0, interval[0])))} to ${figure(Math.sqrt(Math.max(0, interval[1])))}`,
            },
            { name: "within a setup", value: study.repeatability, interval: "" },
          ]}
          rowKey={({ name }) => name}
          columns={[
            { key: "name", head: "From", cell: ({ name }) => name },
            {
              key: "value",
              head: "Standard deviation",
              figures: true,
              cell: ({ value }) => <data value={value}>{figure(value)}</data>,
            },
            {
              key: "interval",
              head: `${percent(settings.confidence)} interval`,
              figures: true,
              cell: (row) => row.interval,
            },
          ]}
        />
      </Section>
      <Section title="Setups">
        <Table
          caption={`Means of the setups${inUnit}`}
          rows={[...cells.values()]}
          rowKey={({ piece, setup }) => `${piece} ${setup}`}
          columns={[
            { key: "setup", head: "Setup", cell: ({ setup }) => setup },
            { key: "piece", head: "Part", cell: ({ piece }) => piece },
            { key: "count", head: "Readings", figures: true, cell: ({ values }) => values.length },
            {
              key: "mean",
              head: "Mean",
              figures: true,
              cell: ({ values }) => <data value={mean(values)}>{figure(mean(values))}</data>,
            },
          ]}
        />
      </Section>
      <Formulas
        formulas={[
          {
            figure: "Setting up anew",
            formula: "σ² setup = (MS setup − MS within) / readings of a setup, within each part",
            numbers: `σ = ${figure(study.setup)}${study.p === null ? "" : `; p of no effect ${figure(study.p)}`}`,
            source: "NIST/SEMATECH e-Handbook 2.4.4, nested sources",
          },
          {
            figure: "Share",
            formula: "σ² setup / (σ² setup + σ² within)",
            numbers:
              study.share === null
                ? "nothing varied"
                : `${figure(study.setup)}² / (${figure(study.setup)}² + ${figure(study.repeatability)}²) = ${figure(study.share)}`,
            source: "by definition",
          },
        ]}
        assumptions={[
          {
            words: `There are enough setups to know their spread (5): ${study.setups}.`,
            holds: study.setups >= 5,
          },
          { words: "The gauge was really taken down and aligned anew between setups.", holds: null },
        ]}
      />
    </>
  );
}
