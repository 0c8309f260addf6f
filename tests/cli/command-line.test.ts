import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { COMMANDS } from "../../src/cli/commands";
import { main } from "../../src/cli/main";
import { CAUTIONS } from "../../src/core/readings/cautions";
import { CHECKS } from "../../src/core/readings/checks";

async function run(...args: string[]) {
  const out: string[] = [];
  const complaints: string[] = [];
  const code = await main(args, { out: (line) => out.push(line), complain: (line) => complaints.push(line) });
  return { code, out: out.join("\n"), complaints: complaints.join("\n") };
}

describe("the command line", () => {
  it("lists every command with what it is for", async () => {
    const { code, out } = await run("--help");
    expect(code).toBe(0);
    for (const { name, summary } of COMMANDS) expect(out).toMatch(new RegExp(`^  ${name} +${summary}$`, "m"));
  });

  it("is not satisfied with nothing", async () => {
    expect((await run()).code).toBe(2);
  });

  it("names what it knows when asked for what it does not", async () => {
    const { code, complaints } = await run("clac");
    expect(code).toBe(2);
    expect(complaints).toContain('there is no command "clac"');
    expect(complaints).toContain("calc");
  });

  it.each(COMMANDS.map(({ name }) => name))("%s has a help that starts with its usage", async (name) => {
    for (const args of [
      [name, "--help"],
      ["help", name],
    ]) {
      const { code, out } = await run(...args);
      expect(code).toBe(0);
      expect(out).toMatch(new RegExp(`^Usage: chargewright ${name}\\b`));
    }
  });

  it.each(COMMANDS.map(({ name }) => name))("%s refuses an option it does not have", async (name) => {
    const { code, complaints } = await run(name, "--no-such-option");
    expect(code).toBe(2);
    expect(complaints).toContain("--no-such-option is not an option of this command.");
    expect(complaints).toContain(`chargewright ${name} --help`);
  });
});

describe("calc", () => {
  it("prints the value of one formula alone", async () => {
    expect(await run("calc", "=1+2*3")).toEqual({ code: 0, out: "7", complaints: "" });
    expect((await run("calc", '{1,2;3,"x"}')).out).toBe("1\t2\n3\tx");
  });

  it("gives each of several formulas its own values; a bad one stops none", async () => {
    const { code, out } = await run(
      "calc",
      "--json",
      "=1+1",
      "=SUM(1,2",
      '=IF(TRUE,"a","b")',
      "=1/0",
      "={1,TRUE;2,#N/A}",
      "=SEQUENCE(3)",
    );
    expect(code).toBe(1);
    expect(JSON.parse(out)).toEqual([
      { values: [[2]] },
      { error: "#VALUE!", message: 'This formula cannot be read: a closing ")" is missing.' },
      { values: [["a"]] },
      { error: "#DIV/0!", message: expect.stringContaining("divided by zero") },
      {
        values: [
          [1, true],
          [2, { error: "#N/A" }],
        ],
      },
      { values: [[1], [2], [3]] },
    ]);
  });

  it("calls a cell of no sheet blank", async () => {
    expect(JSON.parse((await run("calc", "--json", "=A1", '=IF(B7:B8="","-",1)')).out)).toEqual([
      { values: [[""]] },
      { values: [["-"], ["-"]] },
    ]);
  });

  it.each([
    ["=SUM(1;2)", "commas"],
    ["=(1))", 'a ")" too many'],
    ['="abc', "never closed"],
    ["=1+", 'missing after "+"'],
    ["=1 2", 'missing between "1" and "2"'],
    ["=“x”", "straight quotes"],
    ["={1,2", 'closing "}" is missing'],
    ["=(1}", '"(" is closed by "}"'],
    ["=", "empty"],
    ["=SUMM(1)", "did you mean SUM?"],
    ["=flooded", "double quotes"],
  ])("says of %s what to change", async (formula, hint) => {
    const { code, out } = await run("calc", formula);
    expect(code).toBe(1);
    expect(out).toContain(hint);
  });

  it("wants a formula", async () => {
    const { code, complaints } = await run("calc");
    expect(code).toBe(2);
    expect(complaints).toContain("give at least one formula");
  });
});

describe("diagnose", () => {
  const file = (jobs: unknown) => {
    const path = join(mkdtempSync(join(tmpdir(), "diagnose-")), "jobs.json");
    writeFileSync(path, JSON.stringify(jobs));
    return path;
  };

  it("stands what is dangerous in the next check beside it", async () => {
    const path = file([{ caseId: "a", values: { "rested-voltage": 12.3, "test-rpm": 5000, "test-voltage": 12.2 } }]);
    const [told, json] = [(await run("diagnose", path)).out, JSON.parse((await run("diagnose", path, "--json")).out)];
    const { cautions, check } = json[0].nextCheck;
    expect(cautions).toEqual(CHECKS.find(({ id }) => id === check)!.cautions.map((id) => CAUTIONS[id]));
    expect(cautions.length).toBeGreaterThan(0);
    for (const caution of cautions) expect(told).toContain(`  take care: ${caution}`);
  });

  it("says what of a job file it could not use", async () => {
    expect(await run("diagnose", file([{ caseId: "a", readings: { restedOcv: 12.6 } }]))).toMatchObject({
      code: 0,
      complaints: "a: not a reading of the job format, and left out: restedOcv.",
    });
    expect((await run("diagnose", file([]))).complaints).toMatch(/holds no job\.$/u);
  });
});
