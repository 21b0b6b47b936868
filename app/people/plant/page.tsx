import { use } from "react";
import { fixed, measured, toleranceWords, whole, withUnit } from "../../../lib/format/numbers";
import type { KnownUnit } from "../../../lib/plan/feature-plan";
import { inShownUnit, type LengthDisplay, resolutionIn } from "../../../lib/units/length";
import { requirePage } from "../../access";
import { Link } from "../../fittings/link";
import { PageFrame, Section } from "../../fittings/page-frame";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { PlantForm } from "./form";

export async function generateMetadata() {
  return { title: (await words()).plant.title };
}

/** How the pages of this plant show what they show, and what stays as it is. */
export default async function PlantPage() {
  await requirePage("/people/plant");
  const { lengths, decimal, grouping, language } = await plant();
  const { plant: said } = await words();
  return (
    <PageFrame title={said.title} above={<Link href="/people">{said.people}</Link>} purpose={said.purpose}>
      <PlantForm chosen={{ lengths, decimal, grouping, language }} words={said} />
      <Section title={said.sample.title}>
        <Sample display={lengths} />
      </Section>
      <Section title={said.stays.title}>
        <p>{said.stays.words}</p>
      </Section>
    </PageFrame>
  );
}

/** Some features, as drawings may have them. */
const BORE = { unit: "mm", resolution: 0.001, lower: 24.98, upper: 25.02, reading: 25.003 } as const;
const SLOT = { unit: "in", resolution: 0.0001, reading: 0.3752 } as const;
const COUNT = 12_500;
const INDEX = 1.52;

function Sample({ display }: { display: LengthDisplay }) {
  const { plant: said, figures } = use(words());
  const { rows, heads } = said.sample;
  const { unit, length } = inShownUnit(BORE.unit, display);
  const resolution = resolutionIn(BORE.resolution, BORE.unit, unit);
  const limits = { lower: length<number>(BORE.lower), upper: length<number>(BORE.upper) };
  const samples = [
    { what: rows.tolerance, shown: toleranceWords(limits, { resolution, unit }, figures) },
    { what: rows.bore, shown: readingShown(BORE, display) },
    { what: rows.slot, shown: readingShown(SLOT, display) },
    { what: rows.count, shown: whole(COUNT) },
    { what: rows.index, shown: fixed(INDEX, 2) },
  ];
  return (
    <Table
      caption={said.sample.caption}
      isCaptionShown={false}
      rows={samples}
      rowKey={({ what }) => what}
      columns={[
        { key: "what", head: heads.what, cell: ({ what }) => what },
        { key: "shown", head: heads.shown, figures: true, cell: ({ shown }) => shown },
      ]}
    />
  );
}

function readingShown(
  { unit: own, resolution, reading }: { unit: KnownUnit; resolution: number; reading: number },
  display: LengthDisplay,
): string {
  const { unit, length } = inShownUnit(own, display);
  return withUnit(measured(length(reading), { resolution: resolutionIn(resolution, own, unit) }), unit);
}
