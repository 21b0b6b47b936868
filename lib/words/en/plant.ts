/** The plant's own settings. */
export const plant = {
  title: "Plant",
  open: "Units, figures and language",
  people: "People",
  purpose: "How every page of this plant shows lengths and figures. What is stored does not change.",
  lengths: {
    legend: "Lengths",
    label: "Show lengths in",
    choices: {
      plan: "the unit of the control plan",
      mm: "millimetres",
      in: "inches",
    },
    hint: "1 in is 25.4 mm exactly. Figures are rounded so that no step of a gauge is lost: 0.001 mm is shown to 0.00001 in. Angles and counts stay as they are.",
  },
  figures: {
    legend: "Figures",
    decimal: "Decimals after",
    decimals: {
      language: "the language’s mark",
      point: "a point: 25.003",
      comma: "a comma: 25,003",
    },
    grouping: "Thousands parted by",
    groupings: {
      language: "the language’s mark",
      none: "nothing: 12500",
      space: "a thin space: 12 500",
      mark: "comma or point, whichever does not stand before the decimals",
    },
    hint: "From five digits on. A thin space is never mistaken for decimals.",
  },
  language: {
    legend: "Language",
    label: "Speak",
    hint: "To everybody who chose none.",
    choices: { en: "English", de: "Deutsch" },
  },
  /** A tolerance in the unit of the drawing, beside the one that is shown. */
  asDrawn: "on the drawing {tolerance}",
  save: "Save",
  saving: "Saving …",
  saved: "Saved. Pages show it from their next look on.",
  incomplete: "Nothing saved: the form was not complete. Reload the page.",
  sample: {
    title: "So it reads",
    caption: "Examples of figures as pages show them now",
    heads: { what: "What", shown: "On pages" },
    rows: {
      tolerance: "tolerance of a bore, on a drawing in mm, gauge to 0.001 mm",
      bore: "a reading of it",
      slot: "a reading of a slot, on a drawing in inches, gauge to 0.0001 in",
      count: "a count",
      index: "an index",
    },
  },
  stays: {
    title: "What keeps the feature's own unit",
    words:
      "The control plan and every field in which something is typed, with the unit beside it; measurement files; statements with their PDF, workbook and CSV, for a customer compares them with the drawing. Files and English statements also keep the decimal point. In fields one comma or point is always the mark of the decimals, and a figure with both is refused.",
  },
};
