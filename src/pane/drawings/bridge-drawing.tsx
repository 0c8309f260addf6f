/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useWords } from "../words/words";
import type { MeterView } from "./battery-drawings";
import { Box, Drawing, Node, Note, Wire } from "./kit";
import { Lead, Meter } from "./meters";
import { at, type Point } from "./points";
import type { Device, Phase, Place } from "./placements";

/** Words of the catalogue's `bridge-kind`. */
export type BridgeKind =
  | "plain diodes"
  | "parallel path"
  | "parallel path lower"
  | "controlled upper"
  | "controlled lower"
  | "mosfet"
  | "unknown";

const TOP = 98;
const MIDDLE = 166;
const BOTTOM = 234;
const COLUMNS: Readonly<Record<Phase, number>> = { a: 98, b: 164, c: 230 };
const BPLUS = at(34, TOP);
const GROUND = at(278, BOTTOM);
const METER = at(98, 4);
const SOCKETS = { left: at(116, 50), right: at(184, 50) };

/** One device of the bridge between its phase and a rail; the triangle points the way current passes. */
function DeviceSymbol({
  x,
  y,
  device,
  kind,
  tested,
}: {
  readonly x: number;
  readonly y: number;
  readonly device: Device;
  readonly kind: BridgeKind;
  readonly tested: boolean;
}): JSX.Element {
  const controlled = kind === `controlled ${device.bank}`;
  const parallel = kind === (device.bank === "upper" ? "parallel path" : "parallel path lower");
  return (
    <g class={tested ? "cw-device cw-device-tested" : "cw-device"} data-device={`${device.bank} ${device.phase}`}>
      <path class="cw-triangle" d={`M${x - 9} ${y + 8}h18l-9 -16z`} />
      <path class="cw-bar" d={`M${x - 9} ${y - 8}h18`} />
      {controlled ? <path class="cw-bar" d={`M${x + 4} ${y - 8}l9 -7h5`} /> : null}
      {kind === "mosfet" ? (
        <path
          class="cw-bar"
          d={`M${x + 14} ${y - 12}v24M${x + 18} ${y - 12}v5M${x + 18} ${y - 2}v5M${x + 18} ${y + 7}v5`}
        />
      ) : null}
      {parallel ? (
        <>
          <path class="cw-wire cw-thin cw-dashed" d={`M${x} ${y - 22}h20v13M${x + 20} ${y + 9}v13h-20`} />
          <rect class="cw-second-path" x={x + 14} y={y - 9} width="12" height="18" rx="2" />
        </>
      ) : null}
    </g>
  );
}

/** Rails, phases and devices. */
function Bridge({
  kind,
  phases,
  tested,
}: {
  readonly kind: BridgeKind;
  readonly phases: readonly Phase[];
  readonly tested?: Device | undefined;
}): JSX.Element {
  const { drawing: d } = useWords();
  const last = COLUMNS[phases.at(-1)!];
  return (
    <g>
      <Wire points={[BPLUS, at(last, TOP)]} />
      <Wire points={[at(COLUMNS.a, BOTTOM), GROUND]} />
      {phases.map((phase) => {
        const x = COLUMNS[phase];
        const is = (bank: Device["bank"]) => tested?.bank === bank && tested.phase === phase;
        return (
          <g key={phase}>
            <Wire points={[at(x, TOP), at(x, BOTTOM)]} />
            <DeviceSymbol
              x={x}
              y={(TOP + MIDDLE) / 2}
              device={{ bank: "upper", phase }}
              kind={kind}
              tested={is("upper")}
            />
            <DeviceSymbol
              x={x}
              y={(MIDDLE + BOTTOM) / 2}
              device={{ bank: "lower", phase }}
              kind={kind}
              tested={is("lower")}
            />
            <Node p={at(x, MIDDLE)} place={`phase ${phase}`} />
            <text class="cw-note cw-strong" x={x + 12} y={MIDDLE + 4}>
              {phase.toUpperCase()}
            </text>
            <Node p={at(x, TOP)} joined />
            <Node p={at(x, BOTTOM)} joined />
          </g>
        );
      })}
      <Node p={BPLUS} place="B+" />
      <Node p={GROUND} place="unit ground" />
      <Note x={BPLUS.x} y={TOP + 24} strong>
        B+
      </Note>
      <Note x={296} y={BOTTOM + 22} anchor="end" strong>
        {d.ground}
      </Note>
    </g>
  );
}

