/**
 * Lets Node require the project's own TypeScript: for the build and for small scripts
 * (`node -r ./.config/typescript.cjs src/tools/….ts`). Types are checked apart, by `npm run typecheck`.
 */
const { readFileSync } = require("node:fs");
const ts = require("typescript");

require.extensions[".ts"] = (module, file) => {
  const { outputText } = ts.transpileModule(readFileSync(file, "utf8"), {
    fileName: file,
    compilerOptions: { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022, esModuleInterop: true },
  });
  module._compile(outputText, file);
};
