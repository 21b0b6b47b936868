import { listFeatures, listParts, type PartRow } from "../../../db/queries/features";
import { listSources } from "../../../db/queries/sources";
import { partName } from "../../../lib/format/names";
import { pageAsked, paged } from "../../../lib/format/paged";
import { SOURCE_KINDS } from "../../../lib/measurements/series";
import { requirePage } from "../../access";
import { database } from "../../database";
import { Button, LinkButton } from "../../fittings/controls";
import { SelectField } from "../../fittings/fields";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame } from "../../fittings/page-frame";
import { PageTurner } from "../../fittings/page-turner";
import { words } from "../../language/language";
import styles from "./bench.module.css";
import { benchFeature } from "./bench-feature";
import { BenchSheet } from "./bench-sheet";

export async function generateMetadata() {
  return { title: (await words()).bench.title };
}

/** More columns than these nobody fills in a row; the others are a page away, each page with a sheet of its own. */
const COLUMNS_ON_A_PAGE = 60;

type SearchParams = Record<string, string | string[] | undefined>;

/** Where a person at a bench types what was measured by hand. */
export default async function BenchPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  await requirePage("/intake/bench");
  const db = await database();
  const { bench: said, board, intake } = await words();
  const parts = latestRevisions(await listParts(db));
  const { part: asked, page } = await searchParams;
  const part = parts.find(({ id }) => String(id) === asked) ?? parts[0];
  if (!part) {
    return (
      <PageFrame title={said.title} above={<Link href="/intake">{intake.title}</Link>}>
        <Note kind="empty" title={said.noPart} actions={<LinkButton href="/plan">{said.toPlan}</LinkButton>}>
          {said.noPartWhy}
        </Note>
      </PageFrame>
    );
  }
  const shown = paged((await listFeatures(db, { partId: part.id })).map(benchFeature), {
    page: pageAsked(page),
    size: COLUMNS_ON_A_PAGE,
  });
  const known = (await listSources(db)).filter(({ retired }) => !retired);
  const codes = Object.fromEntries(
    SOURCE_KINDS.map((kind) => [
      kind,
      known.filter((source) => source.kind === kind).map(({ code }) => code),
    ]),
  );
  return (
    <PageFrame title={said.title} above={<Link href="/intake">{intake.title}</Link>} purpose={said.purpose}>
      <form action="/intake/bench" className={styles.part}>
        <SelectField
          label={said.part}
          name="part"
          choices={parts.map((each) => ({
            value: String(each.id),
            label: `${partName(each)} ${each.name}`.trim(),
          }))}
          defaultValue={String(part.id)}
          key={part.id}
        />
        <Button type="submit">{said.choose}</Button>
      </form>
      <PageTurner
        label={board.turning.of(said.title)}
        shown={shown}
        toPage={(to) => `/intake/bench?part=${part.id}&page=${to}`}
      />
      <BenchSheet
        key={`${part.id} ${shown.page}`}
        part={part.id}
        page={shown.page}
        features={shown.rows}
        codes={codes}
        words={said.sheet}
      />
    </PageFrame>
  );
}

/** Measurements go to the latest revision of a part number, as those of files do. Only parts with features. */
function latestRevisions(parts: readonly PartRow[]): PartRow[] {
  const latest = new Map<string, PartRow>();
  for (const part of parts) {
    const known = latest.get(part.number);
    if (!known || known.id < part.id) latest.set(part.number, part);
  }
  return [...latest.values()].filter(({ features }) => features > 0);
}
