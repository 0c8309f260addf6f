import { overlaps } from "../../../src/workbook/address";
import { client, OfficeError, type StrictContext } from "./strict-client";
import type { CellState, Rectangle, SheetState, StrictBook } from "./strict-book";
import { unprotected, type Change, type Find } from "./strict-format";

export function validation(
  context: StrictContext,
  every: <T>(pick: (cell: CellState) => T) => T[][],
  change: Change,
  label: string,
): object {
  const one = () => {
    const all = every((cell) => JSON.stringify(cell.validation)).flat();
    return all.every((text) => text === all[0]) ? (JSON.parse(all[0]!) as Record<string, unknown> | null) : "mixed";
  };
  const part = (name: string, otherwise: unknown) => () => {
    const rule = one();
    return rule === null || rule === "mixed" ? otherwise : ((rule as Record<string, unknown>)[name] ?? otherwise);
  };
  const set = (name: string) => (value: never) =>
    change((cell) => {
      if (name !== "rule" && !cell.validation)
        throw new OfficeError("InvalidOperation", "There is no rule for it to hang on.");
      if (name === "prompt" && (value as { title: string }).title.length > 32)
        throw new OfficeError("InvalidArgument", "The title is too long.");
      cell.validation = { ...(cell.validation as object | null), [name]: value };
    });
  return client(context, {
    label: `validation of ${label}`,
    read: {
      type: () => {
        const rule = one();
        return rule === null
          ? "None"
          : rule === "mixed"
            ? "Inconsistent"
            : "rule" in rule && "list" in (rule.rule as object)
              ? "List"
              : "Custom";
      },
      rule: part("rule", {}),
      errorAlert: part("errorAlert", { message: "", showAlert: true, style: "Stop", title: "" }),
      prompt: part("prompt", { message: "", showPrompt: true, title: "" }),
      ignoreBlanks: part("ignoreBlanks", true),
    },
    write: {
      rule: set("rule"),
      errorAlert: set("errorAlert"),
      prompt: set("prompt"),
      ignoreBlanks: set("ignoreBlanks"),
    },
    call: {
      clear: () => context.enqueue(`clear validation of ${label}`, () => change((cell) => (cell.validation = null))),
    },
  });
}

export function rules(
  context: StrictContext,
  book: StrictBook,
  sheetOf: Find<SheetState>,
  atOf: Find<Rectangle>,
  label: string,
): object {
  return client(context, {
    label: `colour rules of ${label}`,
    items: () =>
      sheetOf()
        .rules.filter((rule) => overlaps(rule.at, atOf()))
        .map((rule) => ({
          label: `colour rule ${rule.id}`,
          read: { id: () => rule.id },
          call: {
            delete: () =>
              context.enqueue(`delete colour rule ${rule.id}`, () => {
                const sheet = unprotected(sheetOf());
                if (!sheet.rules.includes(rule)) throw new OfficeError("ItemNotFound", "The rule is gone.");
                sheet.rules.splice(sheet.rules.indexOf(rule), 1);
              }),
          },
        })),
    call: {
      add: (type: string) => {
        if (type !== "Custom") throw new Error("Only rules by formula are known here.");
        const made: { rule?: SheetState["rules"][number] } = {};
        context.enqueue(`add colour rule to ${label}`, () => {
          made.rule = { id: book.id(), at: atOf(), formula: "", fill: "", colour: "" };
          unprotected(sheetOf()).rules.push(made.rule);
        });
        const set = (name: "formula" | "fill" | "colour") => (value: string) => void (made.rule![name] = value);
        return {
          custom: {
            rule: client(context, { label: "rule", write: { formula: set("formula") } }),
            format: {
              fill: client(context, { label: "rule fill", write: { color: set("fill") } }),
              font: client(context, { label: "rule font", write: { color: set("colour") } }),
            },
          },
        };
      },
    },
  });
}
