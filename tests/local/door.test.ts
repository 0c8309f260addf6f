import fc from "fast-check";
import { Door } from "../../src/local/door";

/** A code of the same shape that is not this one. */
const other = (code: string) => String((Number(code) + 1) % 1_000_000).padStart(6, "0");

describe("the door for phones", () => {
  it("lets in one phone with the code, typed with or without a gap, and no second one", () => {
    const door = new Door();
    const code = door.newCode();
    expect(code).toMatch(/^\d{6}$/u);
    const knock = door.knock(`${code.slice(0, 3)} ${code.slice(3)}`);
    expect(knock).toEqual({ opened: true, session: expect.stringMatching(/^[\w-]{43}$/u) });
    expect(door.knows(knock.opened ? knock.session : undefined)).toBe(true);
    expect(door.knock(code)).toEqual({ opened: false, why: "no code", triesLeft: 0 });
  });

  it("is locked after five wrong codes, also for the right one, until a new code is made", () => {
    const door = new Door();
    const code = door.newCode();
    const wrong = Array.from({ length: 5 }, () => door.knock(other(code)));
    expect(wrong.map((knock) => (knock.opened ? "in" : [knock.why, knock.triesLeft]))).toEqual([
      ["wrong", 4],
      ["wrong", 3],
      ["wrong", 2],
      ["wrong", 1],
      ["locked", 0],
    ]);
    expect(door.knock(code)).toMatchObject({ opened: false, why: "locked" });
    expect(door.knock(door.newCode())).toMatchObject({ opened: true });
  });

  it("forgets a code after ten minutes and a session after twelve hours", () => {
    let now = 0;
    const door = new Door(() => now);
    const late = door.newCode();
    now += 10 * 60_000 + 1;
    expect(door.knock(late)).toMatchObject({ opened: false, why: "no code" });
    const knock = door.knock(door.newCode());
    const session = knock.opened ? knock.session : undefined;
    now += 12 * 3_600_000;
    expect(door.knows(session)).toBe(true);
    now += 1;
    expect(door.knows(session)).toBe(false);
  });

  it("knows no session that it did not give, and opens for nothing but the code", () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const door = new Door();
        const code = door.newCode();
        fc.pre(text.replaceAll(/\D/gu, "") !== code);
        return !door.knows(text) && !door.knock(text).opened;
      }),
      { seed: 20261125, numRuns: 300 },
    );
    expect(new Door().knock("000000")).toMatchObject({ opened: false, why: "no code" });
  });
});
