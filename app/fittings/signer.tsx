"use client";

import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from "react";
import { useCommonWords } from "#common-words";
import { Button } from "./controls";
import { SelectField, TextField } from "./fields";
import styles from "./signer.module.css";

/** `own`: the one who is signed in, when they may act without a PIN. `others`: who may with theirs. */
export type Signers = { own: string | null; others: readonly { login: string; name: string }[] };

type Signing = { login: string; pin: string; name: string };

const NOBODY: Signing = { login: "", pin: "", name: "" };
const SigningContext = createContext<Signing>(NOBODY);

/** A tablet is left lying: after this long without a key the name and the PIN are forgotten. */
const FORGOTTEN_AFTER_MS = 3 * 60_000;

/**
 * Asks once on a page whose name its acts bear, and holds it for every form on it. The PIN is kept in this page
 * alone, and is checked on the server with each act.
 */
export function SignerFrame({ signers, children }: { signers: Signers; children: ReactNode }) {
  const { fittings } = useCommonWords();
  const [login, setLogin] = useState("");
  const [pin, setPin] = useState("");
  const name = signers.others.find((each) => each.login === login)?.name ?? signers.own ?? "";
  const signing = useMemo(() => ({ login, pin, name }), [login, pin, name]);

  useEffect(() => {
    if (login === "") return;
    const forget = () => {
      setLogin("");
      setPin("");
    };
    let timer = setTimeout(forget, FORGOTTEN_AFTER_MS);
    const again = () => {
      clearTimeout(timer);
      timer = setTimeout(forget, FORGOTTEN_AFTER_MS);
    };
    document.addEventListener("pointerdown", again);
    document.addEventListener("keydown", again);
    return () => {
      clearTimeout(timer);
      document.removeEventListener("pointerdown", again);
      document.removeEventListener("keydown", again);
    };
  }, [login]);

  return (
    <SigningContext value={signing}>
      {signers.others.length > 0 ? (
        <section className={styles.signer} aria-label={fittings.whoseName}>
          <SelectField
            label={fittings.whoActs}
            value={login}
            onChange={(event) => {
              setLogin(event.target.value);
              setPin("");
            }}
            choices={[
              { value: "", label: signers.own ?? fittings.chooseName },
              ...signers.others.map((each) => ({ value: each.login, label: each.name })),
            ]}
          />
          {login === "" ? null : (
            <>
              <TextField
                label={fittings.pin}
                type="password"
                inputMode="numeric"
                autoComplete="off"
                maxLength={10}
                value={pin}
                onChange={(event) => setPin(event.target.value)}
              />
              <Button
                onClick={() => {
                  setLogin("");
                  setPin("");
                }}
              >
                {fittings.forget}
              </Button>
            </>
          )}
        </section>
      ) : null}
      {children}
    </SigningContext>
  );
}

/** The name a form will bear. */
export function useSignerName(): string {
  return useContext(SigningContext).name;
}

/** Who puts their name to this form, as hidden fields; nothing for the one who is signed in. */
export function SignerFields() {
  const { login, pin } = useContext(SigningContext);
  if (login === "") return null;
  return (
    <>
      <input type="hidden" name="signer" value={login} />
      <input type="hidden" name="pin" value={pin} />
    </>
  );
}
