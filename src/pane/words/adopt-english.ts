/** Words of the view that puts results beside a table of the user's own. */
export const ADOPT_ENGLISH = {
  heading: "Your own table",
  about:
    "Select a cell of your table, or its header row, and look at it here. Results come as formulas beside it; nothing in it is moved or overwritten.",
  look: "Look at the selected table",
  looking: "Looking at the table…",
  rows: (count: number) => (count === 1 ? "1 machine row" : `${count} machine rows`),
  apart: (columns: string) =>
    `An empty column parts more headers from these: ${columns}. To take them in too, select the whole header row and look again.`,
  columns: "What the columns hold",
  others: (count: number) => (count === 1 ? "1 more column, left out" : `${count} more columns, left out`),
  meaning: (column: string) => `Column ${column} holds`,
  leftOut: "Leave out",
  unit: (column: string) => `Unit of bare numbers in column ${column}`,
  unitShort: "in",
  unitRefused: (typed: string, unit: string) => `"${typed}" is no unit of this reading; enter one such as ${unit}.`,
  noHeader: "no header",
  told: {
    header: "",
    misspelt: "The header is spelt differently: is this right?",
    around: "Told by the title above or the unit below the header.",
    before: "As you set it before.",
    doubled: "An earlier column holds this reading: left out.",
    nothing: "",
  },
  unreadable: (bad: number, all: number, cell: string) => `${bad} of ${all} cannot be read, first ${cell}.`,
  routine: (share: number) =>
    `Routine visits: ${Math.round(share * 100)} % of the machines are in order before anything is read. Else each counts as one that came with a complaint.`,
  place: "First column of the results",
  placeHint: "A letter; blank: the first free place at the right.",
  byRow: "A formula in each row, as columns of your table.",
  spilled: "One formula for all rows.",
  will: (range: string) => `Results will stand at ${range}.`,
  add: "Add the results",
  renew: "Renew the results",
  remove: "Take the results away",
  added: (range: string) => `The results stand at ${range}.`,
  removed: (typed: string) =>
    `The results were taken away; ${typed === "" ? "the table is as it was." : `what was typed over them stays in ${typed}.`}`,
  changed: "The table has changed meanwhile. This is how it stands now; nothing was written.",
  undo: "Undo takes them away in one step.",
  renewHint: "Rows added or columns moved? Look again and renew them.",
};

export type AdoptWords = typeof ADOPT_ENGLISH;
