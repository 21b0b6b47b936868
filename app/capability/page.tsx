import { type FeatureRow, listFeatures, listParts } from "../../db/queries/features";
import { presentable } from "../../lib/capability/gate-outcome";
import { partName } from "../../lib/format/names";
import { counted } from "../../lib/format/numbers";
import { mayRun, requirePage } from "../access";
import { database } from "../database";
import { Button, ControlRow, LinkButton } from "../fittings/controls";
import { CheckField, SelectField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { plant } from "../plant";
import { studyShown } from "../shown/studies";
import styles from "./capability.module.css";
import { type CapabilityRow, CapabilityTable } from "./capability-table";
import { type ChosenWindow, chosenWindow } from "./chosen-window";
import { GateLegend } from "./gate-marks";
import { studied } from "./studied";
import { studyWindow } from "./study-window";
import { WindowFields } from "./window-fields";

export const metadata = { title: "Capability" };

type SearchParams = Record<string, string | string[] | undefined>;

/** Studying a feature takes some milliseconds; a page of more is chosen by part. */
const MOST_AT_ONCE = 200;

/** What can honestly be said of each feature to a customer, over a window of its history. */
export default async function CapabilityPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/capability");
  const asked = await searchParams;
  const { window, fault } = chosenWindow((name) => asked[name]);
  const db = await database();
  const [parts, { now, zone }] = await Promise.all([listParts(db), plant()]);
  const part = parts.find(({ id }) => String(id) === asked.part) ?? null;
  const onlyKey = asked.key === "1";
  const wanted = (await listFeatures(db, part ? { partId: part.id } : {}))
    .filter(({ keyCharacteristic }) => keyCharacteristic || !onlyKey)
    .sort((a, b) => Number(b.keyCharacteristic) - Number(a.keyCharacteristic));
  const rows = await rowsOf(wanted.slice(0, MOST_AT_ONCE), { window, now, zone });

  return (
    <PageFrame
      term="capability"
      title="Capability"
      purpose="What can honestly be said of each feature to a customer, and what stands against saying more."
      facts={rows.length > 0 ? <Tally rows={rows} /> : null}
      actions={
        <>
          {mayRun(person, "signStatement") ? (
            <LinkButton
              kind="main"
              href={`/capability/statements/new?window=${window.slug}${part ? `&part=${part.id}` : ""}`}
            >
              New statement
            </LinkButton>
          ) : null}
          <LinkButton href="/capability/statements">Statements</LinkButton>
        </>
      }
    >
      {parts.length === 0 ? (
        <Note
          kind="empty"
          title="No features yet"
          actions={<LinkButton href="/intake">To the intake</LinkButton>}
        >
          Parts and features are entered in the control plan, or come along with the first measurement file.
        </Note>
      ) : (
        <>
          <form action="/capability" key={`${part?.id} ${window.slug} ${onlyKey}`}>
            <ControlRow>
              <SelectField
                label="Part"
                name="part"
                choices={[
                  { value: "", label: "all parts" },
                  ...parts.map((each) => ({
                    value: String(each.id),
                    label: `${partName(each)} ${each.name}`,
                  })),
                ]}
                defaultValue={part ? String(part.id) : ""}
              />
              <WindowFields window={window} />
              <div className={styles.onlyKey}>
                <CheckField label="Only key characteristics" name="key" value="1" defaultChecked={onlyKey} />
              </div>
              <Button type="submit">Show</Button>
            </ControlRow>
          </form>
          {fault ? <Note kind="remark">{fault}</Note> : null}
          {wanted.length > rows.length ? (
            <Note kind="remark">
              The first {rows.length} of {counted(wanted.length, "feature")} are studied here, key
              characteristics first. Choose a part to see the others.
            </Note>
          ) : null}
          <GateLegend />
          <CapabilityTable
            rows={rows}
            window={window}
            caption={`${counted(rows.length, "feature")}, ${window.words}, by the normal model, key characteristics first, then what cannot be presented as capability`}
          />
        </>
      )}
    </PageFrame>
  );
}

/** Key characteristics first, then those that cannot be presented: they are what somebody has to work on. */
async function rowsOf(
  features: readonly FeatureRow[],
  { window, now, zone }: { window: ChosenWindow; now: number; zone: string },
): Promise<CapabilityRow[]> {
  const db = await database();
  const rows: CapabilityRow[] = [];
  for (const feature of features) {
    const found = await studied(db, { id: feature.id, window: studyWindow(window, { now, zone }) });
    if (!found) continue;
    const { history, result } = await studyShown(found);
    const { study, subgroups, pieces, lots } = result;
    rows.push({ feature: history.feature, study, subgroups, pieces, lots });
  }
  return rows.sort((a, b) => urgency(a) - urgency(b));
}

function urgency({ feature, study }: CapabilityRow): number {
  return (feature.keyCharacteristic ? 0 : 2) + (presentable(study) === "capability" ? 1 : 0);
}

function Tally({ rows }: { rows: readonly CapabilityRow[] }) {
  const count = (of: readonly CapabilityRow[], kind: ReturnType<typeof presentable>) =>
    of.filter(({ study }) => presentable(study) === kind).length;
  const key = rows.filter(({ feature }) => feature.keyCharacteristic);
  const without = count(rows, "none");
  return (
    <>
      <span>
        <strong>
          {count(rows, "capability")} of {counted(rows.length, "feature")}
        </strong>{" "}
        can be presented as capability
      </span>
      {key.length > 0 ? (
        <span>
          <strong>
            {count(key, "capability")} of {counted(key.length, "key characteristic")}
          </strong>
        </span>
      ) : null}
      {without > 0 ? <span>{without} without an index</span> : null}
    </>
  );
}
