import { use } from "react";
import { MOST_FEATURES } from "../../../../db/commands/statements";
import { type FeatureRow, listFeatures, listParts } from "../../../../db/queries/features";
import { statementById, statementWindow } from "../../../../db/queries/statements";
import { presentable } from "../../../../lib/capability/gate-outcome";
import { standsInTheWay } from "../../../../lib/capability/gates";
import { unbroken } from "../../../../lib/format/figures";
import { partName } from "../../../../lib/format/names";
import { toleranceWords } from "../../../../lib/format/numbers";
import { requirePage } from "../../../access";
import { database } from "../../../database";
import { Button, ControlRow } from "../../../fittings/controls";
import { SelectField, TextField } from "../../../fittings/fields";
import { Filled } from "../../../fittings/filled";
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

export async function generateMetadata() {
  return { title: (await words()).statements.create.title };
}

type Address = { searchParams: Promise<Record<string, string | string[] | undefined>> };

const TONES = { capability: "done", performance: "act", none: "none" } as const;

/** From the choice of features to what can be said of each, and to the signature. */
export default async function NewStatementPage({ searchParams }: Address) {
  await requirePage("/capability/statements/new");
  await writePageAsSigned();
  const language = await words();
  const { capability, statements } = language;
  const { create: said } = statements;
  const draft = draftOf(valuesOf(await searchParams), language);
  const db = await database();
  const parts = await listParts(db);
  const part = parts.find(({ id }) => id === draft.part) ?? null;
  const features = part ? await listFeatures(db, { partId: part.id }) : [];
  const before = draft.supersedes === null ? null : await statementById(db, draft.supersedes);
  return (
    <PageFrame
      title={before ? said.inPlaceOf(before.id) : said.title}
      above={
        <>
          <Link href="/capability">{capability.title}</Link> ·{" "}
          <Link href="/capability/statements">{statements.short}</Link>
        </>
      }
      purpose={said.purpose}
    >
      {before && before.supersededBy !== null ? (
        <Note kind="remark">
          <Filled
            text={said.superseded(before.id)}
            holes={{
              statement: (
                <Link href={`/capability/statements/${before.supersededBy}`}>
                  {statements.statement(before.supersededBy)}
                </Link>
              ),
            }}
          />
        </Note>
      ) : null}
      <form action="/capability/statements/new" className={styles.choosing}>
        {draft.supersedes === null ? null : (
          <input type="hidden" name="supersedes" value={draft.supersedes} />
        )}
        <ControlRow>
          <SelectField
            label={said.part}
            name="part"
            defaultValue={part ? String(part.id) : ""}
            choices={[
              { value: "", label: said.choosePart },
              ...parts.map((each) => ({ value: String(each.id), label: `${partName(each)} ${each.name}` })),
            ]}
          />
          <WindowFields
            window={draft.window}
            words={windowFieldWords(capability.window)}
            key={draft.window.slug}
          />
          <TextField
            label={said.lots}
            name="lots"
            defaultValue={draft.lots.join(", ")}
            hint={said.lotsHint}
          />
          <Button type="submit">{part ? capability.show : said.next}</Button>
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
  const { capability, statements, charts, figures } = use(words());
  const { create: said } = statements;
  const { heads } = said;
  const chosen = new Map(draft.features?.map(({ id, model }) => [id, model]));
  return (
    <Section
      title={said.features}
      purpose={said.featuresPurpose(MOST_FEATURES)}
      actions={<Button type="submit">{said.showSaid}</Button>}
    >
      <input type="hidden" name="chosen" value="1" />
      <Table
        caption={said.count(features.length)}
        rows={features}
        rowKey={({ id }) => id}
        columns={[
          {
            key: "name",
            head: heads.feature,
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
                <span>{feature.keyCharacteristic ? said.key(feature.name) : feature.name}</span>
              </label>
            ),
          },
          {
            key: "tolerance",
            head: heads.tolerance,
            cell: (feature) => toleranceWords(feature.plan.tolerance, feature, figures),
          },
          { key: "kind", head: heads.kind, cell: ({ kind }) => charts.features[kind] },
          {
            key: "model",
            head: heads.model,
            cell: (feature) => (
              <select
                name={`m-${feature.id}`}
                aria-label={said.modelOf(feature.name)}
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
  const { capability, statements } = await words();
  const { create: said } = statements;
  const { heads } = said;
  const db = await database();
  const { now, zone } = await plant();
  const { from, to } = studyWindow(draft.window, { now, zone });
  const chosen = (draft.features ?? []).filter(({ id }) => features.some((each) => each.id === id));
  if (chosen.length === 0) {
    return <Note kind="not-yet">{said.noneChosen}</Note>;
  }
  if (chosen.length > MOST_FEATURES) {
    return <Note kind="not-yet">{said.tooMany(chosen.length, MOST_FEATURES)}</Note>;
  }
  const window = await statementWindow(db, {
    from,
    to: to ?? now,
    lots: draft.lots.length === 0 ? null : draft.lots,
  });
  if (!window.ok) return <Note kind="not-yet">{said.noLots(window.unknown.join(", "))}</Note>;

  const rows = [];
  for (const { id, model } of chosen) {
    const found = await studied(db, { id, window: window.value, model });
    if (found) rows.push({ id, model, feature: found.history.feature, study: found.result.study });
  }
  const can = rows.filter(({ study }) => presentable(study) === "capability").length;
  return (
    <>
      <Section title={said.said} purpose={said.saidPurpose(can, rows.length)}>
        <GateLegend />
        <Table
          caption={said.asSigned}
          rows={rows}
          rowKey={({ id }) => id}
          columns={[
            {
              key: "feature",
              head: heads.feature,
              width: "22%",
              cell: ({ id, model, feature }) => (
                <Link href={`/capability/${id}?window=${draft.window.slug}&model=${model}`}>
                  {feature.name}
                </Link>
              ),
            },
            {
              key: "claim",
              head: heads.said,
              cell: ({ id, feature, study }) => (
                <>
                  <span className={styles.said}>
                    <StateShape tone={TONES[presentable(study)]} />
                    <span>{unbroken(study.claim)}</span>
                  </span>
                  {study.problem?.code === "no-tolerance" ? (
                    <p>
                      <Link href={`/plan/features/${id}`}>{said.toTolerance}</Link>
                    </p>
                  ) : null}
                  {study.gates.some(standsInTheWay) ? (
                    <details className={styles.why}>
                      <summary>{said.why}</summary>
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
            { key: "model", head: heads.model, cell: ({ model }) => capability.models[model] },
          ]}
        />
      </Section>
      <Section title={said.sign} purpose={said.signPurpose}>
        <SignForm
          words={said.form}
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
          <Link href="/capability/statements">{said.leave}</Link>
        </p>
      </Section>
    </>
  );
}
