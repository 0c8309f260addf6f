import { FileWorkbook } from "../hosts/file/file-workbook";
import { spanishSheets } from "../pane/words/sheets-spanish";
import { SPANISH } from "../pane/words/spanish";
import { placeTemplates } from "../workbook/place-templates";
import { demoIn } from "../workbook/demo";
import { ENGLISH, type SheetLanguage } from "../workbook/sheet-language";
import { TEMPLATES, templateOf, withCompanions } from "../workbook/templates";
import { readArguments } from "./arguments";
import { UsageFault, type Command } from "./command";
import { workbookOutput, writeBytes } from "./output-file";

/** Languages of sheets, by their codes. */
const LANGUAGES: ReadonlyMap<string, SheetLanguage> = new Map([
  ["en", ENGLISH],
  ["es", spanishSheets(SPANISH)],
]);

function languageOf(code = "en"): SheetLanguage {
  const language = LANGUAGES.get(code);
  if (!language)
    throw new UsageFault(`there is no language "${code}"; the languages are: ${[...LANGUAGES.keys()].join(", ")}.`);
  return language;
}

const NAMES = [...TEMPLATES.map((template) => template.id), "all"];

/** `chargewright template NAME -o FILE.xlsx`: a template as a workbook file. */
export const templateCommand: Command = {
  help: [
    "Usage: chargewright template NAME -o FILE.xlsx [--language es] [--demo] [--force]",
    "",
    "Writes a template as a workbook whose formulas come alive where the Chargewright add-in is",
    "loaded; elsewhere they show their last values.",
    "",
    `  NAME             one of: ${NAMES.join(", ")}`,
    "                   a sheet that looks others up brings them along",
    "  -o, --output     the workbook to write",
    "  --language       en or es: what the job sheet and the lists are written in",
    "  --demo           fill in the readings of an invented shop",
    "  --force          replace FILE where it exists",
  ].join("\n"),

  async run(args, io) {
    const { options, operands } = readArguments(args, {
      output: { type: "string", short: "o" },
      language: { type: "string" },
      demo: { type: "boolean" },
      force: { type: "boolean" },
    });
    const [name, ...more] = operands;
    if (name === undefined || more.length > 0) throw new UsageFault(`name one template: ${NAMES.join(", ")}.`);
    const wanted = templateOf(name);
    if (!wanted && name !== "all")
      throw new UsageFault(`there is no template "${name}"; the templates are: ${NAMES.join(", ")}.`);
    const language = languageOf(options.language);
    const output = workbookOutput(options.output, options.force, `template ${name} -o ${name}.xlsx`);
    const workbook = new FileWorkbook();
    const templates = wanted ? withCompanions(wanted) : TEMPLATES;
    await placeTemplates(workbook, templates, { ...(options.demo ? { demo: demoIn(language) } : {}), language });
    writeBytes(
      output,
      await workbook.save({ title: wanted ? language.say(wanted.sheet) : "Chargewright", created: new Date() }),
    );
    io.out(output);
    return 0;
  },
};
