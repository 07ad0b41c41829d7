/**
 * Three bundles from one source:
 *   functions  dist/functions.js       the cell functions, self-contained, for a bare realm
 *   pane       dist/taskpane.js        the task pane inside the spreadsheet program
 *   preview    build/preview/*.js      the try-out page with the open-source grid (never part of what a club hosts)
 */
const fs = require("node:fs");
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
  resolve: {
    ...shared.resolve,
    alias: { debug$: path.resolve(__dirname, "src/functions/silent-debug.cjs") },
  },
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

/**
 * The page's markup and one stylesheet: the grid's own styles, then the pane's, then the page's. They are plain files,
 * so that they need no loader, and the page needs no style that a script writes.
 */
class PreviewFiles {
  apply(compiler) {
    const { Compilation, sources } = compiler.webpack;
    const styles = [
      "@univerjs/preset-sheets-core/lib/index.css",
      "@univerjs/preset-sheets-table/lib/index.css",
      "@univerjs/preset-sheets-conditional-formatting/lib/index.css",
      "@univerjs/preset-sheets-data-validation/lib/index.css",
    ].map((name) => require.resolve(name));
    styles.push(path.resolve(__dirname, "src/taskpane/pane.css"), path.resolve(__dirname, "src/preview/page.css"));
    const markup = path.resolve(__dirname, "src/preview/page.html");
    compiler.hooks.thisCompilation.tap("PreviewFiles", (compilation) => {
      compilation.fileDependencies.addAll([markup, ...styles]);
      compilation.hooks.processAssets.tap(
        { name: "PreviewFiles", stage: Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL },
        () => {
          const css = styles.map((file) => fs.readFileSync(file, "utf8")).join("\n");
          compilation.emitAsset("page.css", new sources.RawSource(css));
          compilation.emitAsset("index.html", new sources.RawSource(fs.readFileSync(markup, "utf8")));
        },
      );
    });
  }
}

const preview = {
  ...shared,
  name: "preview",
  entry: { page: "./src/preview/page.ts" },
  target: ["web", "es2022"],
  output: { path: path.resolve(__dirname, "build/preview"), filename: "[name].js", chunkFilename: "[name].js" },
  plugins: [new PreviewFiles()],
  cache: { type: "filesystem", cacheDirectory: path.resolve(__dirname, "node_modules/.cache/webpack-preview") },
};

module.exports = [functions, pane, preview];
