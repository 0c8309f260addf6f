/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useWords } from "../words/words";
import { Box, Current, Drawing, Note, Wire } from "./kit";
import { Clamp, Lead, Meter, socketsBelow } from "./meters";
import { at } from "./points";
import { Battery, Ground, posts, Resistor } from "./symbols";
import type { Placement } from "./placements";

/** What stands beside the battery in the drawing. */
export type Situation = "at rest" | "load test" | "cranking" | "running";

export interface MeterView {
  readonly placement: Placement;
  /** What the display should show, in the reading's own unit. */
  readonly shows: string;
}

const METER = at(98, 8);
const BATTERY = at(90, 130);

/** Meter on the posts: rest, load test, cranking, running voltage and ripple. */
export function PostsDrawing({
  placement,
  shows,
  situation,
}: MeterView & { readonly situation: Situation }): JSX.Element {
  const { drawing: d } = useWords();
  const sockets = socketsBelow(METER.x, METER.y);
  const { plus, minus } = posts(BATTERY.x, BATTERY.y);
  return (
    <Drawing
      title={d.postsTitle[situation]}
      description={d.postsDescription(d.dial[placement.meter], d.postsDescriptionTail[situation])}
      height={situation === "load test" ? 250 : 214}
    >
      {situation === "load test" ? <LoadTester /> : <Cables situation={situation} />}
      <Battery x={BATTERY.x} y={BATTERY.y} name={d.battery} />
      <Meter x={METER.x} y={METER.y} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Lead colour="red" place="battery +" points={[sockets.red, at(sockets.red.x, 80), at(plus.x, 90), plus]} />
      <Lead
        colour="black"
        place="battery -"
        points={[sockets.black, at(sockets.black.x, 80), at(minus.x, 90), minus]}
      />
    </Drawing>
  );
}

function Cables({ situation }: { readonly situation: Exclude<Situation, "load test"> }): JSX.Element {
  const { drawing: d } = useWords();
  return (
    <g>
      <Wire points={[at(108, 126), at(38, 126), at(38, 150)]} />
      <Wire points={[at(192, 126), at(262, 126), at(262, 158)]} />
      <Ground p={at(262, 158)} />
      <Note x={262} y={190}>
        {d.frame}
      </Note>
      {situation === "at rest" ? (
        <>
          <path class="cw-wire" d="M38 150v6M38 156l-13 17M38 176v8" />
          <Note x={38} y={200}>
            {d.keyOff}
          </Note>
        </>
      ) : null}
      {situation === "cranking" ? (
        <>
          <circle class="cw-part" cx="38" cy="168" r="18" />
          <Note x={38} y={172} strong>
            M
          </Note>
          <Note x={38} y={204}>
            {d.starter}
          </Note>
          <Current from={at(88, 116)} to={at(52, 116)} />
        </>
      ) : null}
      {situation === "running" ? (
        <>
          <Box x={4} y={150} width={74} height={42} name={d.unitLines[0]} second={d.unitLines[1]} />
          <Current from={at(52, 116)} to={at(88, 116)} />
          <Note x={41} y={208}>
            {d.engineRunning}
          </Note>
        </>
      ) : null}
    </g>
  );
}

/** Carbon pile: an adjustable resistance in series with an ammeter across the posts. */
function LoadTester(): JSX.Element {
  const { drawing: d } = useWords();
  return (
    <g>
      <Wire points={[at(108, 126), at(38, 126), at(38, 212), at(80, 212)]} />
      <Wire points={[at(108, 212), at(262, 212), at(262, 126), at(192, 126)]} />
      <circle class="cw-part" cx="94" cy="212" r="14" />
      <Note x={94} y={216} strong>
        A
      </Note>
      <Resistor p={at(190, 212)} width={44} />
      <path class="cw-arrow" d="M172 226L208 198m-7.500 .5l7.500-.5l-1.500 7" />
      <Note x={150} y={242}>
        {d.loadTester}
      </Note>
    </g>
  );
}

/** DC clamp round every lead on the positive post; its arrow decides the sign. */
export function PostClampDrawing({ placement, shows }: MeterView): JSX.Element {
  const { drawing: d } = useWords();
  const charging = placement.clamp?.arrow === "to battery";
  const box = charging ? d.unitLines : d.loadLines;
  return (
    <Drawing
      title={charging ? d.clampTitle.charging : d.clampTitle.load}
      description={charging ? d.clampDescription.charging : d.clampDescription.load}
      height={170}
      top={30}
    >
      <Box x={4} y={62} width={74} height={44} name={box[0]} second={box[1]} />
      <Wire points={[at(78, 78), at(184, 78), at(184, 91)]} />
      <Wire points={[at(78, 88), at(178, 88), at(178, 91)]} />
      <Wire points={[at(256, 95), at(288, 95), at(288, 112)]} />
      <Ground p={at(288, 112)} />
      <Battery x={154} y={100} name={d.battery} />
      <Clamp p={at(114, 83)} pointsRight={charging} shows={shows} dial={d.dial["clamp amps"]} />
      <Note x={114} y={46}>
        {charging ? d.arrowToBattery : d.arrowFromBattery}
      </Note>
    </Drawing>
  );
}

