import fc from "fast-check";
import { judgeDiodes } from "../../../src/core/rectifier/diodes";
import { BRIDGE_KINDS, ROWS, type DiodeBlock, type DiodeCheck } from "../../../src/core/rectifier/types";
import { block, type Written } from "./blocks";

const OL = "OL";
const SHUT: Written[] = [OL, OL, OL];
const SEED = { seed: 20261125, numRuns: 300 };
const judge = (rows: Parameters<typeof block>[0], more: Partial<DiodeCheck> = {}) =>
  judgeDiodes({ ...block(rows), ...more });
const normal = (upper: Written[], lower: Written[]): Parameters<typeof block>[0] => [
  upper,
  lower,
  upper.map(() => OL),
  lower.map(() => OL),
];

describe("the case that shapes the tool: upper bank near 0.1 V, lower near 0.5 V", () => {
  const LOW = normal([0.121, 0.124, 0.119], [0.503, 0.498, 0.506]);
  const sameNumber = block(normal([0.117, 0.122, 0.12], [0.51, 0.507, 0.505]));
  const third = block(normal([0.13, 0.128, 0.126], [0.497, 0.5, 0.495]));

  it("kind unknown, no known-good part: unproven, never faulty, with what to do next", () => {
    const judged = judge(LOW);
    expect(judged.state).toBe("unproven");
    expect(judged.reason).toMatch(
      /upper bank reads 0\.12 V forward, lower than a silicon junction and alike on every phase.*a fixed 0\.5 V rule does not apply/,
    );
    expect(judged.next).toMatch(/Read a known-good part of the same number/);
    expect(judged.readings.upperForward).toEqual(["conducts", "conducts", "conducts"]);
    expect(judged.heldAgainst).toBe("sisters only");
  });
  it("kind known: serviceable, and what hides behind the path is said", () => {
    const judged = judge(LOW, { kind: "parallel path" });
    expect(judged.state).toBe("serviceable");
    expect(judged.readings.upperForward).toEqual(["parallel path", "parallel path", "parallel path"]);
    expect(judged.readings.lowerForward).toEqual(["conducts", "conducts", "conducts"]);
    expect(judged.hidden).toEqual([
      "An open upper device would hide behind the parallel path: AC under load and ripple would show it.",
    ]);
    expect(judged.heldAgainst).toBe("kind of circuit");
  });
  it.each([
    [1, [sameNumber]],
    [2, [sameNumber, third]],
    [3, [sameNumber, third, sameNumber]],
  ])("%d known-good part(s) of the same number that read the same: serviceable", (count, knownGood) => {
    const judged = judge(LOW, { knownGood });
    expect(judged.state).toBe("serviceable");
    expect(judged.heldAgainst).toBe("known-good parts");
    expect(judged.knownGoodCount).toBe(count);
    expect(judged.reason).toContain(
      count === 1
        ? "as the known-good part of the same number reads"
        : `as ${count} known-good parts of the same number read`,
    );
    expect(judged.hidden).toHaveLength(1);
  });
  it("three identical known-good parts do not make a width of zero", () => {
    expect(judge(LOW, { knownGood: [sameNumber, sameNumber, sameNumber] }).state).toBe("serviceable");
  });
  it("stated kind plain: the readings speak against the kind, not against the part", () => {
    const judged = judge(LOW, { kind: "plain diodes" });
    expect(judged.state).toBe("unproven");
    expect(judged.next).toMatch(/Check what is inside/);
  });
  it("the path in the lower bank", () => {
    const turned = normal([0.5, 0.51, 0.5], [0.12, 0.13, 0.12]);
    expect(judge(turned, { kind: "parallel path lower" }).state).toBe("serviceable");
    expect(judge(turned).state).toBe("unproven");
    expect(judge(turned, { kind: "parallel path" }).state).toBe("unproven");
  });
  it("one sister that differs is the odd one out: suspect", () => {
    for (const more of [{}, { kind: "parallel path" as const }, { knownGood: [sameNumber] }]) {
      const judged = judge(normal([0.121, 0.124, 0.498], [0.503, 0.498, 0.506]), more);
      expect(judged.state).toBe("suspect");
      expect(judged.readings.upperForward[2]).toBe("odd one out");
      expect(judged.reason).toMatch(/upper device of phase C reads 0\.498 V, unlike its sisters/);
    }
  });
  it("[property] with kind unknown and no known-good part, a bank of any common level that blocks in reverse is never faulty", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 1.9, noNaN: true }),
        fc.double({ min: 0.02, max: 1.9, noNaN: true }),
        fc.constantFrom(2, 3),
        (upper, lower, phases) => {
          const judged = judge(
            normal(
              Array.from({ length: phases }, () => upper),
              Array.from({ length: phases }, () => lower),
            ),
          );
          expect(["serviceable", "unproven"]).toContain(judged.state);
          expect(judged.next).not.toBe("");
        },
      ),
      SEED,
    );
  });
});

