import localFont from "next/font/local";

/**
 * Inter, served from this machine. Further alphabets load only where a page shows a letter of theirs; one that comes after
 * the page is drawn waits for the next page, or rows would move when a line turns out higher with it.
 */
const inter = localFont({
  src: "../../node_modules/@fontsource-variable/inter/files/inter-latin-wght-normal.woff2",
  variable: "--inter",
  weight: "100 900",
  display: "swap",
});

const interExtended = localFont({
  src: "../../node_modules/@fontsource-variable/inter/files/inter-latin-ext-wght-normal.woff2",
  variable: "--inter-ext",
  weight: "100 900",
  display: "optional",
  preload: false,
  adjustFontFallback: false,
});

/** Holds σ, μ and Δ. */
const interGreek = localFont({
  src: "../../node_modules/@fontsource-variable/inter/files/inter-greek-wght-normal.woff2",
  variable: "--inter-greek",
  weight: "100 900",
  display: "optional",
  preload: false,
  adjustFontFallback: false,
});

/** Class names that make the faces known; they belong on the html element. */
export const FACES = [inter, interExtended, interGreek].map((font) => font.variable).join(" ");
