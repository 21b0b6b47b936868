import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import type { FeatureRow } from "../../db/queries/features";
import { datedSentence } from "../../lib/drift/flag-words";
import { nameOf } from "../../lib/drift/sentence";
import { partName } from "../../lib/format/names";
import { measured, percent, withUnit } from "../../lib/format/numbers";
import { dayIn } from "../../lib/format/times";
import { LinkButton } from "../fittings/controls";
import { Note } from "../fittings/note";
import { words } from "../language/language";
import { chartHref } from "./evidence";

/** Sources that moved and this feature with them, with how far it went. */
export function TouchingFlags({
  flags,
  feature,
  zone,
}: {
  flags: readonly FlagRow[];
  feature: FeatureRow;
  zone: string;
}) {
  const { driftPage, drift, times } = use(words());
  const said = driftPage.touching;
  const part = partName(feature.part);
  return flags.map((flag) => {
    const { id, source, latest } = flag;
    const shift = latest.features.find((one) => one.part === part && one.feature === feature.name);
    if (shift === undefined) return null;
    const size = withUnit(
      measured(shift.shift, { resolution: feature.resolution, extra: 1, signed: true }),
      feature.unit,
    );
    const share = shift.shareOfTolerance === null ? "" : said.ofTolerance(percent(shift.shareOfTolerance));
    return (
      <Note
        key={id}
        kind="remark"
        title={
          latest.kind === "spread"
            ? said.scattered(nameOf(source, drift))
            : `${said.moved(nameOf(source, drift), size)}${share}`
        }
        actions={
          <>
            <LinkButton href={chartHref(feature.id, flag)} size="dense">
              {said.colour}
            </LinkButton>
            <LinkButton href={`/drift?flag=${id}#evidence`} size="dense">
              {said.evidence}
            </LinkButton>
          </>
        }
      >
        {datedSentence(latest, dayIn(latest.onset.at, zone, times), { drift })}
      </Note>
    );
  });
}
