/** Tests run on CommonJS through swc; types are checked apart, by `npm run typecheck`. */
module.exports = {
  rootDir: "..",
  testEnvironment: "node",
  // Nothing is timed here: a slow machine is no failure.
  testTimeout: 120_000,
  testMatch: ["<rootDir>/tests/**/*.test.ts"],
  transform: {
    "^.+\\.(?:tsx?|m?js)$": [
      "@swc/jest",
      { jsc: { parser: { syntax: "typescript" }, target: "es2022" }, module: { type: "commonjs" } },
    ],
  },
  reporters: ["default", "<rootDir>/.config/closing-line-reporter.cjs"],
  // The grid's core asks for ES modules, which Jest cannot load as CommonJS: lodash has a twin, the
  // others are transformed like our own files.
  moduleNameMapper: { "^lodash-es$": "lodash" },
  transformIgnorePatterns: [
    "/node_modules/(?!(?:.*/)?(?:hucre|hyparquet|hyparquet-writer|nanoid|rbush|quickselect|kdbush|cjk-regex|unicode-regex|regexp-util|franc-min|trigram-utils|n-gram|collapse-white-space)/)",
  ],
  moduleFileExtensions: ["ts", "tsx", "js", "mjs", "json"],
};
