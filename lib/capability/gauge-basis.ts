import type { GaugeShare } from "../measurement-systems/gauge-share";
import { claims as english } from "../words/en/claims";

/** What is known of a share: the gauge that takes it, and where its study was made. */
export type KnownShare = Pick<GaugeShare, "basis"> & {
  gauge: { code: string };
  /** The feature of the study behind it; null where it is this one, or none of the control plan. */
  studied: { name: string; part: string } | null;
};

/** Where a gauge's share is from, as a sentence that the gate quotes. */
export function gaugeBasis(
  { basis, gauge: { code }, studied }: KnownShare,
  { basis: said }: Pick<typeof english, "basis"> = english,
): string {
  if (basis.kind === "permissible-error") return said.error(code);
  if (basis.isOfThisFeature) return said.ofThis(basis.id, code, basis.madeOn);
  return studied
    ? said.ofAnother(basis.id, code, basis.madeOn, studied.name, studied.part)
    : said.ofNone(basis.id, code, basis.madeOn);
}
