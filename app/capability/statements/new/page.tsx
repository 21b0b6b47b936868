import { use } from "react";
import { MOST_FEATURES } from "../../../../db/commands/statements";
import { type FeatureRow, listFeatures, listParts } from "../../../../db/queries/features";
import { statementById, statementWindow } from "../../../../db/queries/statements";
import { presentable } from "../../../../lib/capability/gate-outcome";
import { standsInTheWay } from "../../../../lib/capability/gates";
import { unbroken } from "../../../../lib/format/figures";
import { partName } from "../../../../lib/format/names";
import { counted, toleranceWords } from "../../../../lib/format/numbers";
import { requirePage } from "../../../access";
import { database } from "../../../database";
import { Button, ControlRow } from "../../../fittings/controls";
import { SelectField, TextField } from "../../../fittings/fields";
import { Link } from "../../../fittings/link";
import { Note } from "../../../fittings/note";
import { PageFrame, Section } from "../../../fittings/page-frame";
import { StateShape } from "../../../fittings/state-word";
import { Table } from "../../../fittings/table";
import { words } from "../../../language/language";
import { plant } from "../../../plant";
import { writePageAsSigned } from "../../../shown/as-signed";
import { GateList } from "../../[id]/gate-list";
import { windowFieldWords } from "../../chosen-window";
import { GateLegend } from "../../gate-marks";
import { MODEL_ORDER } from "../../model-words";
import { studied } from "../../studied";
import { studyWindow } from "../../study-window";
import { WindowFields } from "../../window-fields";
import { type Draft, draftOf, valuesOf } from "../draft";
import styles from "../statements.module.css";
import { SignForm } from "./sign-form";

export const metadata = { title: "New capability statement" };

type Address = { searchParams: Promise<Record<string, string | string[] | undefined>> };

const TONES = { capability: "done", performance: "act", none: "none" } as const;

/** From the choice of features to what can be said of each, and to the signature. */
export default async function NewStatementPage({ searchParams }: Address) {
  await requirePage("/capability/statements/new");
  await writePageAsSigned();
  const { capability } = await words();
  const draft = draftOf(valuesOf(await searchParams));
  const db = await database();
  const parts = await listParts(db);
  const part = parts.find(({ id }) => id === draft.part) ?? null;
  const features = part ? await listFeatures(db, { partId: part.id }) : [];
  const before = draft.supersedes === null ? null : await statementById(db, draft.supersedes);
  return (
    <PageFrame
      title={before ? `A statement in place of statement ${before.id}` : "New capability statement"}
      above={
        <>
          <Link href="/capability">Capability</Link> · <Link href="/capability/statements">Statements</Link>
        </>
      }
      purpose="Choose what to state, read what can honestly be said, then sign. Nothing is kept before you sign."
    >
      {before && before.supersededBy !== null ? (
        <Note kind="remark">
          Statement {before.id} is superseded by{" "}
          <Link href={`/capability/statements/${before.supersededBy}`}>statement {before.supersededBy}</Link>{" "}
          already. Supersede that one.
        </Note>
      ) : null}
      <form action="/capability/statements/new" className={styles.choosing}>
        {draft.supersedes === null ? null : (
          <input type="hidden" name="supersedes" value={draft.supersedes} />
        )}
        <ControlRow>
          <SelectField
            label="Part and revision"
            name="part"
            defaultValue={part ? String(part.id) : ""}
            choices={[
              { value: "", label: "choose a part" },
              ...parts.map((each) => ({ value: String(each.id), label: `${partName(each)} ${each.name}` })),
            ]}
          />
          <WindowFields
            window={draft.window}
            words={windowFieldWords(capability.window)}
            key={draft.window.slug}
          />
          <TextField
            label="Lots"
            name="lots"
            defaultValue={draft.lots.join(", ")}
            hint="Codes with commas between them; empty for all"
          />
          <Button type="submit">{part ? "Show" : "Next"}</Button>
        </ControlRow>
        {part ? <Choice features={features} draft={draft} /> : null}
      </form>
      {draft.windowFault ? <Note kind="remark">{draft.windowFault}</Note> : null}
      {part && draft.features !== null ? <Said draft={draft} features={features} /> : null}
    </PageFrame>
  );
}

