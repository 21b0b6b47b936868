import type { Locator, Page } from "playwright-core";

/** The Intake page as a person's hands use it. */
export type Desk = {
  /** Drops files by path, or as name and text. */
  drop(...files: (string | { name: string; text: string })[]): Promise<void>;
  /** The newest card of a file. */
  card(name: string): Locator;
  /** Chooses what a list shows under this label, in the mapping that is open. */
  choose(label: string, shown: string): Promise<void>;
  /** Chooses "the same in every row" and writes it. */
  sayAlways(label: string, text: string): Promise<void>;
  /** Waits until the preview follows what was chosen. */
  settled(): Promise<void>;
  /** Takes the open mapping's file in and waits until it has ended; gives the card's words. */
  take(name: string): Promise<string>;
};

export function intakeDesk(page: Page): Desk {
  const card = (name: string) =>
    page
      .getByRole("listitem")
      .filter({ has: page.getByRole("heading", { name, exact: true }) })
      .last();
  const field = (label: string) => page.getByLabel(label, { exact: true });
  const desk: Desk = {
    card,
    async drop(...files) {
      const given = files.map((file) =>
        typeof file === "string"
          ? file
          : { name: file.name, mimeType: "text/csv", buffer: Buffer.from(file.text) },
      );
      const paths = given.filter((file) => typeof file === "string");
      const texts = given.filter((file) => typeof file !== "string");
      // Enabled once the page's scripts run: before that nobody hears that files were chosen.
      const input = page.locator('input[type="file"]:enabled');
      await input.waitFor({ state: "attached" });
      await input.setInputFiles(paths.length > 0 ? paths : texts);
    },
    async choose(label, shown) {
      await field(label).selectOption({ label: shown });
    },
    async sayAlways(label, text) {
      await desk.choose(label, "= the same in every row");
      await field(`${label} in every row`).fill(text);
    },
    async settled() {
      await page.locator('section[aria-label="Preview"][aria-busy="false"]').waitFor();
    },
    async take(name) {
      await desk.settled();
      await page.getByRole("button", { name: "Take the file in" }).click();
      await card(name)
        .getByText(/stored|Nothing/)
        .first()
        .waitFor();
      await card(name).getByText("Details and undo").or(card(name).getByText("undo")).first().waitFor();
      return (await card(name).textContent()) ?? "";
    },
  };
  return desk;
}
