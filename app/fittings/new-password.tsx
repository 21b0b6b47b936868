"use client";

import { useEffect, useState } from "react";
import { useCommonWords } from "#common-words";
import { TextField } from "./fields";

/** A password to be chosen, typed twice. */
export function NewPassword() {
  const { newPassword } = useCommonWords().fittings;
  return (
    <>
      <TextField
        label={newPassword.label}
        hint={newPassword.hint}
        name="password"
        type="password"
        autoComplete="new-password"
        minLength={8}
        required
      />
      <TextField
        label={newPassword.again}
        name="again"
        type="password"
        autoComplete="new-password"
        minLength={8}
        required
      />
    </>
  );
}

/** What proves that the link was made here. It stands behind the #, so that no server and no log gets to see it. */
export function LinkToken() {
  const [token, setToken] = useState("");
  useEffect(() => setToken(window.location.hash.slice(1)), []);
  return <input type="hidden" name="token" value={token} />;
}