describe("shorts, opens, leaks", () => {
  const GOOD = [0.52, 0.517, 0.523] as const;
  it.each(BRIDGE_KINDS)("a short both ways is faulty whatever is inside (%s)", (kind) => {
    const judged = judge([[0.52, 0.001, 0.52], [0.52, 0.52, 0.52], [OL, 0.003, OL], SHUT], { kind });
    expect(judged.state).toBe("faulty");
    expect(judged.readings.upperForward[1]).toBe("short");
    expect(judged.readings.upperReverse[1]).toBe("short");
    expect(judged.reason).toMatch(
      /upper device of phase B reads near zero both ways \(0\.001 V forward, 0\.003 V in reverse\): shorted/,
    );
  });
  it("near zero one way and the other not read: suspect, read the other way", () => {
    const judged = judge([[0.52, 0.001, 0.52], [...GOOD], [OL, null, OL], SHUT]);
    expect(judged.state).toBe("suspect");
    expect(judged.next).toMatch(/near zero both ways is a short/);
    expect(judged.readings.upperReverse[1]).toBe("not read");
  });
  it("near zero one way and OL the other is no device: read again", () => {
    expect(judge([[0.52, 0, 0.52], [...GOOD], SHUT, SHUT]).state).toBe("suspect");
  });
  it("every reading near zero speaks for the leads first", () => {
    const judged = judge([
      [0, 0.001, 0],
      [0, 0, 0],
      [0, 0, 0.001],
      [0, 0, 0],
    ]);
    expect(judged.state).toBe("suspect");
    expect(judged.next).toMatch(/Hold the leads apart/);
  });
  it("a whole bank shorted is a short, the other bank proves the leads", () => {
    expect(judge([[0, 0.001, 0], [...GOOD], [0, 0, 0.001], SHUT]).state).toBe("faulty");
  });
  it.each(["plain diodes", "mosfet", "parallel path", "unknown"] as const)(
    "an open lower device among two that conduct (%s)",
    (kind) => {
      const judged = judge(normal(kind === "parallel path" ? [0.12, 0.13, 0.12] : [...GOOD], [0.5, OL, 0.51]), {
        kind,
      });
      expect(judged.state).toBe("faulty");
      expect(judged.readings.lowerForward[1]).toBe("open");
      expect(judged.reason).toMatch(
        /lower device of phase B reads OL forward, OL in reverse while its sisters conduct: open/,
      );
    },
  );
  it("open forward with reverse not read: suspect only", () => {
    expect(judge([[0.5, OL, 0.5], [...GOOD], [OL, null, OL], SHUT], { kind: "plain diodes" }).state).toBe("suspect");
  });
  it("a phase open in both banks is named as one terminal", () => {
    const judged = judge(normal([0.52, 0.51, OL], [0.5, 0.49, OL]), { kind: "plain diodes" });
    expect(judged.state).toBe("faulty");
    expect(judged.reason).toMatch(/^Phase C conducts in neither bank while its sisters do/);
    expect(judged.next).toMatch(/Clean terminal C/);
  });
  it("a whole bank that does not conduct: contact first (plain), or controlled devices (unknown)", () => {
    expect(judge(normal([OL, OL, OL], [...GOOD]), { kind: "plain diodes" })).toMatchObject({
      state: "suspect",
      next: expect.stringMatching(/bare metal of the B\+ terminal/),
    });
    expect(judge(normal([...GOOD], [OL, OL, OL]))).toMatchObject({
      state: "unproven",
      reason: expect.stringMatching(/controlled devices read so, and so does a missing contact at ground/),
    });
  });
  it("one device leaks in reverse while its sisters block: faulty; all of them alike: unplugged?", () => {
    const judged = judge([[0.52, 0.36, 0.52], [...GOOD], [OL, 0.38, OL], SHUT]);
    expect(judged.state).toBe("faulty");
    expect(judged.readings.upperReverse[1]).toBe("odd one out");
    const alike = judge([[0.52, 0.51, 0.52], [...GOOD], [1.2, 1.21, 1.19], SHUT]);
    expect(alike.state).toBe("unproven");
    expect(alike.next).toMatch(/unplugged on both sides/);
  });
  it("a reverse path of more than one junction in one device is suspect, not faulty", () => {
    expect(judge([[...GOOD], [...GOOD], [OL, 1.4, OL], SHUT]).state).toBe("suspect");
  });
  it("more than one junction forward, alike: unproven where unknown, suspect for plain diodes", () => {
    expect(judge(normal([1.1, 1.12, 1.11], [...GOOD])).state).toBe("unproven");
    expect(judge(normal([1.1, 1.12, 1.11], [...GOOD]), { kind: "plain diodes" }).state).toBe("suspect");
  });
  it("controlled devices: one that conducts is odd, all that conduct speak against the kind", () => {
    expect(judge(normal([OL, 0.4, OL], [...GOOD]), { kind: "controlled upper" }).state).toBe("suspect");
    expect(judge(normal([...GOOD], [...GOOD]), { kind: "controlled lower" }).state).toBe("unproven");
    expect(judge(normal([...GOOD], [OL, OL, OL]), { kind: "controlled lower" }).state).toBe("serviceable");
  });
  it("a parallel path that is not there", () => {
    expect(judge(normal([...GOOD], [...GOOD]), { kind: "parallel path" })).toMatchObject({
      state: "unproven",
      reason: expect.stringMatching(/as plain diodes read/),
    });
    expect(judge(normal([0.03, 0.03, 0.03], [...GOOD]), { kind: "parallel path" }).state).toBe("unproven");
  });
});

