import { type FeatureRow, listFeatures, listParts } from "../../db/queries/features";
import { presentable } from "../../lib/capability/gate-outcome";
import { reachOf } from "../../lib/capability/reach";
import { partName } from "../../lib/format/names";
import { indexAsked } from "../../lib/plan/index-asked";
import type { LengthDisplay } from "../../lib/units/length";
import type { Words } from "../../lib/words/words";
import { mayRun, requirePage } from "../access";
import { database } from "../database";
import { Button, ControlRow, LinkButton } from "../fittings/controls";
import { CheckField, SelectField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { plant } from "../plant";
import { studyShown } from "../shown/studies";
import styles from "./capability.module.css";
import { type CapabilityRow, CapabilityTable } from "./capability-table";
import { type ChosenWindow, chosenWindow, windowFieldWords } from "./chosen-window";
import { GateLegend } from "./gate-marks";
import { studied } from "./studied";
import { studyWindow } from "./study-window";
import { WindowFields } from "./window-fields";

export async function generateMetadata() {
  return { title: (await words()).capability.title };
}

type SearchParams = Record<string, string | string[] | undefined>;

/** Studying a feature takes some milliseconds; a page of more is chosen by part. */
const MOST_AT_ONCE = 200;

/** What can honestly be said of each feature to a customer, over a window of its history. */
export default async function CapabilityPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/capability");
  const asked = await searchParams;
  const language = await words();
  const { capability: said } = language;
  const { window, fault } = chosenWindow((name) => asked[name], language);
  const db = await database();
  const [parts, { now, zone, lengths }] = await Promise.all([listParts(db), plant()]);
  const part = parts.find(({ id }) => String(id) === asked.part) ?? null;
  const onlyKey = asked.key === "1";
  const wanted = (await listFeatures(db, part ? { partId: part.id } : {}))
    .filter(({ keyCharacteristic }) => keyCharacteristic || !onlyKey)
    .sort((a, b) => Number(b.keyCharacteristic) - Number(a.keyCharacteristic));
  const rows = await rowsOf(wanted.slice(0, MOST_AT_ONCE), { window, now, zone, lengths });

  return (
    <PageFrame
      term="capability"
      title={said.title}
      purpose={said.purpose}
      facts={rows.length > 0 ? <Tally rows={rows} words={said.tally} /> : null}
      actions={
        <>
          {mayRun(person, "signStatement") ? (
            <LinkButton
              kind="main"
              href={`/capability/statements/new?window=${window.slug}${part ? `&part=${part.id}` : ""}`}
            >
              {said.newStatement}
            </LinkButton>
          ) : null}
          <LinkButton href="/capability/statements">{said.statements}</LinkButton>
        </>
      }
    >
      {parts.length === 0 ? (
        <Note
          kind="empty"
          title={said.noFeatures}
          actions={<LinkButton href="/intake">{said.toIntake}</LinkButton>}
        >
          {said.noFeaturesWhy}
        </Note>
      ) : (
        <>
          <form action="/capability" key={`${part?.id} ${window.slug} ${onlyKey}`}>
            <ControlRow>
              <SelectField
                label={said.part}
                name="part"
                choices={[
                  { value: "", label: said.allParts },
                  ...parts.map((each) => ({
                    value: String(each.id),
                    label: `${partName(each)} ${each.name}`,
                  })),
                ]}
                defaultValue={part ? String(part.id) : ""}
              />
              <WindowFields window={window} words={windowFieldWords(said.window)} />
              <div className={styles.onlyKey}>
                <CheckField label={said.onlyKey} name="key" value="1" defaultChecked={onlyKey} />
              </div>
              <Button type="submit">{said.show}</Button>
            </ControlRow>
          </form>
          {fault ? <Note kind="remark">{fault}</Note> : null}
          {wanted.length > rows.length ? (
            <Note kind="remark">{said.firstOf(rows.length, wanted.length)}</Note>
          ) : null}
          <GateLegend />
          <CapabilityTable
            rows={rows}
            window={window}
            caption={said.table.caption(rows.length, window.words)}
          />
        </>
      )}
    </PageFrame>
  );
}

/** Key characteristics first; then those that cannot be presented, then those short of what is asked for. */
async function rowsOf(
  features: readonly FeatureRow[],
  { window, now, zone, lengths }: { window: ChosenWindow; now: number; zone: string; lengths: LengthDisplay },
): Promise<CapabilityRow[]> {
  const db = await database();
  const rows: CapabilityRow[] = [];
  for (const feature of features) {
    const found = await studied(db, {
      id: feature.id,
      window: studyWindow(window, { now, zone }),
      shownIn: lengths,
    });
    if (!found) continue;
    const { history, result } = await studyShown(found);
    const { study, subgroups, pieces, lots } = result;
    rows.push({ feature: history.feature, study, subgroups, pieces, lots });
  }
  return rows.sort((a, b) => urgency(a) - urgency(b));
}

function urgency({ feature, study }: CapabilityRow): number {
  const place = presentable(study) !== "capability" ? 0 : reaches({ feature, study }) ? 2 : 1;
  return (feature.keyCharacteristic ? 0 : 3) + place;
}

function reaches({ feature, study }: Pick<CapabilityRow, "feature" | "study">): boolean {
  return reachOf(study, indexAsked(feature))?.verdict === "shown";
}

function Tally({
  rows,
  words: said,
}: {
  rows: readonly CapabilityRow[];
  words: Words["capability"]["tally"];
}) {
  const count = (of: readonly CapabilityRow[], kind: ReturnType<typeof presentable>) =>
    of.filter(({ study }) => presentable(study) === kind).length;
  const presented = rows.filter(({ study }) => presentable(study) === "capability");
  const key = rows.filter(({ feature }) => feature.keyCharacteristic);
  const without = count(rows, "none");
  return (
    <>
      <span>
        <strong>{said.of(presented.length, rows.length)}</strong> {said.presentable}
      </span>
      {presented.length > 0 ? (
        <span>{said.reach(presented.filter(reaches).length, presented.length)}</span>
      ) : null}
      {key.length > 0 ? (
        <span>
          <strong>{said.ofKey(count(key, "capability"), key.length)}</strong>
        </span>
      ) : null}
      {without > 0 ? <span>{said.without(without)}</span> : null}
    </>
  );
}
