import type { Injector } from "@univerjs/core";
import { ErrorType, ErrorValueObject, Interpreter } from "@univerjs/engine-formula";

/**
 * A built-in function that throws would end the whole calculation, and in Node the process; with
 * this it gives `#VALUE!` in its own cell and every other cell is calculated.
 */
export function guardInterpreter(injector: Injector): void {
  const interpreter = injector.get(Interpreter);
  const execute = interpreter.execute.bind(interpreter);
  interpreter.execute = (node) => {
    try {
      return execute(node);
    } catch {
      return ErrorValueObject.create(ErrorType.VALUE);
    }
  };
}
