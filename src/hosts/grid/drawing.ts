import { Worksheet } from "@univerjs/core";
import { Layer } from "@univerjs/preset-sheets-core";

type Cell = ReturnType<Worksheet["getCell"]>;

/** Columns of the widest sheet and more: a cell's place as one number. */
const WIDTH = 100_000;

const due = new WeakMap<Layer, boolean>();
let isLight = false;

/** Spares the grid, in every page that shows one, what it does many times over to draw one frame. */
export function drawLightly(): void {
  if (isLight) return;
  isLight = true;
  markLayersOnce();
  composeCellsOnce();
}

/**
 * Of everything that changes in a layer the grid makes a message to itself, to draw the layer anew, and
 * takes back the one before: dozens at every edit, each through a channel of its own that is opened and
 * closed. With this the layer is marked once, when the work under way is done.
 */
function markLayersOnce(): void {
  Layer.prototype.makeDirtyWithDebounce = function (this: Layer, state = true) {
    const isDue = due.has(this);
    due.set(this, state);
    if (isDue) return;
    queueMicrotask(() => {
      const last = due.get(this);
      due.delete(this);
      this.makeDirty(last);
    });
  };
}

/**
 * What a cell shows (its value in its format, the colours of rules, marks) is composed anew for its
 * background, its borders, its text and whoever else draws on it. Within one frame it stays the same.
 */
function composeCellsOnce(): void {
  // The functions are called on the layer and the sheet that they belong to.
  const render = Layer.prototype.render as (this: Layer, ...given: Parameters<Layer["render"]>) => Layer;
  const compose = Worksheet.prototype.getCell as (this: Worksheet, row: number, column: number) => Cell;
  let composed: Map<Worksheet, Map<number, Cell>> | undefined;
  Layer.prototype.render = function (this: Layer, ...given) {
    if (composed) return render.apply(this, given);
    composed = new Map();
    try {
      return render.apply(this, given);
    } finally {
      composed = undefined;
    }
  };
  Worksheet.prototype.getCell = function (this: Worksheet, row, column) {
    if (!composed) return compose.call(this, row, column);
    let cells = composed.get(this);
    if (!cells) composed.set(this, (cells = new Map()));
    const place = row * WIDTH + column;
    let cell = cells.get(place);
    if (cell === undefined) cells.set(place, (cell = compose.call(this, row, column) ?? null));
    return cell;
  };
}
