import { readFileSync } from "node:fs";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { isCellError, type Block, type Cell } from "../../src/core/cell";
import { AUDIT_COLUMNS } from "../../src/core/fleet/audit-columns";
import { entryOf } from "../../src/core/readings/catalogue";
import { CHECKS } from "../../src/core/readings/checks";
import { jobsFromFile } from "../../src/core/readings/from-job-file";
import { PARTS, type Job, type Measured } from "../../src/core/readings/types";
import { faultMessage } from "../../src/core/result";
import { cellsInSpanish } from "../../src/core/words/spanish/cells";
import { FUNCTIONS } from "../../src/functions/registry";
import { SPANISH } from "../../src/pane/words/spanish";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { PART_STATES } from "../../src/workbook/look";
import { anyArgument, changed } from "../../src/tools/random-cells";
import { Random } from "../../src/tools/simulation/random";
import { workedExamples } from "../../src/tools/worked-examples";
import { SPANISH_HEADERS } from "./spanish-headers";

jest.setTimeout(60_000);

const MACHINE: Cell[][] = [
  ["Battery type", "agm"],
  ["Key-off draw, allowed", "3 mA"],
];
const READINGS: Cell[][] = [
  ["Rested voltage", 11.9],
  ["Key-off draw", "60 mA"],
];
const FLEET: Cell[][] = [
  ["Machine", "Date", "Rested voltage", "Key-off draw", "Colour"],
  ["Quad 5", "2026-08-01", 11.9, "60 mA", "red"],
  ["Quad 5", "2026-08-01", 11.9, "60 mA", "red"],
  ["Cart 2", "2026-08-02", "12.x", "1 mA", "red"],
];

/** A call of every function that says sentences, without its language, and the place of that. */
const CALLS: Readonly<Record<string, { given: readonly unknown[]; language: number; sentences: readonly number[] }>> = {
  VERDICT: { given: [READINGS, MACHINE], language: 4, sentences: [3] },
  CAUSES: { given: [READINGS, 3, MACHINE], language: 5, sentences: [0, 1, 3, 4] },
  NEXTCHECK: { given: [READINGS, MACHINE], language: 4, sentences: [2] },
  WHY: { given: [READINGS, MACHINE], language: 4, sentences: [0, 1] },
  CARD: { given: [READINGS, MACHINE], language: 4, sentences: [0] },
  CHECK: { given: [[["Key-off draw"], ["Rested voltage"]], [["60 mA"], [11.9]], MACHINE], language: 7, sentences: [4] },
  AUDIT: { given: [FLEET], language: 5, sentences: [6] },
  NOTICES: { given: [FLEET], language: 2, sentences: [4] },
};

/** What an error among the random cells says. */
const HANDED_ON = "from another function";

function call(name: string, language: unknown, given = CALLS[name]!.given): Cell[][] {
  const all = Array.from({ length: CALLS[name]!.language }, (_, i) => given[i] ?? null);
  return FUNCTIONS[name]!(...all, language);
}

/** A part that has one name in both languages. */
const SAME = "rotor";

/** What one answer holds beside its sentences, and the sentences. */
function parted(name: string, cells: Block) {
  const { sentences } = CALLS[name]!;
  const isSentence = (cell: Cell, column: number) => sentences.includes(column) && typeof cell === "string";
  return {
    rest: cells.map((row) => row.map((cell, column) => (isSentence(cell, column) ? "" : cell))),
    sentences: cells.flatMap((row) => row.filter(isSentence)).filter((cell) => cell !== ""),
  };
}

