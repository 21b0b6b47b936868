/** What the fittings say by themselves, on every page, and the page that stands for a fault. */
export const fittings = {
  working: "Working …",
  givingUp: "Giving up …",
  howFar: "How far it has come",
  giveUp: "Give up",
  beginning: "Beginning …",
  doneOf: (done: number, all: number): string => `${done} of ${all}`,
  asRemark: "Keep it as a remark",
  close: "Close",
  whoseName: "Whose name it bears",
  whoActs: "Who acts",
  chooseName: "choose your name",
  pin: "PIN",
  forget: "Forget it",
  newPassword: { label: "Password", hint: "At least 8 characters.", again: "Password once more" },
  whatIsThis: "What is this?",
  keep: {
    picture: "Picture",
    copy: "Copy",
    copyOf: (title: string): string => `Copy the picture: ${title}`,
    fileOf: (kind: string, title: string): string => `${kind} file of the picture: ${title}`,
    tableOf: (caption: string): string => `CSV file of the table: ${caption}`,
    saved: (name: string): string => `${name} is saved.`,
    copied: "The picture is copied.",
    notCopied:
      "Nothing copied: this browser allows it only on a secure address (https). Save the picture instead.",
    notSaved: "Nothing saved: the browser could not draw the picture. Save it as SVG instead.",
  },
  strip: {
    noSubgroups: "No subgroups yet.",
    newest: (mean: string, side: "above" | "below" | null): string =>
      `Newest mean ${mean}${side === null ? "" : `, ${side} the tolerance`}.`,
    tolerance: (words: string): string => `Tolerance ${words}.`,
    noTolerance: "No tolerance is stated.",
    limits: (words: string): string => `Control limits ${words}.`,
    range: (count: number, lowest: string, highest: string): string =>
      `The last ${count} means lie between ${lowest} and ${highest}.`,
    counts: (newest: string, count: number, lowest: string, highest: string): string =>
      `Counts, in sigma of each sample from the centre line: the newest ${newest}, the last ${count} between ${lowest} and ${highest}; control limits -3 to 3.`,
  },
  unanswered: {
    unheard:
      "No answer from the server, so it is not known whether this was saved. What you entered is still here: see whether the server is reached, look whether it is there, and send it again if not.",
    renewed:
      "Nothing saved: the program was renewed since this page was opened. What you entered is still here: copy what took long to type, load the page anew, and enter it there.",
    notStored: (why: string): string => `${why} What you entered is still here; send it then.`,
    broken: (digest: string): string =>
      `A fault of the program, not of your data, and it is not known whether this was saved. What you entered is still here: look whether it is there, and send it again if not. Whoever looks after the server finds the reason in its log under ${digest}.`,
  },
  /** Why a change was not taken, through no fault of its own. */
  notStored: {
    busy: "Nothing saved: another change, such as a long intake, held the data for a minute. Try again when it is through.",
    full: "Nothing saved: the disk is full. Make room there; everything that was saved before is kept.",
    readOnly:
      "Nothing saved: it can only be read there. Give the program the right to write, or the disk back its own; what was saved is kept.",
    broken:
      "Nothing saved: the disk did not take it. Look after that disk; run verify when it is well again.",
  },
  seeFields: "Nothing saved: see the fields marked below.",
  notNumber: (typed: string, example: string): string =>
    `"${typed}" is not a number. Write it like ${example}.`,
  fault: {
    notSaved: "Nothing saved",
    notTaken: "The place where the data lies does not take it",
    back: "Back to the page",
    sendAgain: "What you had entered has to be sent once more when that is mended.",
    title: "This page could not be shown",
    ours: "A fault of the program, not of your data",
    again: "Try again",
    toBoard: "To the shift board",
    whole:
      "Showing a page saves nothing; if you had just sent a form, look at its page before you send it again: a change is stored whole or not at all.",
    number: "Tell whoever looks after the server this number, under which the reason is in its log:",
  },
};
