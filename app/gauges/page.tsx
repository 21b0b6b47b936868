import { gaugedFeatures, listGauges, listStudies } from "../../db/queries/gauges";
import { calendarDay } from "../../lib/format/times";
import { calibrationStanding } from "../../lib/measurement-systems/calibration";
import { mayOpen, requirePage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { plant } from "../plant";
import { GaugeTable } from "./gauge-table";
import { shareLegend } from "./gauge-words";
import styles from "./gauges.module.css";

export async function generateMetadata() {
  return { title: (await words()).gauges.title };
}

/** Every gauge: what it resolves, what its maker states, when it is due, and what it does to the features it measures. */
export default async function GaugesPage() {
  const person = await requirePage("/gauges");
  const { now, zone, lengths } = await plant();
  const { gauges: said } = await words();
  const db = await database();
  const gauges = await listGauges(db);
  const studies = await listStudies(db);
  const measured = await gaugedFeatures(db);
  const today = calendarDay(now, zone);
  const mayEnter = mayOpen(person, "/gauges/new");
  const rows = gauges.map((gauge) => ({
    gauge,
    standing: calibrationStanding(gauge.record?.calibrationDue ?? null, today),
    features: measured.get(gauge.id) ?? [],
    studies: studies.filter(
      (study) => study.gauge.id === gauge.id && study.supersededBy === null && study.withdrawnAt === null,
    ),
  }));
  return (
    <PageFrame
      term="gauge-share"
      title={said.title}
      purpose={said.purpose}
      actions={
        mayEnter ? (
          <LinkButton href="/gauges/new" kind={gauges.length === 0 ? "main" : "plain"}>
            {said.enter}
          </LinkButton>
        ) : null
      }
    >
      {gauges.length === 0 ? (
        <Note kind="empty" title={said.none}>
          {mayEnter ? said.noneMayEnter : said.noneMayNot}
        </Note>
      ) : (
        <>
          <GaugeTable lengths={lengths} rows={rows} />
          <p className={styles.under}>{shareLegend(said)}</p>
        </>
      )}
    </PageFrame>
  );
}