/** Where a lead from the meter ends, coming from above: phases are reached beside their column. */
function routeTo(place: Place, from: Point, level: number): readonly Point[] {
  if (place === "B+") return [from, at(from.x, level), at(BPLUS.x, level), BPLUS];
  if (place === "unit ground") return [from, at(from.x, level), at(GROUND.x, level), GROUND];
  const x = COLUMNS[place.slice(-1) as Phase];
  return [from, at(from.x, level), at(x - 26, level), at(x - 26, MIDDLE), at(x, MIDDLE)];
}

function placeX(place: Place): number {
  if (place === "B+") return BPLUS.x;
  if (place === "unit ground") return GROUND.x;
  return COLUMNS[place.slice(-1) as Phase] - 26;
}

/** The two leads; the socket further left serves the place further left, so that they never cross. */
export function TwoLeads({ red, black }: { readonly red: Place; readonly black: Place }): JSX.Element {
  const redLeft = placeX(red) < placeX(black);
  const leftPlace = redLeft ? red : black;
  const rightPlace = redLeft ? black : red;
  const left = routeTo(leftPlace, SOCKETS.left, placeX(leftPlace) < SOCKETS.left.x ? 64 : 78);
  const right = routeTo(rightPlace, SOCKETS.right, placeX(rightPlace) > SOCKETS.right.x ? 64 : 78);
  return (
    <>
      <Lead colour={redLeft ? "red" : "black"} place={leftPlace} points={left} />
      <Lead colour={redLeft ? "black" : "red"} place={rightPlace} points={right} />
    </>
  );
}

export interface BridgeView {
  readonly kind: BridgeKind;
  readonly phases: readonly Phase[];
}

/** Diode check of one device, or of B+ against ground: the unit alone, unplugged on both sides. */
export function BridgeDrawing({ placement, shows, kind, phases }: MeterView & BridgeView): JSX.Element {
  const { drawing: d } = useWords();
  const { device, forward } = placement;
  const redLeft = placeX(placement.red!) < placeX(placement.black!);
  return (
    <Drawing
      title={device ? d.diodeTitle(device.bank, device.phase.toUpperCase(), forward!) : d.outputShortTitle}
      description={`${d.leadsGo(d.place[placement.red!], d.place[placement.black!])} ${d.bridgeDescription(phases.length)} ${d.kind[kind]}`}
      height={282}
    >
      <Bridge kind={kind} phases={phases} tested={device} />
      <Meter
        x={METER.x}
        y={METER.y}
        dial={d.dial[placement.meter]}
        shows={shows}
        sockets={redLeft ? { red: SOCKETS.left, black: SOCKETS.right } : { red: SOCKETS.right, black: SOCKETS.left }}
      />
      <TwoLeads red={placement.red!} black={placement.black!} />
      <Note x={150} y={276}>
        {d.kind[kind]}
      </Note>
    </Drawing>
  );
}

/** Terminals against the bare case: black stays on the case, red visits every terminal. */
export function CaseDrawing({
  placement,
  shows,
  phases,
}: MeterView & { readonly phases: readonly Phase[] }): JSX.Element {
  const { drawing: d } = useWords();
  const names = [...phases.map((phase) => phase.toUpperCase()), "B+"];
  const x = (i: number) => 62 + i * 36;
  const sockets = { red: SOCKETS.left, black: SOCKETS.right };
  return (
    <Drawing title={d.caseTitle} description={d.caseDescription} height={220}>
      <path class="cw-part" d="M40 130h200v14h14v8h-14v8h14v8h-14v8h14v8h-14v16H40z" />
      <Box x={70} y={160} width={130} height={26} name={d.unit} />
      {names.map((name, i) => (
        <g key={name}>
          <Wire points={[at(x(i), 130), at(x(i), 122)]} />
          <Node p={at(x(i), 116)} place={i === 0 ? "phase a" : name} />
          <Note x={x(i)} y={147} strong>
            {name}
          </Note>
        </g>
      ))}
      <path class="cw-arrow cw-dashed" d={`M${x(0) + 14} 104H${x(names.length - 1)}m-6 -4l6 4l-6 4`} />
      <Note x={x(names.length - 1) + 12} y={96} anchor="end">
        {d.eachInTurn}
      </Note>
      <Node p={at(222, 186)} place="case" />
      <Meter x={METER.x} y={METER.y} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Lead colour="red" place="phase a" points={[sockets.red, at(sockets.red.x, 74), at(x(0), 74), at(x(0), 110)]} />
      <Lead
        colour="black"
        place="case"
        points={[sockets.black, at(sockets.black.x, 70), at(278, 70), at(278, 186), at(228, 186)]}
      />
    </Drawing>
  );
}