describe.each(Object.keys(CALLS))("%s in Spanish", (name) => {
  it("says its sentences otherwise and leaves every other cell as it is", () => {
    const english = parted(name, call(name, null));
    const spanish = parted(name, call(name, "es"));
    expect(spanish.rest).toEqual(english.rest);
    expect(english.sentences.length).toBeGreaterThan(0);
    expect(spanish.sentences).toHaveLength(english.sentences.length);
    const same = spanish.sentences.filter((text, i) => text === english.sentences[i]);
    // The header of the columns is a name, by which the column is found.
    expect(same).toEqual({ AUDIT: ["Verdict"], NOTICES: ["What"] }[name] ?? []);
  });

  it("is the same in English, whether that is asked for or not", () => {
    const plain = call(name, null);
    for (const language of ["", "en", "EN", [["en"]]]) expect(call(name, language)).toEqual(plain);
  });

  it("names a language that it does not know", () => {
    const [[cell]] = call(name, "fr") as [[Cell]];
    expect(isCellError(cell) && cell.message).toBe('language: "fr" cannot be read; enter en or es.');
  });
});

describe("an audit all of which is said", () => {
  const table: Cell[][] = [
    ...FLEET,
    ["Van 1", "2026-08-02", "", "", "red"],
    ["Van 2", "2026-08-02", 12.7, "1 mA", "red"],
  ];

  it("has every word in Spanish and every number as it was", () => {
    const english = call("AUDIT", null, [table]);
    const spanish = call("AUDIT", "es all", [table]);
    expect(spanish[0]).toEqual(SPANISH_HEADERS);
    expect(spanish.map((row) => row[1])).toEqual([
      "Estado",
      "con avería",
      "con avería",
      "no se entiende",
      "sin leer",
      "sin probar",
    ]);
    english.forEach((row, r) =>
      row.forEach((cell, c) => {
        if (typeof cell === "string" && cell !== "" && cell !== SAME) expect(spanish[r]![c]).not.toBe(cell);
        else expect(spanish[r]![c]).toBe(cell);
      }),
    );
  });

  it("has the words that sheets in Spanish use", () => {
    const { say } = spanishSheets(SPANISH);
    const words = [...PART_STATES, ...PARTS, "none", "not understood", ...AUDIT_COLUMNS, ...CHECKS.map((c) => c.label)];
    for (const word of words) expect([word, cellsInSpanish(word)]).toEqual([word, say(word)]);
  });

  it("is asked of AUDIT alone", () => {
    const [[cell]] = call("VERDICT", "es all") as [[Cell]];
    expect(isCellError(cell) && cell.message).toBe('language: "es all" cannot be read; enter en or es.');
  });
});

it("leaves the mark of nothing read, which formulas look for", () => {
  for (const name of ["VERDICT", "CAUSES", "WHY", "CARD"])
    expect(call(name, "es", [[["Rested voltage", ""]]])).toEqual([["not read"]]);
  // What comes first can be told of a job in which nothing was read yet, but not of blank cells.
  expect(call("NEXTCHECK", "es", [[["Rested voltage", ""]]])[0]![0]).toBe("Running voltage at idle");
  expect(call("NEXTCHECK", "es", [[["", ""]]])).toEqual([["not read"]]);
});

it("says in Spanish what cannot be read", () => {
  const [[cell]] = call("VERDICT", "es", [[["Rested voltage", "14..2"]]]) as [[Cell]];
  expect(isCellError(cell) && cell.message).toBe("Tensión en reposo: «14..2» no se puede leer; escriba un solo valor.");
});

it.each([
  [
    [["Part number", "Use"]],
    [],
    "Precios: falta la columna price; ponga una fila de encabezados con «part number» y «price» (o «cost» y «margin»).",
  ],
  [
    [["Part number", "Price (incl. VAT)"]],
    [],
    "Precios, «price»: «Price (incl. VAT)» no se puede leer; escriba importes sin impuesto.",
  ],
  [
    [["Part number", "Price (USD)"]],
    [["Currency", "EUR"]],
    "Precios, «price»: «Price (USD)» no se puede leer; escriba importes en EUR o fije la moneda en las condiciones.",
  ],
  [
    [["Part number", "Price"]],
    [
      ["Labour rate", 80],
      ["Shop rate", 95],
    ],
    "Condiciones, «labour rate»: «95» no se puede leer; deje un solo valor.",
  ],
] as [Cell[][], Cell[][], string][])("says in Spanish what a quote cannot go by: %j %j", (prices, terms, spanish) => {
  const [[cell]] = FUNCTIONS.QUOTE!([["stator", "faulty", 0.97, ""]], prices, terms, "", "", "", "", "es") as [[Cell]];
  expect(isCellError(cell) && cell.message).toBe(spanish);
});

