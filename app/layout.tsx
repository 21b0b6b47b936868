import type { Metadata, Viewport } from "next";
import type { ReactNode } from "react";
import "./design/tokens.css";
import "./design/base.css";
import { latestNewsId } from "../db/queries/news";
import { LANGUAGE_TAGS } from "../lib/words/language";
import { database } from "./database";
import { FACES } from "./design/fonts";
import { Connection } from "./frame/connection";
import { Frame } from "./frame/frame";
import { LanguageProvider } from "./language/common-in-browser";
import { language, words } from "./language/language";
import { plant } from "./plant";
import { signedIn } from "./session";
import { chosenTheme } from "./theme";

export async function generateMetadata(): Promise<Metadata> {
  const [{ name }, { frame }] = await Promise.all([plant(), words()]);
  return {
    title: { default: name, template: `%s · ${name}` },
    description: frame.description,
    robots: { index: false, follow: false },
  };
}

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#e9ecea" },
    { media: "(prefers-color-scheme: dark)", color: "#0d1114" },
  ],
};

/** Made for each request: it reads cookies, and the policy on scripts wants a number of its own for each answer. */
export default async function Layout({ children }: { children: ReactNode }) {
  const [settings, person, theme, spoken, { frame }] = await Promise.all([
    plant(),
    signedIn(),
    chosenTheme(),
    language(),
    words(),
  ]);
  return (
    <html lang={LANGUAGE_TAGS[spoken]} className={FACES} data-theme={theme === "system" ? undefined : theme}>
      <body>
        <LanguageProvider language={spoken} marks={settings.marks}>
          <Frame plant={settings} person={person} theme={theme}>
            {children}
          </Frame>
          {person ? (
            <Connection after={await latestNewsId(await database())} words={frame.connection} />
          ) : null}
        </LanguageProvider>
      </body>
    </html>
  );
}
