import { TRIAL_VERSION } from "../../lib/evaluation/setup";
import type { Standing } from "../../lib/evaluation/standing";
import { partName } from "../../lib/format/names";
import { toleranceWords } from "../../lib/format/numbers";
import { paged, TABLE_ROWS } from "../../lib/format/paged";
import { isFound } from "../../lib/plan/found-feature";
import type { Words } from "../../lib/words/words";
import { database } from "../database";
import { Button, ControlRow, LinkButton } from "../fittings/controls";
import { SelectField, TextField } from "../fittings/fields";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { AtLeast, Num } from "../fittings/num";
import { PageTurner } from "../fittings/page-turner";
import { StateWord } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { ToleranceStrip } from "../fittings/tolerance-strip";
import { When } from "../fittings/when";
import { words } from "../language/language";
import { plant } from "../plant";
import { boardShown } from "../shown/lengths";

/** The list, narrowed by part number and by words that a feature or its part carries. */
export async function FeatureList({ part, find, page }: { part: string; find: string; page: number }) {
  const { zone, now } = await plant();
  const { board, features, charts, figures } = await words();
  const { list: said } = features;
  const all = await boardShown(await database());
  const parts = [...new Map(all.map(({ feature }) => [feature.part.number, feature.part])).values()];
  const rows = all.filter(
    (row) => (part === "" || row.feature.part.number === part) && isFound(row.feature, find, charts.features),
  );
  if (all.length === 0) {
    return (
      <Note kind="empty" title={said.none} actions={<LinkButton href="/plan">{said.toPlan}</LinkButton>}>
        {said.noneWhy}
      </Note>
    );
  }
  const shown = paged(rows, { page, size: TABLE_ROWS });
  const toPage = (wanted: number) => {
    const asked = { ...(part && { part }), ...(find && { find }), page: String(wanted) };
    return `/features?${new URLSearchParams(asked)}`;
  };
  return (
    <>
      <form action="/features">
        <ControlRow>
          <TextField label={said.find} name="find" type="search" defaultValue={find} key={find} />
          <SelectField
            label={said.part}
            name="part"
            choices={[
              { value: "", label: said.allParts },
              ...parts.map((each) => ({ value: each.number, label: `${each.number} ${each.name}` })),
            ]}
            defaultValue={part}
            key={`part ${part}`}
          />
          <Button type="submit">{said.show}</Button>
          {part !== "" || find !== "" ? (
            <LinkButton href="/features" kind="quiet">
              {said.showAll}
            </LinkButton>
          ) : null}
        </ControlRow>
      </form>
      <Table
        caption={rows.length === all.length ? said.count(all.length) : said.some(rows.length, all.length)}
        rows={shown.rows}
        rowKey={({ feature }) => feature.id}
        empty={
          <Note kind="empty" title={said.nothing}>
            {said.nothingWhy(find, part)}
          </Note>
        }
        columns={[
          {
            key: "name",
            head: said.heads.feature,
            width: "18rem",
            cell: ({ feature }) => <Link href={`/features/${feature.id}`}>{feature.name}</Link>,
          },
          { key: "part", head: said.heads.part, tight: true, cell: ({ feature }) => partName(feature.part) },
          {
            key: "kind",
            head: said.heads.kind,
            cell: ({ feature: { kind, keyCharacteristic } }) =>
              keyCharacteristic ? said.key(charts.features[kind]) : charts.features[kind],
          },
          {
            key: "tolerance",
            head: said.heads.tolerance,
            tight: true,
            cell: ({ feature }) => toleranceWords(feature.plan.tolerance, feature, figures),
          },
          {
            key: "strip",
            head: said.heads.strip,
            width: "15rem",
            cell: ({ feature, standing }) => <ToleranceStrip feature={feature} standing={standing} />,
          },
          {
            key: "limits",
            head: said.heads.limits,
            cell: ({ standing }) => <LimitsState standing={standing} said={said} />,
          },
          {
            key: "count",
            head: said.heads.measurements,
            figures: true,
            cell: ({ standing }) => <Num value={standing?.readings ?? 0} places={0} />,
          },
          {
            key: "ppk",
            head: said.heads.ppk,
            figures: true,
            cell: ({ standing }) => <AtLeast value={standing?.ppkAtLeast} />,
          },
          {
            key: "latest",
            head: said.heads.latest,
            figures: true,
            cell: ({ standing }) => <When at={standing?.lastAt} zone={zone} as="ago" now={now} />,
          },
        ]}
      />
      <PageTurner label={board.turning.of(features.title)} shown={shown} toPage={toPage} />
    </>
  );
}

function LimitsState({ standing, said }: { standing: Standing | null; said: Words["features"]["list"] }) {
  if (!standing || standing.limitsVersion === null) return <StateWord state="no-limits" />;
  if (standing.limitsVersion === TRIAL_VERSION) return <StateWord state="trial">{said.trial}</StateWord>;
  return <StateWord state="frozen">{said.version(standing.limitsVersion)}</StateWord>;
}
