/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useWords } from "../words/words";
import type { MeterView } from "./battery-drawings";
import { Box, Drawing, Node, Note, Wire } from "./kit";
import { Lead, Meter, socketsBelow } from "./meters";
import { at, type Point } from "./points";
import { Winding } from "./symbols";
import type { Phase, Place } from "./placements";

export type Connection = "delta" | "wye" | "unknown";

export interface StatorView {
  readonly connection: Connection;
  readonly phases: readonly Phase[];
}

const METER = at(98, 6);
const ROW: Readonly<Record<Phase, number>> = { a: 134, b: 166, c: 198 };
const PIN_X = 190;
const letter = (phase: Phase) => phase.toUpperCase();

/** The stator as three windings (or one) whose ends leave to the right, in the way it is connected. */
function Stator({ connection, phases, toX }: StatorView & { readonly toX: number }): JSX.Element {
  const { drawing: d } = useWords();
  const ends = phases.map((phase) => at(98, ROW[phase]));
  const [a, b, c] = ends;
  return (
    <g>
      <circle class="cw-part" cx="70" cy="166" r="58" />
      {phases.map((phase) => (
        <Wire key={phase} points={[at(98, ROW[phase]), at(toX, ROW[phase])]} />
      ))}
      {c && b && a && connection === "wye" ? (
        <>
          {ends.map((end) => (
            <Winding key={end.y} a={at(40, 166)} b={end} />
          ))}
          <Node p={at(40, 166)} joined />
        </>
      ) : null}
      {c && b && a && connection === "delta" ? (
        <>
          <Winding a={a} b={b} turns={3} />
          <Winding a={b} b={c} turns={3} />
          <Wire points={[a, at(46, a.y)]} />
          <Winding a={at(46, a.y)} b={at(46, c.y)} turns={5} />
          <Wire points={[at(46, c.y), c]} />
          {ends.map((end) => (
            <Node key={end.y} p={end} joined />
          ))}
        </>
      ) : null}
      {c && connection === "unknown" ? (
        <Note x={58} y={170}>
          {d.windings}
        </Note>
      ) : null}
      {!c && a && b ? (
        <>
          <Wire points={[a, at(62, a.y)]} />
          <Winding a={at(62, a.y)} b={at(62, b.y)} turns={3} />
          <Wire points={[at(62, b.y), b]} />
        </>
      ) : null}
      <Note x={70} y={236}>
        {connection === "unknown" || !c ? d.stator : `${d.stator}, ${d.connection[connection]}`}
      </Note>
    </g>
  );
}

/** One half of the stator plug. */
function PlugHalf({ x, phases }: { readonly x: number; readonly phases: readonly Phase[] }): JSX.Element {
  const last = ROW[phases.at(-1)!];
  return <rect class="cw-part" x={x} y={ROW.a - 14} width="16" height={last - ROW.a + 28} rx="3" />;
}

