"use client";

import "./design/tokens.css";
import "./design/base.css";
import PageFault from "./error";

/** When even the frame around the pages cannot be shown, as while the database cannot be opened. */
export default function GlobalFault(props: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <html lang="en-GB">
      <head>
        <title>This page could not be shown</title>
      </head>
      <body>
        <PageFault {...props} />
      </body>
    </html>
  );
}
