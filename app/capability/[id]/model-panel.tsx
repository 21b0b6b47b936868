import { use } from "react";
import { GATE_REQUIREMENTS } from "../../../lib/capability/gates";
import type { CapabilityStudy } from "../../../lib/capability/study";
import { testWords } from "../../../lib/capability/test-words";
import { pWords } from "../../../lib/capability/words";
import { significant } from "../../../lib/format/figures";
import { asEntered, fixed } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { LinkTabs } from "../../fittings/controls";
import { Facts } from "../../fittings/facts";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import { type Asked, queryOf } from "../asked";
import { MODEL_ORDER, parameterName } from "../model-words";
import styles from "./detail.module.css";

/** The choice of a distribution; each is an address of its own. */
export function ModelTabs({ id, asked }: { id: number; asked: Asked }) {
  const { capability: said } = use(words());
  return (
    <LinkTabs
      label={said.model.label}
      links={MODEL_ORDER.map((model) => ({
        href: `/capability/${id}${queryOf({ ...asked, model })}`,
        label: said.models[model],
        isCurrent: model === asked.model,
      }))}
    />
  );
}

/** What the fitted distribution is, how it stands for the readings, and which others were tried. */
export function ModelPanel({ study, feature }: { study: CapabilityStudy; feature: ShownFeature }) {
  const language = use(words());
  const { capability, claims, figures } = language;
  const { model: said } = capability;
  const { modelStudy } = study;
  if (modelStudy === null) return <p className={styles.caption}>{testWords(study, language)}</p>;
  const { fit, quantiles, tried } = modelStudy;
  const { places, unit } = feature;
  return (
    <>
      <p className={styles.caption}>
        {said.restsOn(claims.models[fit.model])} {testWords(study, language)}{" "}
        {feature.naturalBound === null || feature.naturalBound === 0 ? "" : said.fromBound}
        {said.noC}
      </p>
      <Facts>
        {Object.entries(fit.parameters).map(([name, value]) => (
          <div key={name}>
            <dt>{parameterName(fit.model, name, said)}</dt>
            <dd>{significant(value, 5)}</dd>
          </div>
        ))}
        {(
          [
            [said.below, quantiles.below],
            [said.median, quantiles.median],
            [said.above, quantiles.above],
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
          caption={said.tried(asEntered(GATE_REQUIREMENTS.significance))}
          rows={tried}
          rowKey={({ model }) => model}
          columns={[
            { key: "model", head: said.heads.model, cell: ({ model }) => capability.models[model] },
            { key: "A2", head: "A²", figures: true, cell: ({ A2 }) => fixed(A2, 3) },
            { key: "p", head: said.heads.fit, figures: true, cell: ({ p }) => pWords(p, figures) },
            {
              key: "taken",
              head: said.heads.taken,
              cell: ({ model }) => (model === fit.model ? said.taken : said.notTaken),
            },
          ]}
        />
      ) : null}
    </>
  );
}
