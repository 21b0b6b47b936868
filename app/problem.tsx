import { use } from "react";
import type { Problem } from "../lib/computed";
import { problems as english } from "../lib/words/en/problems";
import { Note } from "./fittings/note";
import { words } from "./language/language";

type Figure = keyof typeof english.figures;

/** Where a figure would stand: why there is none yet, and what brings it. `figure` names it ("controlLimits"). */
export function ProblemNote({ problem, figure }: { problem: Problem; figure: Figure }) {
  return <Note kind="not-yet">{problemWords(problem, figure, use(words()).problems)}</Note>;
}

/** All wording of everyday shortages. */
export function problemWords(problem: Problem, name: Figure, words = english): string {
  const figure = words.figures[name];
  switch (problem.code) {
    case "too-few-readings":
      return words.readings(figure, problem.got, problem.needed);
    case "too-few-subgroups":
      return words.subgroups(figure, problem.got, problem.needed);
    case "no-variation":
      return words.noVariation(figure);
    case "not-positive":
      return words.notPositive(figure, problem.least);
    case "no-tolerance":
      return words.noTolerance(figure);
    case "one-sided":
      return words.oneSided(figure, problem.missing);
  }
}