/** Key characteristics are chosen to begin with. */
function Choice({ features, draft }: { features: readonly FeatureRow[]; draft: Draft }) {
  const { capability } = use(words());
  const chosen = new Map(draft.features?.map(({ id, model }) => [id, model]));
  return (
    <Section
      title="Features"
      purpose={`Up to ${MOST_FEATURES}. Key characteristics are chosen to begin with.`}
      actions={<Button type="submit">Show what can be said</Button>}
    >
      <input type="hidden" name="chosen" value="1" />
      <Table
        caption={counted(features.length, "feature")}
        rows={features}
        rowKey={({ id }) => id}
        columns={[
          {
            key: "name",
            head: "Feature",
            cell: (feature) => (
              <label className={styles.choice}>
                <input
                  type="checkbox"
                  name="f"
                  value={feature.id}
                  defaultChecked={
                    draft.features === null ? feature.keyCharacteristic : chosen.has(feature.id)
                  }
                />
                <span>
                  {feature.name}
                  {feature.keyCharacteristic ? " (key)" : ""}
                </span>
              </label>
            ),
          },
          {
            key: "tolerance",
            head: "Tolerance",
            cell: (feature) => toleranceWords(feature.plan.tolerance, feature),
          },
          { key: "kind", head: "Kind", cell: ({ kind }) => kind },
          {
            key: "model",
            head: "Distribution",
            cell: (feature) => (
              <select
                name={`m-${feature.id}`}
                aria-label={`Distribution of ${feature.name}`}
                defaultValue={chosen.get(feature.id) ?? "normal"}
                className={styles.model}
              >
                {MODEL_ORDER.map((model) => (
                  <option key={model} value={model}>
                    {capability.models[model]}
                  </option>
                ))}
              </select>
            ),
          },
        ]}
      />
    </Section>
  );
}

/** What can be said of each chosen feature; refusals explain themselves and lead to what would mend them. */
async function Said({ draft, features }: { draft: Draft; features: readonly FeatureRow[] }) {
  const { capability } = await words();
  const db = await database();
  const { now, zone } = await plant();
  const { from, to } = studyWindow(draft.window, { now, zone });
  const chosen = (draft.features ?? []).filter(({ id }) => features.some((each) => each.id === id));
  if (chosen.length === 0) {
    return <Note kind="not-yet">No feature is chosen. Tick those that the statement is to speak of.</Note>;
  }
  if (chosen.length > MOST_FEATURES) {
    return (
      <Note kind="not-yet">
        {chosen.length} features are chosen, and one statement holds {MOST_FEATURES}. Leave some out.
      </Note>
    );
  }
  const window = await statementWindow(db, {
    from,
    to: to ?? now,
    lots: draft.lots.length === 0 ? null : draft.lots,
  });
  if (!window.ok)
    return <Note kind="not-yet">{window.message.replace("Nothing saved: ", "Nothing to study: ")}</Note>;

  const rows = [];
  for (const { id, model } of chosen) {
    const found = await studied(db, { id, window: window.value, model });
    if (found) rows.push({ id, model, feature: found.history.feature, study: found.result.study });
  }
  const can = rows.filter(({ study }) => presentable(study) === "capability").length;
  return (
    <>
      <Section
        title="What can be said"
        purpose={`${can} of ${counted(rows.length, "feature")} can be presented as capability. The others are stated as performance, or without an index, with the reason.`}
      >
        <GateLegend />
        <Table
          caption="As it will be signed"
          rows={rows}
          rowKey={({ id }) => id}
          columns={[
            {
              key: "feature",
              head: "Feature",
              width: "22%",
              cell: ({ id, model, feature }) => (
                <Link href={`/capability/${id}?window=${draft.window.slug}&model=${model}`}>
                  {feature.name}
                </Link>
              ),
            },
            {
              key: "claim",
              head: "What can be said",
              cell: ({ id, feature, study }) => (
                <>
                  <span className={styles.said}>
                    <StateShape tone={TONES[presentable(study)]} />
                    <span>{unbroken(study.claim)}</span>
                  </span>
                  {study.problem?.code === "no-tolerance" ? (
                    <p>
                      <Link href={`/plan/features/${id}`}>Tolerance in the control plan</Link>
                    </p>
                  ) : null}
                  {study.gates.some(standsInTheWay) ? (
                    <details className={styles.why}>
                      <summary>Why, and what would mend it</summary>
                      <GateList
                        gates={study.gates.filter(({ passed }) => passed !== true)}
                        featureId={feature.id}
                        autoHref={`/capability/${id}?window=${draft.window.slug}&model=auto`}
                      />
                    </details>
                  ) : null}
                </>
              ),
            },
            { key: "model", head: "Distribution", cell: ({ model }) => capability.models[model] },
          ]}
        />
      </Section>
      <Section
        title="Sign"
        purpose="Freezes the figures with the readings, limits, exclusions and causes behind them. It cannot be changed afterwards, only superseded."
      >
        <SignForm
          fields={[
            ["part", String(draft.part)],
            ["window", draft.window.slug],
            ["lots", draft.lots.join(",")],
            ["chosen", "1"],
            ...(draft.supersedes === null
              ? []
              : [["supersedes", String(draft.supersedes)] as [string, string]]),
            ...chosen.flatMap(({ id, model }): [string, string][] => [
              ["f", String(id)],
              [`m-${id}`, model],
            ]),
          ]}
        />
        <p>
          <Link href="/capability/statements">Leave without signing</Link>
        </p>
      </Section>
    </>
  );
}
