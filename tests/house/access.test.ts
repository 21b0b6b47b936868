import { describe, expect, test } from "vitest";
import { ACCESS, type Allowed } from "../../app/access-table";
import { ROLES } from "../../lib/people/roles";
import { SCOPES } from "../../lib/people/scopes";
import { accessFaults } from "./access";
import { listed, sourceFiles } from "./source-files";

test("every page, endpoint and action asks for the role that the access table names", () => {
  expect(listed(accessFaults(sourceFiles(), ACCESS))).toEqual([]);
});

test("the table names known roles, and nothing that is open to nobody", () => {
  for (const section of Object.values(ACCESS)) {
    for (const allowed of Object.values<Allowed>(section)) {
      if (allowed === "anyone") continue;
      if ("key" in allowed) {
        expect(SCOPES).toContain(allowed.key);
        continue;
      }
      expect(allowed.length).toBeGreaterThan(0);
      for (const role of allowed) expect(ROLES).toContain(role);
    }
  }
});

describe("the check itself", () => {
  const empty = { pages: {}, endpoints: {}, actions: {} };
  const page = { path: "app/(quiet)/drift/[id]/page.tsx", text: 'await requirePage("/drift/[id]");' };
  const route = {
    path: "app/api/x/route.ts",
    text: 'export async function POST(request: Request) {\n  await requireEndpoint(request, "POST /api/x");\n}\n',
  };
  const action = {
    path: "app/x/actions.ts",
    text: '"use server";\nexport async function one() {\n  await requireAction("one");\n}\nexport async function two() {}\n',
  };

  test("lets pass what asks and is listed", () => {
    const table = { pages: { "/drift/[id]": [] }, endpoints: { "POST /api/x": [] }, actions: {} };
    expect(listed(accessFaults([page, route], table))).toEqual([]);
  });

  test("lets pass an endpoint that asks for a key", () => {
    const text =
      'export async function POST(request: Request) {\n  await requireKey(request, "POST /api/x");\n}\n';
    const table = { pages: {}, endpoints: { "POST /api/x": { key: "x" } }, actions: {} };
    expect(listed(accessFaults([{ path: "app/api/x/route.ts", text }], table))).toEqual([]);
  });

  test("finds what is not listed", () => {
    expect(accessFaults([page, route], empty)).toHaveLength(2);
  });

  test("finds what does not ask, and names the line", () => {
    const faults = accessFaults([action], { ...empty, actions: { one: [], two: [] } });
    expect(listed(faults)).toEqual(['app/x/actions.ts:5 does not ask the guard for "two".']);
    const silent = { ...page, text: "" };
    expect(accessFaults([silent], { ...empty, pages: { "/drift/[id]": [] } })).toHaveLength(1);
  });

  test("finds a guard that asks under another name", () => {
    const wrong = { ...page, text: 'await requirePage("/drift");' };
    expect(accessFaults([wrong], { ...empty, pages: { "/drift/[id]": [] } })).toHaveLength(1);
  });

  test("finds what the table lists and nobody has", () => {
    expect(accessFaults([], { ...empty, pages: { "/gone": [] } })).toHaveLength(1);
  });
});