describe("what is said of cells that do not fit", () => {
  const message = (name: string, ...given: unknown[]) => {
    const [[cell]] = call(name, "es", given) as [[Cell]];
    return isCellError(cell) && cell.message;
  };
  const LIST = "dé dos columnas (etiqueta, valor), o una fila de encabezados y una fila de lecturas.";

  it.each([
    [
      [["Rested voltage", "Key-off draw"]],
      `lo dado no encaja (una fila de etiquetas sin una fila de lecturas debajo); ${LIST}`,
    ],
    [[["Rested voltage"], ["Key-off draw"]], `lo dado no encaja (más de una etiqueta en una sola columna); ${LIST}`],
    [
      [
        ["Rested voltage", 12.6, "Key-off draw", 3],
        ["Cranking voltage", 10.4, "", ""],
      ],
      `lo dado no encaja («Key-off draw» con un valor propio a la derecha de las primeras etiquetas); ${LIST}`,
    ],
    [
      [
        ["Rested voltage", "Key-off draw"],
        [12.6, 3],
        [12.5, 2],
      ],
      "lo dado no encaja (2 filas de lecturas); dé la fila de encabezados y una sola fila.",
    ],
    [
      [["colour", "red"]],
      "«colour» no se puede leer; escriba dos columnas (etiqueta, valor), o una fila de encabezados con una fila de valores debajo, con etiquetas como Tensión en reposo.",
    ],
  ] as [Cell[][], string][])("%j", (readings, spanish) => {
    for (const name of ["VERDICT", "CARD", "WHY"]) expect(message(name, readings)).toBe(`lecturas: ${spanish}`);
  });

  it("names what a cell with a line break holds", () => {
    expect(message("VERDICT", [["Rested voltage", "12.6\n13"]])).toBe(
      "Tensión en reposo: «12.6\n13» no se puede leer; escriba un solo valor.",
    );
  });

  it("has Spanish, whatever is given", () => {
    const dice = new Random(20261129);
    const unknown = new Set<string>();
    let told = 0;
    const names = Object.keys(CALLS);
    const examples = workedExamples();
    for (let i = 0; i < 8000; i++) {
      const name = names[i % names.length]!;
      const known = examples.filter((example) => example.name === name);
      const given = dice.chance(0.7)
        ? changed(dice, dice.pick(known).given)
        : Array.from({ length: CALLS[name]!.language }, () => anyArgument(dice));
      for (const cell of call(name, null, given).flat()) {
        // An error that was handed in stays as whoever made it has said it.
        if (!isCellError(cell) || cell.message === undefined || cell.message === HANDED_ON) continue;
        told += 1;
        if (cellsInSpanish(cell.message) === cell.message) unknown.add(cell.message);
      }
    }
    expect(told).toBeGreaterThan(2000);
    expect([...unknown]).toEqual([]);
  });
});

describe("sentences in cells", () => {
  const file = readFileSync(path.resolve(__dirname, "../jobs/simulated-jobs.json"), "utf8");
  const jobs = jobsFromFile(JSON.parse(file));
  if (!jobs.ok) throw new Error(faultMessage(jobs.fault));
  const all = jobs.value.map(({ job }) => cellsOf(job));

  it.each(["VERDICT", "CAUSES", "NEXTCHECK", "WHY", "CHECK"])(
    "of %s have Spanish for every sixth simulated job",
    (name) => {
      const unknown = new Set<string>();
      let told = 0;
      for (const cells of all.filter((_, i) => i % 6 === 1)) {
        const column = (c: number) => cells.map((row) => [row[c]!]);
        const given = name === "CHECK" ? [column(0), column(1), cells, cells] : [cells];
        for (const text of parted(name, call(name, null, given)).sentences) {
          told += 1;
          if (text !== SAME && cellsInSpanish(String(text)) === text)
            unknown.add(String(text).replaceAll(/\d+(?:\.\d+)?/gu, "#"));
        }
      }
      expect(told).toBeGreaterThanOrEqual(20);
      expect([...unknown]).toEqual([]);
    },
  );
});

