/** Builds the page of the pane's browser tests; `PANE_PAGE_OUT` says where. */
const path = require("node:path");
const HtmlWebpackPlugin = require("html-webpack-plugin");
const MiniCssExtractPlugin = require("mini-css-extract-plugin");

const root = path.resolve(__dirname, "../..");

module.exports = {
  // Minimized only where its size is asked for: that takes longer than everything else.
  mode: process.env.PANE_PAGE_MODE ?? "development",
  devtool: false,
  context: root,
  entry: { page: path.join(__dirname, "page.ts") },
  output: { path: process.env.PANE_PAGE_OUT, filename: "[name].js" },
  resolve: { extensions: [".ts", ".tsx", ".js"] },
  module: {
    rules: [
      {
        test: /\.tsx?$/,
        loader: "ts-loader",
        options: { transpileOnly: true, compilerOptions: { rootDir: root } },
        exclude: /node_modules/,
      },
      { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] },
    ],
  },
  // The pane apart from the workbook in memory, so that its size can be told.
  optimization: {
    splitChunks: {
      chunks: "initial",
      cacheGroups: {
        default: false,
        defaultVendors: false,
        pane: { name: "pane", enforce: true, test: (module) => !/[\\/]tests[\\/]/.test(module.resource ?? "") },
      },
    },
  },
  plugins: [
    new MiniCssExtractPlugin({ filename: "[name].css" }),
    new HtmlWebpackPlugin({
      title: "Pane",
      templateContent:
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Pane</title><meta name="viewport" content="width=device-width, initial-scale=1"><style>body{margin:0}</style></head><body><div id="pane"></div></body></html>',
    }),
  ],
  performance: false,
  stats: "errors-warnings",
};
