"use client";

import { useRouter } from "next/navigation";
import { useEffect, useReducer, useRef, useState } from "react";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Button } from "../../fittings/controls";
import type { Job } from "../../jobs/job";
import type { Look, WaitingFile } from "../look";
import { readingOf } from "../look";
import type { CommitRequest } from "../mapping-schema";
import { sizeWords } from "../result-words";
import styles from "./desk.module.css";
import { changeDesk, type DeskItem, isRunning } from "./desk-items";
import { DropZone } from "./drop-zone";
import { FileCard } from "./file-card";
import { cancel, commit, discardFile, featuresTouched, jobsNow, lookAgain, sendFile } from "./server-calls";

const ASK_EVERY_MS = 500;

/** Where files are dropped, looked at, mapped and taken in. What waits or runs survives a reload of the page. */
export function IntakeDesk({
  waiting,
  jobs,
  takenNames,
  plantZone,
  mostBytes,
  words,
}: {
  waiting: readonly WaitingFile[];
  jobs: readonly Job[];
  /** Names of saved mappings. */
  takenNames: readonly string[];
  plantZone: string;
  mostBytes: number;
  words: Words["desk"];
}) {
  const { server } = words;
  const [items, change] = useReducer(changeDesk, { waiting, jobs }, firstItems);
  const [openKey, setOpenKey] = useState<string | null>(null);
  const router = useRouter();
  const queue = useRef<{ item: DeskItem; file: File }[]>([]);
  const isSending = useRef(false);
  const stops = useRef(new Map<string, AbortController>());
  const asked = useRef(new Set<string>());

  function drop(files: readonly File[]) {
    const added = files.map((file): { item: DeskItem; file: File } => {
      const base = { key: crypto.randomUUID(), name: file.name, bytes: file.size };
      const message = reasonAgainst(file, mostBytes, words);
      return {
        file,
        item: message ? { ...base, stage: "turned away", message } : { ...base, stage: "queued" },
      };
    });
    change({ do: "add", items: added.map(({ item }) => item) });
    queue.current.push(...added.filter(({ item }) => item.stage === "queued"));
    void send();
  }

  /** One file after the other: two at once would only halve the speed of each. */
  async function send() {
    if (isSending.current) return;
    isSending.current = true;
    for (let next = queue.current.shift(); next; next = queue.current.shift()) {
      const { item, file } = next;
      const { key, name, bytes } = item;
      const stop = new AbortController();
      stops.current.set(key, stop);
      change({ do: "set", item: { key, name, bytes, stage: "sending", share: 0 } });
      const answer = await sendFile(file, {
        signal: stop.signal,
        words: server,
        onSent: (share) => change({ do: "set", item: { key, name, bytes, stage: "sending", share } }),
      });
      stops.current.delete(key);
      if (answer.ok)
        show({ key, name: answer.value.file.name, bytes }, answer.value.file.id, answer.value.look);
      else change({ do: "set", item: { key, name, bytes, stage: "turned away", message: answer.message } });
    }
    isSending.current = false;
  }

  function show(base: Pick<DeskItem, "key" | "name" | "bytes">, id: string, look: Look) {
    change({ do: "set", item: { ...base, stage: "looked at", id, look, message: "" } });
    if (readingOf(look) === "to map") setOpenKey((open) => open ?? base.key);
  }

  async function take(item: DeskItem & { stage: "looked at" }, request: CommitRequest) {
    const { key, name, bytes, id, look } = item;
    const answer = await commit(id, request, server);
    if (!answer.ok) {
      change({ do: "set", item: { ...item, message: answer.message } });
      return;
    }
    change({
      do: "set",
      item: { key, name, bytes, stage: "job", id, look, job: answer.value.job, touched: null },
    });
    setOpenKey((open) => (open === key ? null : open));
    if (request.saveAs === "") return;
    // Other files of this layout are now known, too.
    for (const other of items) {
      const isAlike = other.stage === "looked at" && other.look.fingerprint === look.fingerprint;
      if (isAlike && other.key !== key && other.look.saved === null) open(other, other.id);
    }
  }

  function open({ key, name, bytes }: DeskItem, id: string) {
    asked.current.delete(key);
    change({ do: "set", item: { key, name, bytes, stage: "opening", id } });
  }

  async function clear(item: DeskItem) {
    if (item.stage === "sending") stops.current.get(item.key)?.abort();
    queue.current = queue.current.filter((queued) => queued.item.key !== item.key);
    const isLeftOver =
      item.stage === "job" && (item.job.state === "failed" || item.job.state === "cancelled");
    if (item.stage === "looked at" || item.stage === "opening" || isLeftOver)
      await discardFile(item.id, server);
    change({ do: "clear", key: item.key });
    setOpenKey((open) => (open === item.key ? null : open));
  }

  async function stop(job: Job) {
    const answer = await cancel(job.id, server);
    if (answer.ok) change({ do: "jobs", jobs: [answer.value.job] });
  }

  useEffect(() => {
    for (const item of items) {
      if (item.stage !== "opening" || asked.current.has(item.key)) continue;
      const { key, name, bytes, id } = item;
      asked.current.add(key);
      void lookAgain(id, { mapping: null, words: server }).then((answer) =>
        change({
          do: "set",
          item: answer.ok
            ? { key, name, bytes, stage: "looked at", id, look: answer.value.look, message: "" }
            : { key, name, bytes, stage: "turned away", message: answer.message },
        }),
      );
    }
  }, [items, server]);

  useEffect(() => {
    for (const item of items) {
      if (item.stage !== "job" || isRunning(item) || asked.current.has(item.job.id)) continue;
      asked.current.add(item.job.id);
      router.refresh();
      const { job } = item;
      if (job.state !== "done" || job.intakeId === null) continue;
      void featuresTouched(job.intakeId, server).then((answer) => {
        if (answer.ok) change({ do: "set", item: { ...item, touched: answer.value.features } });
      });
    }
  }, [items, router, server]);

  const isWaiting = items.some(isRunning);
  useEffect(() => {
    if (!isWaiting) return;
    const timer = setInterval(() => {
      void jobsNow(server).then((answer) => answer.ok && change({ do: "jobs", jobs: answer.value.jobs }));
    }, ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [isWaiting, server]);

  const ready = items.filter(
    (item): item is DeskItem & { stage: "looked at" } =>
      item.stage === "looked at" && readingOf(item.look) !== "to map",
  );
  return (
    <div className={styles.desk}>
      <DropZone onFiles={drop} mostBytes={mostBytes} words={words} />
      {items.length > 0 ? (
        <section aria-labelledby="files-on-the-desk">
          <h2 id="files-on-the-desk" className="only-read-out">
            {words.drop.files}
          </h2>
          {ready.length > 1 ? (
            <p className={styles.together}>
              <Button kind="main" onClick={() => ready.forEach((item) => void take(item, asItIs(item.look)))}>
                {fill(words.drop.all, { count: ready.length })}
              </Button>
            </p>
          ) : null}
          <ul className={styles.files}>
            {items.map((item) => (
              <FileCard
                key={item.key}
                item={item}
                takenNames={takenNames}
                plantZone={plantZone}
                isOpen={openKey === item.key}
                onOpen={(isOpen) => setOpenKey(isOpen ? item.key : null)}
                onTake={take}
                onTakeAsIs={(looked) => void take(looked, asItIs(looked.look))}
                onLook={(looked, look) => change({ do: "set", item: { ...looked, look, message: "" } })}
                onAgain={open}
                onClear={clear}
                onStop={stop}
                words={words}
              />
            ))}
          </ul>
        </section>
      ) : null}
    </div>
  );
}

/** A file that needs no mapping: as it was read, kept under the name it has. */
function asItIs({ mapping, saved }: Look): CommitRequest {
  return { mapping, saveAs: saved ?? "", subgroupSize: null };
}

function firstItems({
  waiting,
  jobs,
}: {
  waiting: readonly WaitingFile[];
  jobs: readonly Job[];
}): DeskItem[] {
  const running = jobs.map(
    (job): DeskItem => ({
      key: job.id,
      name: job.file,
      bytes: 0,
      stage: "job",
      id: job.uploadId ?? "",
      look: null,
      job,
      touched: null,
    }),
  );
  return [
    ...running,
    ...waiting.map(({ id, name, bytes }): DeskItem => ({ key: id, name, bytes, stage: "opening", id })),
  ];
}

function reasonAgainst(file: File, mostBytes: number, { drop, results }: Words["desk"]): string | null {
  if (file.size > mostBytes)
    return fill(drop.tooLarge, {
      size: sizeWords(file.size, results),
      most: sizeWords(mostBytes, results),
    });
  return file.size === 0 ? drop.empty : null;
}
