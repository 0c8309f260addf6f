/** Tests run on CommonJS through swc; types are checked apart, by `npm run typecheck`. */
module.exports = {
  rootDir: "..",
  testEnvironment: "node",
  testMatch: ["<rootDir>/tests/**/*.test.ts"],
  transform: {
    "^.+\\.tsx?$": ["@swc/jest", { jsc: { parser: { syntax: "typescript" }, target: "es2022" }, module: { type: "commonjs" } }],
  },
  reporters: ["default", "<rootDir>/.config/closing-line-reporter.cjs"],
  moduleFileExtensions: ["ts", "tsx", "js", "json"],
};
