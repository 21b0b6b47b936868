import { type BoardRow, shiftBoard } from "../../db/queries/board";
import { TRIAL_VERSION } from "../../lib/evaluation/setup";
import type { Standing } from "../../lib/evaluation/standing";
import { partName } from "../../lib/format/names";
import { counted, toleranceWords } from "../../lib/format/numbers";
import { database } from "../database";
import { Button, ControlRow, LinkButton } from "../fittings/controls";
import { SelectField, TextField } from "../fittings/fields";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { AtLeast, Num } from "../fittings/num";
import { StateWord } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { ToleranceStrip } from "../fittings/tolerance-strip";
import { When } from "../fittings/when";
import { plant } from "../plant";

/** The list, narrowed by part number and by words that a feature or its part carries. */
export async function FeatureList({ part, find }: { part: string; find: string }) {
  const { zone, now } = await plant();
  const all = await shiftBoard(await database());
  const parts = [...new Map(all.map(({ feature }) => [feature.part.number, feature.part])).values()];
  const rows = all.filter((row) => (part === "" || row.feature.part.number === part) && isFound(row, find));
  if (all.length === 0) {
    return (
      <Note
        kind="empty"
        title="No features yet"
        actions={<LinkButton href="/plan">To the control plan</LinkButton>}
      >
        They are entered in the control plan, or come along with the first measurement file on Intake.
      </Note>
    );
  }
  return (
    <>
      <form action="/features">
        <ControlRow>
          <TextField label="Find" name="find" type="search" defaultValue={find} key={find} />
          <SelectField
            label="Part"
            name="part"
            choices={[
              { value: "", label: "all parts" },
              ...parts.map((each) => ({ value: each.number, label: `${each.number} ${each.name}` })),
            ]}
            defaultValue={part}
            key={`part ${part}`}
          />
          <Button type="submit">Show</Button>
          {part !== "" || find !== "" ? (
            <LinkButton href="/features" kind="quiet">
              Show all
            </LinkButton>
          ) : null}
        </ControlRow>
      </form>
      <Table
        caption={
          rows.length === all.length
            ? counted(all.length, "feature")
            : `${rows.length} of ${counted(all.length, "feature")}`
        }
        rows={rows}
        rowKey={({ feature }) => feature.id}
        empty={
          <Note kind="empty" title="Nothing found">
            No feature{part === "" ? "" : ` of ${part}`} carries "{find}" in its name, its part or its kind.
          </Note>
        }
        columns={[
          {
            key: "name",
            head: "Feature",
            width: "18rem",
            cell: ({ feature }) => <Link href={`/features/${feature.id}`}>{feature.name}</Link>,
          },
          { key: "part", head: "Part", tight: true, cell: ({ feature }) => partName(feature.part) },
          {
            key: "kind",
            head: "Kind",
            cell: ({ feature }) => (feature.keyCharacteristic ? `${feature.kind}, key` : feature.kind),
          },
          {
            key: "tolerance",
            head: "Tolerance",
            tight: true,
            cell: ({ feature }) => toleranceWords(feature.plan.tolerance, feature),
          },
          {
            key: "strip",
            head: "Latest means within it",
            width: "15rem",
            cell: ({ feature, standing }) => <ToleranceStrip feature={feature} standing={standing} />,
          },
          { key: "limits", head: "Limits", cell: ({ standing }) => <LimitsState standing={standing} /> },
          {
            key: "count",
            head: "Measurements",
            figures: true,
            cell: ({ standing }) => <Num value={standing?.readings ?? 0} places={0} />,
          },
          {
            key: "ppk",
            head: "Ppk at least",
            figures: true,
            cell: ({ standing }) => <AtLeast value={standing?.ppkAtLeast} />,
          },
          {
            key: "latest",
            head: "Latest",
            figures: true,
            cell: ({ standing }) => <When at={standing?.lastAt} zone={zone} as="ago" now={now} />,
          },
        ]}
      />
    </>
  );
}

function LimitsState({ standing }: { standing: Standing | null }) {
  if (!standing || standing.limitsVersion === null) return <StateWord state="no-limits" />;
  if (standing.limitsVersion === TRIAL_VERSION) return <StateWord state="trial">trial</StateWord>;
  return <StateWord state="frozen">version {standing.limitsVersion}</StateWord>;
}

/** Every word has to be found somewhere, whatever its case. */
function isFound({ feature }: BoardRow, find: string): boolean {
  const { part, name, kind } = feature;
  const text = `${name} ${kind} ${part.number} ${part.name} ${part.line}`.toLowerCase();
  return find
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
