import { bothWays, nameOf, note, voltsOf, where, type BankView } from "./bank";
import { PLAIN_BAND } from "./expectation";

const REPLACE = "read it once more with clean, firm contact; if it stays, replace the regulator-rectifier";
const READ_AGAIN = "clean the terminals and read it both ways again";

/** Metal between the leads. Both ways it is a short, whatever is inside. */
export function findShorts(view: BankView): void {
  for (const i of where(view, (d) => d.forward.shows === "zero" || d.reverse.shows === "zero")) {
    const device = view.devices[i]!;
    const words = `${nameOf(view, i)} reads near zero`;
    if (device.forward.shows === "zero" && device.reverse.shows === "zero") {
      note(view, [i], {
        weight: "faulty",
        state: "short",
        words: `${words} both ways (${bothWays(device)}): shorted`,
        next: REPLACE,
      });
    } else if (device.forward.shows === "nothing" || device.reverse.shows === "nothing") {
      note(view, [i], {
        weight: "suspect",
        state: "short",
        words: `${words} one way and the other was not read (${bothWays(device)})`,
        next: "read it the other way: near zero both ways is a short",
      });
    } else {
      note(view, [i], {
        weight: "suspect",
        state: "short",
        words: `${words} one way only (${bothWays(device)}), which no device does`,
        next: READ_AGAIN,
      });
    }
  }
}

/** Current both ways, where it should be blocked in reverse. */
export function findLeaks(view: BankView): void {
  const leaking = where(
    view,
    (d) => d.forward.shows === "volts" && d.reverse.shows === "volts" && d.expected.reverse.reads !== "volts",
  );
  const sistersThatBlock = where(view, (d) => d.reverse.shows === "over-range").length;
  if (leaking.length > 1 && sistersThatBlock === 0) {
    note(view, leaking, {
      weight: "unproven",
      state: "conducts",
      words: `All ${view.bank} devices conduct both ways alike`,
      next: "make sure that the unit is unplugged on both sides and read again; a known-good part shows whether this circuit reads so",
    });
    return;
  }
  for (const i of leaking) {
    const device = view.devices[i]!;
    view.reverse[i] = "odd one out";
    // A path through the control circuits drops more than one junction: that may belong there.
    const throughOneDevice = voltsOf(device.reverse)! < PLAIN_BAND.high;
    const mustBlock = sistersThatBlock > 0 || device.expected.reverse.reads === "over-range";
    note(view, [i], {
      weight: throughOneDevice && mustBlock ? "faulty" : "suspect",
      state: "odd one out",
      words: `${nameOf(view, i)} conducts both ways (${bothWays(device)}) where it should block in reverse: it leaks`,
      next: REPLACE,
    });
  }
}

/** Current the wrong way only, or seen in reverse only. */
export function findTurned(view: BankView): void {
  for (const i of where(
    view,
    (d) =>
      d.reverse.shows === "volts" &&
      d.expected.reverse.reads !== "volts" &&
      d.forward.shows !== "volts" &&
      d.forward.shows !== "zero",
  )) {
    const device = view.devices[i]!;
    if (device.forward.shows === "nothing") {
      note(view, [i], {
        weight: "suspect",
        state: "conducts",
        words: `${nameOf(view, i)} conducts in reverse and was not read forward (${bothWays(device)})`,
        next: "read it forward as well; where it blocks forward, the leads were swapped",
      });
    } else {
      view.forward[i] = view.reverse[i] = "odd one out";
      note(view, [i], {
        weight: "suspect",
        state: "odd one out",
        words: `${nameOf(view, i)} reads the wrong way round (${bothWays(device)}), and a device does not turn round inside`,
        next: "the leads were swapped at this reading: read it both ways again",
      });
    }
  }
}

/** Over-range forward, where a device should conduct. */
export function findOpens(view: BankView): void {
  const shut = where(
    view,
    (d) => d.forward.shows === "over-range" && (d.reverse.shows === "over-range" || d.reverse.shows === "nothing"),
  );
  const must = shut.filter((i) => view.devices[i]!.expected.forward.reads === "volts");
  const may = shut.filter((i) => view.devices[i]!.expected.forward.reads === "anything");
  if (must.length + may.length === 0) return;
  const sisters = where(view, (d) => d.forward.shows === "volts").length;
  const read = where(view, (d) => d.forward.shows !== "nothing").length;
  if (sisters === 0 && read === must.length + may.length && read > 1) {
    noteShutBank(view, must, may);
    return;
  }
  for (const i of [...must, ...may].sort()) {
    const device = view.devices[i]!;
    view.forward[i] = "open";
    const bothRead = device.reverse.shows === "over-range";
    // Two sisters that conduct say that this bank conducts, whatever is inside.
    const sure = bothRead && (must.includes(i) || sisters >= 2);
    const why =
      sisters === 0
        ? "where it should conduct"
        : sisters === 1
          ? "while its sister conducts"
          : "while its sisters conduct";
    note(view, [i], {
      weight: sure ? "faulty" : "suspect",
      state: "open",
      words: `${nameOf(view, i)} reads ${bothWays(device)} ${why}: open`,
      next: bothRead ? REPLACE : "read it in reverse as well",
    });
  }
}

/** A bank of which no device conducts: three opens at once are rarer than one missing contact. */
function noteShutBank(view: BankView, must: readonly number[], may: readonly number[]): void {
  const terminal = view.bank === "upper" ? "B+" : "ground";
  if (must.length > 0) {
    for (const i of must) view.forward[i] = "open";
    note(view, must, {
      weight: "suspect",
      state: "open",
      words: `No ${view.bank} device conducts, where each should`,
      next: `hold the probe on bare metal of the ${terminal} terminal and read again; if all stay OL, the ${terminal} connection inside is open`,
    });
  } else {
    note(view, may, {
      weight: "unproven",
      state: "blocks",
      words: `No ${view.bank} device conducts either way: controlled devices read so, and so does a missing contact at ${terminal}`,
      next: "find out what is inside, or read a known-good part of the same number",
    });
  }
}
