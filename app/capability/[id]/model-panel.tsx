import { GATE_REQUIREMENTS } from "../../../lib/capability/gates";
import { MODELS } from "../../../lib/capability/models/models";
import type { CapabilityStudy } from "../../../lib/capability/study";
import { testWords } from "../../../lib/capability/test-words";
import { pWords } from "../../../lib/capability/words";
import { significant } from "../../../lib/format/figures";
import { fixed } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { LinkTabs } from "../../fittings/controls";
import { Facts } from "../../fittings/facts";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { type Asked, queryOf } from "../asked";
import { MODEL_FORMS, MODEL_NAMES_SHOWN, MODEL_ORDER } from "../model-words";
import styles from "./detail.module.css";

/** The choice of a distribution; each is an address of its own. */
export function ModelTabs({ id, asked }: { id: number; asked: Asked }) {
  return (
    <LinkTabs
      label="Distribution"
      links={MODEL_ORDER.map((model) => ({
        href: `/capability/${id}${queryOf({ ...asked, model })}`,
        label: MODEL_NAMES_SHOWN[model],
        isCurrent: model === asked.model,
      }))}
    />
  );
}

/** What the fitted distribution is, how it stands for the readings, and which others were tried. */
export function ModelPanel({ study, feature }: { study: CapabilityStudy; feature: ShownFeature }) {
  const { modelStudy } = study;
  if (modelStudy === null) return <p className={styles.caption}>{testWords(study)}</p>;
  const { fit, quantiles, tried } = modelStudy;
  const { signs } = MODEL_FORMS[fit.model];
  const { places, unit } = feature;
  return (
    <>
      <p className={styles.caption}>
        Indices rest on {MODELS[fit.model].words}. {testWords(study)}{" "}
        {feature.naturalBound === null || feature.naturalBound === 0
          ? ""
          : "It is fitted to the distance from the natural bound. "}
        Cp and Cpk are not taken: only the normal model parts a spread within subgroups from the whole.
      </p>
      <Facts>
        {Object.entries(fit.parameters).map(([name, value]) => (
          <div key={name}>
            <dt>{signs[name] ?? name}</dt>
            <dd>{significant(value, 5)}</dd>
          </div>
        ))}
        {(
          [
            ["0.135 % lie below", quantiles.below],
            ["median", quantiles.median],
            ["99.865 % lie below", quantiles.above],
          ] as const
        ).map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <Num value={value} places={places + 1} unit={unit} />
            </dd>
          </div>
        ))}
      </Facts>
      {tried.length > 1 ? (
        <Table
          caption={`Models tried, in the order that the kind of feature suggests; the first with p of at least ${GATE_REQUIREMENTS.significance} is taken`}
          rows={tried}
          rowKey={({ model }) => model}
          columns={[
            { key: "model", head: "Model", cell: ({ model }) => MODEL_NAMES_SHOWN[model] },
            { key: "A2", head: "A²", figures: true, cell: ({ A2 }) => fixed(A2, 3) },
            { key: "p", head: "Fit", figures: true, cell: ({ p }) => pWords(p) },
            {
              key: "taken",
              head: "Taken",
              cell: ({ model }) => (model === fit.model ? "taken" : "not taken"),
            },
          ]}
        />
      ) : null}
    </>
  );
}
