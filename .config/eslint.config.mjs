import js from "@eslint/js";
import tseslint from "typescript-eslint";

const LOOKBEHIND = { selector: "Literal[regex.pattern=/\\(\\?<[=!]/]", message: "No lookbehind." };

export default tseslint.config(
  { ignores: ["dist/**", "node_modules/**", "coverage/**"] },
  js.configs.recommended,
  ...tseslint.configs.recommended,
  {
    files: ["src/**/*.ts", "src/**/*.tsx", "tests/**/*.ts", "templates/**/*.ts"],
    rules: {
      "@typescript-eslint/no-explicit-any": "error",
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
      "max-lines": ["warn", { max: 300, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    // A browser of the Mac that is a few years old refuses a whole file for one look behind.
    files: ["src/{core,functions,pane,workbook,hosts,local}/**/*.{ts,tsx}"],
    rules: { "no-restricted-syntax": ["error", LOOKBEHIND] },
  },
  {
    // Computation is pure: no clock, no randomness, no host.
    files: ["src/core/**/*.ts"],
    rules: {
      "no-restricted-globals": [
        "error",
        ...[
          "window",
          "document",
          "process",
          "Office",
          "Excel",
          "fetch",
          "setTimeout",
          "setInterval",
          "performance",
          "crypto",
          "console",
          "globalThis",
          "Buffer",
        ],
      ],
      "no-restricted-syntax": [
        "error",
        LOOKBEHIND,
        { selector: "MemberExpression[object.name='Date'][property.name='now']", message: "No clock in core." },
        { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: "No clock in core." },
        { selector: "MemberExpression[object.name='Math'][property.name='random']", message: "No randomness in core." },
      ],
    },
  },
  {
    files: ["**/*.cjs", "webpack.config.js"],
    languageOptions: {
      globals: { require: "readonly", module: "writable", __dirname: "readonly", process: "readonly" },
    },
    rules: { "@typescript-eslint/no-require-imports": "off" },
  },
  { files: ["**/*.mjs"], languageOptions: { globals: { process: "readonly", console: "readonly", URL: "readonly" } } },
);