/** Leads on two terminals of the parted plug: no-load AC, winding resistance. */
export function PairDrawing({
  placement,
  shows,
  running,
  ...stator
}: MeterView & StatorView & { readonly running: boolean }): JSX.Element {
  const { drawing: d } = useWords();
  const [red, black] = [phaseOf(placement.red), phaseOf(placement.black)];
  // The lead of the upper terminal runs inside the other, so that they do not cross.
  const redInside = ROW[red] < ROW[black];
  const left = at(METER.x + 18, METER.y + 46);
  const right = at(METER.x + 86, METER.y + 46);
  const sockets = redInside ? { red: left, black: right } : { red: right, black: left };
  const inside = (from: Point, phase: Phase) => [
    from,
    at(from.x, 84),
    at(214, 84),
    at(214, ROW[phase]),
    at(PIN_X + 8, ROW[phase]),
  ];
  const outside = (from: Point, phase: Phase) => [
    from,
    at(from.x, 72),
    at(228, 72),
    at(228, ROW[phase]),
    at(PIN_X + 8, ROW[phase]),
  ];
  return (
    <Drawing
      title={d.pairTitle(d.dial[placement.meter], letter(red), letter(black))}
      description={d.pairDescription(letter(red), letter(black), running)}
      height={246}
    >
      <Stator {...stator} toX={PIN_X} />
      <PlugHalf x={160} phases={stator.phases} />
      <PlugHalf x={252} phases={stator.phases} />
      {stator.phases.map((phase) => (
        <g key={phase}>
          <Node p={at(PIN_X, ROW[phase])} place={`phase ${phase}`} />
          <Note x={148} y={ROW[phase] - 5} strong>
            {letter(phase)}
          </Note>
          <Wire points={[at(268, ROW[phase]), at(290, ROW[phase])]} />
        </g>
      ))}
      <Note x={212} y={236}>
        {d.plugParted}
      </Note>
      <Meter x={METER.x} y={METER.y} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Note x={METER.x - 8} y={28} anchor="end">
        {running ? d.engineRunning : d.engineOff}
      </Note>
      <Lead
        colour="red"
        place={placement.red!}
        points={redInside ? inside(sockets.red, red) : outside(sockets.red, red)}
      />
      <Lead
        colour="black"
        place={placement.black!}
        points={redInside ? outside(sockets.black, black) : inside(sockets.black, black)}
      />
    </Drawing>
  );
}

/** Plug joined, back probes on the stator side: AC while the regulator works. */
export function LoadedPairDrawing({ placement, shows, ...stator }: MeterView & StatorView): JSX.Element {
  const { drawing: d } = useWords();
  const [red, black] = [phaseOf(placement.red), phaseOf(placement.black)];
  const redFirst = ROW[red] < ROW[black];
  const sockets = redFirst
    ? { red: at(METER.x + 18, METER.y + 46), black: at(METER.x + 86, METER.y + 46) }
    : { red: at(METER.x + 86, METER.y + 46), black: at(METER.x + 18, METER.y + 46) };
  // A lead touches nothing on its way down: only the terminal that it ends on is drawn as one.
  const column = (from: Point) => (from.x < 150 ? 136 : 160);
  const probe = (from: Point, phase: Phase) => {
    const x = column(from);
    return [from, at(from.x, 80), at(x, 96), at(x, ROW[phase] - 2)];
  };
  return (
    <Drawing
      title={d.loadedTitle(letter(red), letter(black))}
      description={d.loadedDescription(letter(red), letter(black))}
      height={246}
    >
      <Stator {...stator} toX={236} />
      <PlugHalf x={180} phases={stator.phases} />
      <PlugHalf x={196} phases={stator.phases} />
      <Box x={236} y={ROW.a - 18} width={60} height={ROW[stator.phases.at(-1)!] - ROW.a + 36} name={d.unitShort} />
      {stator.phases.map((phase) => (
        <g key={phase}>
          <Note x={224} y={ROW[phase] - 5} strong>
            {letter(phase)}
          </Note>
        </g>
      ))}
      <Node p={at(column(sockets.red), ROW[red])} place={placement.red!} />
      <Node p={at(column(sockets.black), ROW[black])} place={placement.black!} />
      <Note x={212} y={236}>
        {d.plugJoined}
      </Note>
      <Meter x={METER.x} y={METER.y} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Note x={METER.x - 8} y={28} anchor="end">
        {d.engineRunning}
      </Note>
      <Lead colour="red" place={placement.red!} points={probe(sockets.red, red)} />
      <Lead colour="black" place={placement.black!} points={probe(sockets.black, black)} />
    </Drawing>
  );
}

