"use client";

import { useEffect, useRef, useState } from "react";
import type { Words } from "../../lib/words/words";
import { CheckField } from "../fittings/fields";
import { lineOfThisTab } from "../news/this-tab";
import styles from "./call.module.css";

/** Two short tones, the second higher: heard over machines, and not taken for one of them. */
const TONES_HZ = [660, 880];
const TONE_S = 0.18;
const LOUDNESS = 0.25;
const VIBRATION_MS = [300, 150, 300];

const PLACE = "steadyrest alarm call";
type Choice = { sound: boolean; vibration: boolean };
const OFF: Choice = { sound: false, vibration: false };

/**
 * Calls by sound and vibration when an alarm is raised while this page is open. Off until somebody wants it, and
 * then on for this device. A browser lets a page sound only after it was touched once, which is said.
 */
export function AlarmCall({ since, words }: { since: number; words: Words["alarms"]["call"] }) {
  const [choice, setChoice] = useState(OFF);
  const [isMuted, setMuted] = useState(false);
  const [canVibrate, setCanVibrate] = useState(false);
  const audio = useRef<AudioContext | null>(null);
  const first = useRef(since);

  useEffect(() => {
    setChoice(kept());
    setCanVibrate("vibrate" in navigator);
  }, []);

  function choose(next: Choice): void {
    setChoice(next);
    keep(next);
    if (next.sound && !choice.sound) play();
    if (next.vibration && !choice.vibration) navigator.vibrate(VIBRATION_MS[0] ?? 0);
  }

  function play(): void {
    audio.current ??= new AudioContext();
    const context = audio.current;
    void context.resume().then(
      () => setMuted(false),
      () => setMuted(true),
    );
    setMuted(context.state === "suspended");
    for (const [index, hertz] of TONES_HZ.entries()) sound(context, hertz, index * TONE_S);
  }

  const call = useRef<() => void>(play);
  useEffect(() => {
    call.current = () => {
      if (choice.sound) play();
      if (choice.vibration) navigator.vibrate(VIBRATION_MS);
    };
  });

  const isOn = choice.sound || choice.vibration;
  useEffect(() => {
    if (!isOn) return;
    const line = lineOfThisTab();
    // A tablet that lies with another page in front of this one still calls.
    const rest = line.stayAwake();
    const stop = line.listen(Math.max(first.current, line.latest()), (heard) => {
      if (!heard.gap && heard.item.kind === "alarm" && heard.item.what === "raised") call.current();
    });
    return () => {
      stop();
      rest();
    };
  }, [isOn]);

  return (
    <div className={styles.call}>
      <CheckField
        label={words.sound}
        checked={choice.sound}
        onChange={({ target }) => choose({ ...choice, sound: target.checked })}
      />
      {canVibrate ? (
        <CheckField
          label={words.vibration}
          checked={choice.vibration}
          onChange={({ target }) => choose({ ...choice, vibration: target.checked })}
        />
      ) : null}
      <p role="status" className={styles.muted}>
        {choice.sound && isMuted ? words.muted : ""}
      </p>
    </div>
  );
}

function sound(context: AudioContext, hertz: number, after: number): void {
  const tone = context.createOscillator();
  const volume = context.createGain();
  const begins = context.currentTime + after;
  tone.frequency.value = hertz;
  volume.gain.setValueAtTime(LOUDNESS, begins);
  // Cut off at once, a tone ends in a click.
  volume.gain.exponentialRampToValueAtTime(0.001, begins + TONE_S);
  tone.connect(volume).connect(context.destination);
  tone.start(begins);
  tone.stop(begins + TONE_S);
}

function kept(): Choice {
  try {
    const found = JSON.parse(localStorage.getItem(PLACE) ?? "null") as Partial<Choice> | null;
    return { sound: found?.sound === true, vibration: found?.vibration === true };
  } catch {
    return OFF;
  }
}

/** A browser may refuse to keep anything, as in a private window; then it holds as long as the page. */
function keep(choice: Choice): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(choice));
  } catch {
    // As above.
  }
}
