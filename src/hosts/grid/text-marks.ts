import { IConfigService, InterceptorEffectEnum, type Injector } from "@univerjs/core";
import { INTERCEPTOR_POINT, SheetInterceptorService } from "@univerjs/sheets";
import { SHEETS_NUMFMT_PLUGIN_CONFIG_KEY } from "@univerjs/sheets-numfmt";

/** By these the grid's own step is known among all that look at a cell before it is drawn. */
const MARKS = { priority: 10, effect: InterceptorEffectEnum.Style };

/**
 * The grid would put a mark at text that looks like a number. It is switched off, readings are typed as
 * people write them, but before it asks whether it is off it tries every text cell as a date at every
 * frame: a third of the drawing. Nor is a phone number a mistake in a cell for text. To be called before the
 * first frame.
 */
export function skipTextMarks(injector: Injector): void {
  // The grid's presets do not pass this one on.
  injector
    .get(IConfigService)
    .setConfig(SHEETS_NUMFMT_PLUGIN_CONFIG_KEY, { disableTextFormatMark: true }, { merge: true });
  const service = injector.get(SheetInterceptorService);
  const intercept = service.intercept.bind(service);
  service.intercept = (point, interceptor) => {
    const { priority, effect } = interceptor as { priority?: number; effect?: InterceptorEffectEnum };
    const isMark = point === INTERCEPTOR_POINT.CELL_CONTENT && priority === MARKS.priority && effect === MARKS.effect;
    return isMark ? { dispose: () => undefined } : intercept(point, interceptor);
  };
}
