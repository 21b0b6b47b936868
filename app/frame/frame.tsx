import { type ReactNode, use } from "react";
import type { Account } from "../../db/queries/accounts";
import { momentIn } from "../../lib/format/times";
import { LANGUAGE_NAMES, LANGUAGE_TAGS, LANGUAGES } from "../../lib/words/language";
import { Link } from "../fittings/link";
import { words } from "../language/language";
import type { Plant } from "../plant";
import { THEMES, type Theme } from "../theme";
import { chooseLanguage, chooseTheme, leave } from "./actions";
import styles from "./frame.module.css";
import { RoomLinks } from "./room-links";

/** What stands around every page: the plant, the rooms, the person, and one sentence at its foot. */
export function Frame({
  plant,
  person,
  theme,
  children,
}: {
  plant: Plant;
  person: Account | null;
  theme: Theme;
  children: ReactNode;
}) {
  const { frame, times } = use(words());
  return (
    <div className={person ? styles.house : styles.porch}>
      <a href="#content" className={styles.skip}>
        {frame.skip}
      </a>
      <header className={styles.side}>
        <Link href="/" className={styles.plant}>
          <Mark />
          <span>
            <span className={styles.plantName}>{plant.name}</span>
            {plant.name === "Steadyrest" ? null : <span className={styles.product}>Steadyrest</span>}
          </span>
        </Link>
        {person ? <RoomLinks label={frame.rooms} names={frame.roomNames} /> : null}
        <div className={styles.foot}>
          {plant.demo && person ? (
            <p className={styles.demo}>
              {frame.demo(momentIn(plant.now, plant.zone, times))} <Link href="/lesson">{frame.lesson}</Link>
            </p>
          ) : null}
          {person ? <Person person={person} /> : null}
        </div>
      </header>
      <div className={styles.main}>
        {children}
        <footer className={styles.notice}>
          <p>{frame.notice}</p>
          {person ? <Link href="/glossary">{frame.glossary}</Link> : null}
          <LanguageSwitch />
          <ThemeSwitch theme={theme} />
        </footer>
      </div>
    </div>
  );
}

function Person({ person }: { person: Account }) {
  const { frame, trade } = use(words());
  return (
    <div className={styles.person}>
      <p>
        <span className={styles.personName}>{person.name}</span>
        <span className={styles.roles}>{person.roles.map((role) => trade.roles[role]).join(", ")}</span>
      </p>
      <form action={leave}>
        <button type="submit" className={styles.leave}>
          {frame.signOut}
        </button>
      </form>
    </div>
  );
}

/** Also for whoever is not signed in: the reader of a shared statement, or somebody at the sign-in page. */
function LanguageSwitch() {
  const { frame, language } = use(words());
  return (
    <form action={chooseLanguage} className={styles.themes}>
      <fieldset>
        <legend className="only-read-out">{frame.language}</legend>
        {LANGUAGES.map((each) => (
          <button
            key={each}
            type="submit"
            name="language"
            value={each}
            lang={LANGUAGE_TAGS[each]}
            aria-pressed={each === language}
          >
            {LANGUAGE_NAMES[each]}
          </button>
        ))}
      </fieldset>
    </form>
  );
}

function ThemeSwitch({ theme }: { theme: Theme }) {
  const { frame } = use(words());
  return (
    <form action={chooseTheme} className={styles.themes}>
      <fieldset>
        <legend className="only-read-out">{frame.theme}</legend>
        {THEMES.map((each) => (
          <button key={each} type="submit" name="theme" value={each} aria-pressed={each === theme}>
            {frame.themes[each]}
          </button>
        ))}
      </fieldset>
    </form>
  );
}

/** A workpiece held true between the three jaws of a steady rest. */
function Mark() {
  return (
    <svg className={styles.mark} viewBox="0 0 32 32" aria-hidden="true" focusable="false">
      <circle cx="16" cy="16" r="14" fill="none" stroke="currentColor" strokeWidth="2" />
      <circle cx="16" cy="16" r="5" fill="currentColor" />
      <path d="M16 2v9M28.1 23l-7.8-4.5M3.9 23l7.8-4.5" stroke="currentColor" strokeWidth="3.5" fill="none" />
    </svg>
  );
}
