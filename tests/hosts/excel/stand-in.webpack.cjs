/** Bundles the stand-in for office.js; `STAND_IN_OUT` says where. */
const path = require("node:path");

const root = path.resolve(__dirname, "../../..");

module.exports = {
  mode: "development",
  devtool: false,
  context: root,
  entry: { office: path.join(__dirname, "page-stand-in.ts") },
  output: { path: process.env.STAND_IN_OUT, filename: "[name].js" },
  resolve: { extensions: [".ts", ".js"] },
  module: { rules: [{ test: /\.ts$/, loader: "ts-loader", options: { transpileOnly: true, compilerOptions: { rootDir: root } } }] },
  performance: false,
  stats: "errors-warnings",
};
