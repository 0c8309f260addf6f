import { Layer } from "@univerjs/preset-sheets-core";

const due = new WeakMap<Layer, boolean>();

/**
 * Of everything that changes in a layer the grid makes a message to itself, to draw the layer anew, and
 * takes back the one before: dozens at every edit, each through a channel of its own that is opened and
 * closed. With this the layer is marked once, when the work under way is done.
 */
export function markLayersOnce(): void {
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