/** Meter in series in the negative lead: the only way the draw flows is through the meter. */
export function KeyOffDrawing({ placement, shows }: MeterView): JSX.Element {
  const { drawing: d } = useWords();
  const { minus } = posts(16, 130);
  const sockets = { black: at(128, 54), red: at(196, 54) };
  return (
    <Drawing title={d.keyOffTitle} description={d.keyOffDescription} height={204}>
      <Battery x={16} y={130} name={d.battery} />
      <Wire points={[at(34, 126), at(8, 126), at(8, 196), at(262, 196), at(262, 178)]} />
      <Box x={198} y={146} width={98} height={32} name={d.sleeping} />
      <Wire points={[at(262, 146), at(262, 121), at(208, 121)]} />
      <path class="cw-wire" data-place="negative cable" d="M208 121a5 5 0 1 0-10 0a5 5 0 1 0 10 0" />
      <Current from={at(248, 112)} to={at(216, 112)} />
      <Note x={166} y={112}>
        {d.cableOff}
      </Note>
      <Meter x={110} y={8} dial={d.dial[placement.meter]} shows={shows} sockets={sockets} />
      <Lead colour="black" place="battery -" points={[sockets.black, at(128, 76), at(minus.x, 76), minus]} />
      <Lead colour="red" place="negative cable" points={[sockets.red, at(196, 80), at(203, 92), at(203, 114)]} />
    </Drawing>
  );
}

/** The clamp way: nothing is opened; the arrow points to the battery, the way the current returns. */
export function KeyOffClampDrawing({ shows }: { readonly shows: string }): JSX.Element {
  const { drawing: d } = useWords();
  return (
    <Drawing title={d.keyOffClampTitle} description={d.keyOffClampDescription} height={164} top={30}>
      <Battery x={8} y={88} name={d.battery} />
      <Wire points={[at(26, 84), at(2, 84), at(2, 156), at(256, 156), at(256, 138)]} />
      <Wire points={[at(110, 84), at(256, 84), at(256, 106)]} />
      <Box x={212} y={106} width={86} height={32} name={d.unitsLines[0]} second={d.unitsLines[1]} />
      <Clamp p={at(172, 84)} pointsRight={false} shows={shows} dial={d.dial.milliamps} />
      <Note x={172} y={46}>
        {d.arrowToBattery}
      </Note>
    </Drawing>
  );
}

/** Battery from above, cells counted from the positive post, the hydrometer in the one being read. */
export function HydrometerDrawing({ cell, shows }: { readonly cell: number; readonly shows: string }): JSX.Element {
  const { drawing: d } = useWords();
  const centre = (n: number) => 40 + (n - 1) * 44;
  const x = centre(cell);
  return (
    <Drawing title={d.hydrometerTitle(cell)} description={d.hydrometerDescription(cell)} height={204}>
      <rect class="cw-part" x="10" y="104" width="280" height="92" rx="5" />
      {[1, 2, 3, 4, 5, 6].map((n) => (
        <g key={n}>
          <circle
            class={n === cell ? "cw-cell cw-cell-read" : "cw-cell"}
            cx={centre(n)}
            cy="146"
            r="13"
            data-cell={n}
          />
          <Note x={centre(n)} y={177} strong={n === cell}>
            {n}
          </Note>
          {n < 6 ? <Wire thin points={[at(centre(n) + 13, 146), at(centre(n + 1) - 13, 146)]} /> : null}
        </g>
      ))}
      <text class="cw-sign" x="22" y="124" text-anchor="middle">
        +
      </text>
      <text class="cw-sign" x="278" y="124" text-anchor="middle">
        −
      </text>
      <Note x={150} y={191}>
        {d.fromAbove}
      </Note>
      <path class="cw-glass" d={`M${x - 9} 22h18v62q0 8-5 12v38h-8v-38q-5-4-5-12z`} />
      <path class="cw-float" d={`M${x - 2.5} 30h5v22q4 4 4 12q0 10-6.500 10t-6.500-10q0-8 4-12z`} />
      <path class="cw-wire cw-thin" d={`M${x - 9} 44h18`} />
      <ellipse class="cw-part" cx={x} cy="13" rx="11" ry="9" />
      <text class="cw-display" x={x < 150 ? x + 18 : x - 18} y="48" text-anchor={x < 150 ? "start" : "end"}>
        {shows}
      </text>
      <Note x={x < 150 ? x + 18 : x - 18} y={64} anchor={x < 150 ? "start" : "end"}>
        {d.eyeLevel}
      </Note>
    </Drawing>
  );
}
