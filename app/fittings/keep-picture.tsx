"use client";

import { type ReactNode, useRef, useState } from "react";
import { useCommonWords } from "#common-words";
import { fileName } from "../../lib/format/file-name";
import { Button, type ButtonSize } from "./controls";
import styles from "./keep.module.css";
import { saveFile } from "./save-file";

const PICTURE_KINDS = ["PNG", "SVG"] as const;
type PictureKind = (typeof PICTURE_KINDS)[number];

/**
 * A chart that can be copied or saved, as SVG or PNG. The file says what it shows: the chart's title, the page's
 * (the feature), and what stands at `data-about` there (its part and window).
 */
export function KeepPicture({
  title,
  about: own,
  size = "dense",
  children,
}: {
  title: string;
  /** Of what it is, where that changes while the page stays. */
  about?: string;
  /** Where people act on the shop floor its buttons are as large as theirs. */
  size?: ButtonSize;
  children: ReactNode;
}) {
  const frame = useRef<HTMLDivElement>(null);
  const [said, say] = useState("");
  const { keep: words } = useCommonWords().fittings;

  async function keep(how: "copy" | PictureKind): Promise<void> {
    const chart = frame.current;
    if (!chart) return;
    const subject = document.querySelector("h1")?.textContent ?? "";
    const about = own ?? document.querySelector("[data-about]")?.getAttribute("data-about") ?? "";
    const name = fileName(`${subject} ${title}`);
    const heading = { title: [subject, title].filter(Boolean).join(": "), about };
    // What draws is fetched when it is wanted: few visits end with a picture.
    const drawing = import("./drawn-chart").then(({ drawnChart, pngOf }) => {
      const picture = drawnChart(chart, heading);
      return { svg: picture.svg, png: () => pngOf(picture) };
    });
    try {
      if (how === "SVG") {
        const { svg } = await drawing;
        saveFile(new Blob([svg], { type: "image/svg+xml" }), `${name}.svg`);
        say(words.saved(`${name}.svg`));
      } else if (how === "PNG") {
        const { png } = await drawing;
        saveFile(await png(), `${name}.png`);
        say(words.saved(`${name}.png`));
      } else {
        // A promise, because some browsers let a page write only during the press itself.
        const picture = drawing.then(({ png }) => png());
        await navigator.clipboard.write([new ClipboardItem({ "image/png": picture })]);
        say(words.copied);
      }
    } catch {
      const isDrawn = await drawing.then(
        () => true,
        () => false,
      );
      say(how === "copy" && isDrawn ? words.notCopied : words.notSaved);
    }
  }

  return (
    <div className={styles.kept}>
      <div ref={frame}>{children}</div>
      <div className={styles.bar}>
        <span aria-hidden="true">{words.picture}</span>
        <Button
          kind="quiet"
          size={size}
          aria-label={words.copyOf(title)}
          title={words.copyOf(title)}
          onClick={() => keep("copy")}
        >
          {words.copy}
        </Button>
        {PICTURE_KINDS.map((kind) => (
          <Button
            key={kind}
            kind="quiet"
            size={size}
            aria-label={words.fileOf(kind, title)}
            title={words.fileOf(kind, title)}
            onClick={() => keep(kind)}
          >
            {kind}
          </Button>
        ))}
        <span role="status" className={styles.said}>
          {said}
        </span>
      </div>
    </div>
  );
}
