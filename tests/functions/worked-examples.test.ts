import { isCellError, type Cell } from "../../src/core/cell";
import { FUNCTIONS } from "../../src/functions/registry";
import { workedExamples } from "../../src/tools/worked-examples";

/** How far a value that the help calls "about" may lie off, as a share: it comes from a model, not a table. */
const ABOUT = 0.15;

/** What is said of one cell: a number to its printed digits, "about" a number, `blank`, a word, or prose (the, a). */
function holds(said: string, cell: Cell | undefined): boolean {
  const about = /^about (\S+)$/u.exec(said);
  if (about) return typeof cell === "number" && Math.abs(cell / Number(about[1]) - 1) <= ABOUT;
  if (said === "blank") return cell === "";
  if (/^(?:the|a) /u.test(said)) return cell !== "" && cell !== undefined && !isCellError(cell);
  const value = Number(said);
  if (Number.isNaN(value)) return cell === said;
  const half = 0.5 * 10 ** -(said.split(".")[1]?.length ?? 0);
  return typeof cell === "number" && Math.abs(cell - value) <= half + 1e-12;
}

describe("every worked example of the help gives what it says", () => {
  for (const { name, formula, given, gives } of workedExamples()) {
    it(formula, () => {
      const rows = FUNCTIONS[name]!(...given);
      const row = rows[0]!;
      // What a later row holds is told in prose.
      const said = gives.split(/, then /u)[0]!.split(/, | and /u);
      const wrong = said.flatMap((one, i) =>
        holds(one, row[i]) ? [] : [`"${one}" but the cell holds ${JSON.stringify(row[i])}`],
      );
      expect(wrong).toEqual([]);
      expect(said.some((one) => !/^(?:the|a) /u.test(one))).toBe(true);
      if (gives.includes(", then ")) expect(rows.length).toBeGreaterThan(1);
    });
  }

  it("tells a wrong value from a right one", () => {
    expect([holds("0.75", 0.754), holds("0.75", 0.756), holds("blank", ""), holds("blank", 0)]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect([holds("about 10", 11.4), holds("about 10", 11.6), holds("fail", "fail"), holds("fail", "pass")]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect([
      holds("the reason", "because"),
      holds("the reason", ""),
      holds("0.75", "0.75"),
      holds("1", undefined),
    ]).toEqual([true, false, false, false]);
  });
});