describe("leads", () => {
  it("whole block swapped: recognised, said, judged the right way round, states stay in their cells", () => {
    const judged = judge([SHUT, SHUT, [0.52, 0.51, 0.52], [0.5, 0.5, 0.49]], { kind: "plain diodes" });
    expect(judged.leadsSwapped).toBe("both banks");
    expect(judged.state).toBe("serviceable");
    expect(judged.reason).toMatch(/^Red and black were swapped/);
    expect(judged.readings.upperForward).toEqual(["blocks", "blocks", "blocks"]);
    expect(judged.readings.upperReverse).toEqual(["conducts", "conducts", "conducts"]);
  });
  it("swapped with a short and an open in it", () => {
    const judged = judge([[OL, 0.001, OL], SHUT, [0.52, 0.001, 0.52], [0.5, OL, 0.49]], { kind: "plain diodes" });
    expect(judged.leadsSwapped).toBe("both banks");
    expect(judged.state).toBe("faulty");
    expect(judged.readings.lowerReverse).toEqual(["conducts", "open", "conducts"]);
  });
  it("one bank swapped", () => {
    const judged = judge([[0.12, 0.12, 0.13], SHUT, SHUT, [0.5, 0.5, 0.49]], { kind: "parallel path" });
    expect(judged.leadsSwapped).toBe("lower");
    expect(judged.state).toBe("serviceable");
  });
  it("one reading the wrong way round is that reading's slip", () => {
    const judged = judge([[0.52, OL, 0.52], [0.5, 0.5, 0.5], [OL, 0.52, OL], SHUT]);
    expect(judged.leadsSwapped).toBe("no");
    expect(judged.state).toBe("suspect");
    expect(judged.next).toMatch(/leads were swapped at this reading/);
  });
  it("one reading the wrong way round with nothing else read does not make swapped leads", () => {
    const judged = judge([
      [OL, null, null],
      [null, null, null],
      [0.52, null, null],
      [null, null, null],
    ]);
    expect(judged.leadsSwapped).toBe("no");
    expect(judged.state).toBe("suspect");
  });
  it("a known-good part that was read with swapped leads still serves", () => {
    const good = block([SHUT, SHUT, [0.12, 0.12, 0.12], [0.5, 0.5, 0.5]]);
    expect(judge(normal([0.121, 0.12, 0.12], [0.5, 0.5, 0.5]), { knownGood: [good] }).state).toBe("serviceable");
  });
  it("[property] swapping every lead changes no part state and mirrors the states of the readings", () => {
    const volts = fc.oneof(
      fc.constant<Written>(OL),
      fc.constant<Written>(0.001),
      fc.double({ min: 0.1, max: 0.9, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(volts, { minLength: 3, maxLength: 3 }),
        fc.array(volts, { minLength: 3, maxLength: 3 }),
        fc.constantFrom(...BRIDGE_KINDS),
        (upper, lower, kind) => {
          const reverseOf = (row: Written[]) => row.map((w): Written => (w === 0.001 ? 0.001 : OL));
          const right = judge([upper, lower, reverseOf(upper), reverseOf(lower)], { kind });
          const swapped = judge([reverseOf(upper), reverseOf(lower), upper, lower], { kind });
          const tells = [...upper, ...lower].filter((w) => typeof w === "number" && w > 0.01).length >= 2;
          if (!tells) return;
          expect(swapped.leadsSwapped).not.toBe("no");
          expect(swapped.state).toBe(right.state);
          expect(swapped.readings.upperReverse).toEqual(right.readings.upperForward);
        },
      ),
      SEED,
    );
  });
});

describe("known-good parts", () => {
  const reading = normal([0.52, 0.51, 0.52], [0.5, 0.5, 0.5]);
  it("unlike the known-good part: suspect, compare conditions", () => {
    const judged = judge(reading, { knownGood: [block(normal([0.12, 0.12, 0.12], [0.5, 0.5, 0.5]))] });
    expect(judged.state).toBe("suspect");
    expect(judged.reason).toMatch(
      /upper bank reads 0\.51 to 0\.52 V forward, unlike the known-good part of the same number/,
    );
  });
  it("a known-good part that reads shorted is left out and said", () => {
    const judged = judge(reading, { knownGood: [block([[0, 0.5, 0.5], [0.5, 0.5, 0.5], [0, OL, OL], SHUT])] });
    expect(judged.knownGoodCount).toBe(0);
    expect(judged.heldAgainst).toBe("sisters only");
    expect(judged.reason).toMatch(/1 of the known-good parts reads faulty and is left out/);
  });
  it("known-good parts that disagree about OL settle nothing in that cell", () => {
    const open = block(normal([OL, OL, OL], [0.5, 0.5, 0.5]));
    const plain = block(normal([0.5, 0.5, 0.5], [0.5, 0.5, 0.5]));
    expect(judge(reading, { knownGood: [open, plain] }).state).toBe("serviceable");
  });
  it("[iso16269-6: k of 3 parts is 12.647 for 99 % and 9.789 for 95 % of parts] six readings at once are held against 99 %", () => {
    const parts = [0.5, 0.51, 0.52].map((volts) => block(normal([volts, volts, volts], [0.51, 0.51, 0.51])));
    const at = (upper: number) => judge(normal([upper, upper, upper], [0.51, 0.51, 0.51]), { knownGood: parts }).state;
    expect([at(0.51 + 0.095), at(0.51 + 0.115), at(0.51 + 0.14)]).toEqual(["serviceable", "serviceable", "suspect"]);
  });
  it("a part that was read hot is compared at the bench", () => {
    const good = block(normal([0.52, 0.52, 0.52], [0.52, 0.52, 0.52]));
    const hot = normal([0.41, 0.41, 0.42], [0.41, 0.42, 0.41]);
    expect(judge(hot, { knownGood: [good], temperature: 80 }).state).toBe("serviceable");
    expect(judge(hot, { knownGood: [good] }).state).toBe("suspect");
  });
  it("a controlled bank is known from its known-good part", () => {
    expect(
      judge(normal([OL, OL, OL], [0.5, 0.5, 0.5]), { knownGood: [block(normal([OL, OL, OL], [0.51, 0.5, 0.5]))] })
        .state,
    ).toBe("serviceable");
    expect(judge(reading, { knownGood: [block(normal([OL, OL, OL], [0.51, 0.5, 0.5]))] }).state).toBe("suspect");
  });
  it("a reverse path that good parts have is no leak, and its absence is noticed", () => {
    const good = block([[0.5, 0.5, 0.5], [0.5, 0.5, 0.5], [1.3, 1.3, 1.3], SHUT]);
    expect(judge([[0.5, 0.51, 0.5], [0.5, 0.5, 0.5], [1.31, 1.3, 1.29], SHUT], { knownGood: [good] }).state).toBe(
      "serviceable",
    );
    expect(judge(normal([0.5, 0.51, 0.5], [0.5, 0.5, 0.5]), { knownGood: [good] }).state).toBe("suspect");
  });
});

describe("what was not read, temperature, single phase", () => {
  it("blank cells stay not read and keep the part unproven", () => {
    const judged = judge([[0.52, null, 0.52], [0.5, 0.5, 0.5], SHUT, [OL, OL, null]], { kind: "plain diodes" });
    expect(judged.state).toBe("unproven");
    expect(judged.readings.upperForward).toEqual(["conducts", "not read", "conducts"]);
    expect(judged.reason).toBe("Not read: upper forward B; lower reverse C.");
    expect(judged.next).toBe("Read upper forward B; lower reverse C.");
  });
  it("nothing read at all", () => {
    expect(
      judge([
        [null, null, null],
        [null, null, null],
        [null, null, null],
        [null, null, null],
      ]),
    ).toMatchObject({ state: "unproven", reason: "Nothing was read." });
  });
  it("a hot part that a fixed rule would condemn is referred to 25 °C", () => {
    const hot = normal([0.34, 0.35, 0.34], [0.33, 0.34, 0.34]);
    expect(judge(hot, { kind: "plain diodes", temperature: 85 }).state).toBe("serviceable");
    expect(judge(hot, { kind: "plain diodes", temperature: 20 }).state).toBe("unproven");
  });
  it("a meter of small test current reads lower and is referred to 1 mA", () => {
    const low = normal([0.36, 0.36, 0.37], [0.36, 0.36, 0.36]);
    expect(judge(low, { kind: "plain diodes", temperature: 25 }).state).toBe("unproven");
    expect(judge(low, { kind: "plain diodes", temperature: 25, testCurrent: 0.2 }).state).toBe("serviceable");
  });
  it("single phase: two columns, and two sisters that differ are both named", () => {
    expect(
      judge([
        [0.5, 0.51],
        [0.5, 0.5],
        [OL, OL],
        [OL, OL],
      ]).state,
    ).toBe("serviceable");
    const judged = judge([
      [0.5, 0.62],
      [0.5, 0.5],
      [OL, OL],
      [OL, OL],
    ]);
    expect(judged.state).toBe("suspect");
    expect(judged.readings.upperForward).toEqual(["odd one out", "odd one out"]);
    expect(
      judge(
        [
          [0.5, OL],
          [0.5, 0.5],
          [OL, OL],
          [OL, OL],
        ],
        { kind: "plain diodes" },
      ).state,
    ).toBe("faulty");
    expect(
      judge([
        [0.5, OL],
        [0.5, 0.5],
        [OL, OL],
        [OL, OL],
      ]).state,
    ).toBe("suspect");
  });
  it("one-sided readings: above a junction is as good as OL, below zero's edge as good as zero", () => {
    const check: DiodeBlock = {
      ...block(normal([0.5, 0.5, 0.5], [0.5, 0.5, 0.5])),
      upperReverse: [{ kind: "above", value: 2 }, { kind: "above", value: 1.5 }, { kind: "overload" }],
    };
    expect(judgeDiodes(check).state).toBe("serviceable");
    expect(
      judgeDiodes({
        ...check,
        upperForward: [{ kind: "below", value: 0.001 }, null, null],
        upperReverse: [{ kind: "below", value: 0.002 }, null, null],
      }).state,
    ).toBe("faulty");
  });
  it("[property] any readings at all: a state, a reason, a next step; faulty only with a both-way reading that says so", () => {
    const any = fc.oneof(
      fc.constant<Written>(OL),
      fc.constant<Written>(null),
      fc.constant<Written>(0),
      fc.double({ min: 0, max: 4, noNaN: true }),
    );
    const row = (phases: number) => fc.array(any, { minLength: phases, maxLength: phases });
    fc.assert(
      fc.property(
        fc.constantFrom(2, 3).chain((n) => fc.tuple(row(n), row(n), row(n), row(n))),
        fc.constantFrom(...BRIDGE_KINDS),
        (rows, kind) => {
          const judged = judge(rows, { kind });
          expect(judged.reason.length).toBeGreaterThan(5);
          expect(judged.next.length).toBeGreaterThan(5);
          ROWS.forEach((name, r) => {
            expect(judged.readings[name]).toHaveLength(rows[0].length);
            judged.readings[name].forEach((state, i) => expect(state === "not read").toBe(rows[r]![i] === null));
          });
          if (judged.state === "serviceable") expect(rows.flat()).not.toContain(null);
          if (judged.state === "faulty")
            expect(
              judged.findings.some((f) => f.weight === "faulty" && ["short", "open", "odd one out"].includes(f.state)),
            ).toBe(true);
        },
      ),
      { ...SEED, numRuns: 500 },
    );
  });
});
