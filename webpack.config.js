/**
 * Three bundles from one source:
 *   functions  dist/functions.js       the cell functions, self-contained, for a bare realm
 *   pane       dist/taskpane.js        the task pane inside the spreadsheet program
 *   preview    build/preview/*.js      the try-out page with the open-source grid (never part of what a club hosts)
 */
const path = require("node:path");

const shared = {
  mode: "production",
  resolve: { extensions: [".ts", ".tsx", ".js", ".mjs"] },
  module: {
    rules: [
      {
        test: /\.tsx?$/,
        exclude: /node_modules/,
        use: { loader: "ts-loader", options: { transpileOnly: true, compilerOptions: { noEmit: false } } },
      },
    ],
  },
  devtool: false,
  performance: { hints: false },
  stats: "errors-warnings",
};

const functions = {
  ...shared,
  name: "functions",
  entry: { functions: "./src/functions/register.ts" },
  // A bare realm has no window and no document: globalThis alone may be relied on.
  target: ["es2020"],
  output: { path: path.resolve(__dirname, "dist"), globalObject: "globalThis", chunkFormat: false },
};

const pane = {
  ...shared,
  name: "pane",
  entry: { taskpane: "./src/taskpane/main.ts" },
  target: ["web", "es2020"],
  output: { path: path.resolve(__dirname, "dist") },
};

const preview = {
  ...shared,
  name: "preview",
  entry: { page: "./src/preview/page.ts" },
  target: ["web", "es2022"],
  output: { path: path.resolve(__dirname, "build/preview"), filename: "[name].js", chunkFilename: "[name].js" },
  cache: { type: "filesystem", cacheDirectory: path.resolve(__dirname, "node_modules/.cache/webpack-preview") },
};

module.exports = [functions, pane, preview];
