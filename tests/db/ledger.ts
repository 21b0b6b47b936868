/** The plain list beside a database: of each piece, what the intakes that still stand said of it, in order of arrival. */
export class Ledger {
  readonly said = new Map<string, { intake: number; value: number }[]>();

  state(piece: string, value: number, intake: number): void {
    const all = this.said.get(piece) ?? [];
    if (all.length > 0 && all.at(-1)?.value === value) return; // A duplicate adds nothing.
    this.said.set(piece, [...all, { intake, value }]);
  }

  undo(intake: number): void {
    for (const [piece, all] of this.said) {
      const left = all.filter((assertion) => assertion.intake !== intake);
      if (left.length > 0) this.said.set(piece, left);
      else this.said.delete(piece);
    }
  }

  values(): Record<string, number> {
    return Object.fromEntries([...this.said].map(([piece, all]) => [piece, all.at(-1)?.value as number]));
  }
}