describe("sentences of NOTICES", () => {
  it("have Spanish for all that the demo fleet shows", () => {
    const file = readFileSync(path.resolve(__dirname, "../fleet/demo-fleet.csv"), "utf8");
    const notices = call("NOTICES", null, [parse(file) as string[][]]).slice(1);
    expect(new Set(notices.map((row) => row[3])).size).toBeGreaterThan(6);
    const unknown = notices.map((row) => String(row[4])).filter((text) => cellsInSpanish(text) === text);
    expect(unknown).toEqual([]);
  });

  it.each([
    [
      "serial number B-2 under a name that has B-1 in row 3: two machines of one name, or a slip; they were taken as one.",
      "número de serie B-2 bajo un nombre que tiene B-1 en la fila 3: dos máquinas con un mismo nombre o un descuido; se tomaron como una.",
    ],
    [
      "from 2026-05-04 on all voltages on 4 machines read 2.5 % lower: as another meter does. Trends start anew there; hold both meters on one battery to tell which is right.",
      "desde el 2026-05-04 todas las tensiones en 4 máquinas leen un 2,5 % menos: como con otro medidor. Las tendencias empiezan ahí de nuevo; ponga ambos medidores en una misma batería para saber cuál acierta.",
    ],
    [
      "the name is but one letter from that of Quad 7 (12 rows, first in row 5). One machine under two names? They were taken as two.",
      "el nombre difiere en una letra del de Quad 7 (12 filas, la primera en la fila 5). ¿Una máquina bajo dos nombres? Se tomaron como dos.",
    ],
    [
      'Date: "1.2.x" cannot be read; enter a date such as 2026-03-04. The visit is left out of the machine\'s history. 12 more dates of this column cannot be read.',
      "Fecha: «1.2.x» no se puede leer; escriba una fecha como 2026-03-04. La visita queda fuera de la historia de la máquina. Otras 12 fechas de esta columna no se pueden leer.",
    ],
    [
      "no visit for 200 days since 2026-05-04 (usual: 30): in storage, or visits are missing. Rested voltage 12.8 V before, 12.1 V after.",
      "ninguna visita en 200 días desde el 2026-05-04 (lo habitual: 30): guardada, o faltan visitas. Tensión en reposo 12,8 V antes, 12,1 V después.",
    ],
    [
      "2062-03-02 lies 13149 days after all other visits; it was taken as it stands.",
      "2062-03-02 cae 13149 días después de todas las demás visitas; se tomó tal cual.",
    ],
    [
      "2006-03-02 lies 7305 days before all other visits; it was taken as it stands.",
      "2006-03-02 cae 7305 días antes de todas las demás visitas; se tomó tal cual.",
    ],
    [
      "the middle one of these readings is 70 °C; if the column is in °F, write the unit in its header.",
      "la lectura del medio es 70 °C; si la columna está en °F, escriba la unidad en su encabezado.",
    ],
    ["the header row again, left out", "otra vez la fila de encabezados, omitida"],
  ])("%s", (english, spanish) => expect(cellsInSpanish(english)).toBe(spanish));
});

function cellsOf(job: Job): Cell[][] {
  return [...job].map(([id, measured]) => [entryOf(id)!.label, typed(measured)]);
}

function typed(measured: Measured): Cell {
  switch (measured.kind) {
    case "number":
      return measured.value;
    case "choice":
    case "text":
      return measured.value;
    default:
      return "OL";
  }
}