/** One winding end against bare engine metal: ohms, or 500 V insulation. */
export function ToGroundDrawing({ placement, shows, ...stator }: MeterView & StatorView): JSX.Element {
  const { drawing: d } = useWords();
  const red = phaseOf(placement.red);
  const sockets = socketsBelow(METER.x, METER.y);
  return (
    <Drawing
      title={placement.meter === "megohms" ? d.insulationTitle : d.toGroundTitle(letter(red))}
      description={placement.meter === "megohms" ? d.insulationDescription : d.toGroundDescription(letter(red))}
      height={268}
    >
      <Stator {...stator} toX={PIN_X} />
      <PlugHalf x={160} phases={stator.phases} />
      {stator.phases.map((phase) => (
        <g key={phase}>
          <Node p={at(PIN_X, ROW[phase])} place={`phase ${phase}`} />
          <Note x={148} y={ROW[phase] - 5} strong>
            {letter(phase)}
          </Note>
        </g>
      ))}
      <path
        class="cw-hatch"
        d="M150 240h140M150 248l-6 -8M166 248l-6 -8M182 248l-6 -8M198 248l-6 -8M214 248l-6 -8M230 248l-6 -8M246 248l-6 -8M262 248l-6 -8M278 248l-6 -8M290 248l-6 -8"
      />
      <Wire dashed thin points={[at(108, 209), at(126, 240), at(150, 240)]} />
      <Note x={214} y={260}>
        {d.engineMetal}
      </Note>
      <Node p={at(258, 240)} place="engine metal" />
      <Meter x={METER.x} y={METER.y} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Note x={METER.x - 8} y={28} anchor="end">
        {d.engineOff}
      </Note>
      <Lead
        colour="red"
        place={placement.red!}
        points={[sockets.red, at(sockets.red.x, 84), at(218, 84), at(218, ROW[red]), at(PIN_X + 8, ROW[red])]}
      />
      <Lead
        colour="black"
        place={placement.black!}
        points={[sockets.black, at(sockets.black.x, 70), at(258, 70), at(258, 232)]}
      />
    </Drawing>
  );
}

/** The two leads touched together: what the meter shows is taken off later. */
export function ShortedLeadsDrawing({ shows }: { readonly shows: string }): JSX.Element {
  const { drawing: d } = useWords();
  const sockets = socketsBelow(METER.x, METER.y);
  return (
    <Drawing title={d.leadsTitle} description={d.leadsDescription} height={126}>
      <Meter x={METER.x} y={METER.y} dial={d.dial.ohms} shows={shows} sockets={sockets} />
      <Lead colour="red" place="other lead" points={[sockets.red, at(sockets.red.x, 96), at(143, 96)]} />
      <Lead colour="black" place="other lead" points={[sockets.black, at(sockets.black.x, 96), at(157, 96)]} />
      <Note x={150} y={120}>
        {d.leadsTogether}
      </Note>
    </Drawing>
  );
}

/** Field-excited alternators: the rotor's winding between its two terminals. */
export function FieldDrawing({ placement, shows }: MeterView): JSX.Element {
  const { drawing: d } = useWords();
  const sockets = socketsBelow(METER.x, METER.y);
  return (
    <Drawing title={d.fieldTitle} description={d.fieldDescription} height={230}>
      <circle class="cw-part" cx="150" cy="166" r="40" />
      <Winding a={at(116, 166)} b={at(184, 166)} turns={5} />
      <Wire points={[at(116, 166), at(100, 166), at(100, 124)]} />
      <Wire points={[at(184, 166), at(200, 166), at(200, 124)]} />
      <Node p={at(100, 120)} place="field 1" />
      <Node p={at(200, 120)} place="field 2" />
      <Note x={150} y={222}>
        {d.rotor}
      </Note>
      <Meter x={METER.x} y={METER.y} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Lead colour="red" place="field 1" points={[sockets.red, at(sockets.red.x, 84), at(100, 84), at(100, 112)]} />
      <Lead
        colour="black"
        place="field 2"
        points={[sockets.black, at(sockets.black.x, 84), at(200, 84), at(200, 112)]}
      />
    </Drawing>
  );
}

function phaseOf(place: Place | undefined): Phase {
  return (place?.slice(-1) ?? "a") as Phase;
}
