/**
 * Four bundles from one source:
 *   functions  dist/functions.js       the cell functions, self-contained, for a bare realm
 *   pane       dist/taskpane.js        the task pane inside the spreadsheet program
 *   preview    build/preview/*.js      the try-out page with the open-source grid
 *   offline    build/offline/*.js      what keeps the page on a device, once a club hosts it (src/tools/package/page-folder.ts)
 */
const fs = require("node:fs");
const path = require("node:path");
const TerserPlugin = require("terser-webpack-plugin");

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
  // No file of ours does anything by being loaded: what the pane names of a season's headings does not bring its sheets along.
  module: { rules: shared.module.rules.map((rule) => ({ ...rule, sideEffects: false })) },
  target: ["web", "es2020"],
  // The numeric library is on the page already, with the functions: see src/functions/shared-tails.ts.
  externals: ({ context, request }, done) => {
    if (path.resolve(context, request) === path.resolve(__dirname, "src/core/tails")) {
      done(undefined, "var globalThis.twirlLedgerTails || {}");
    } else {
      done();
    }
  },
  output: { path: path.resolve(__dirname, "dist"), chunkFilename: "[name].js" },
};

const fontFolder = path.dirname(require.resolve("@fontsource/carlito/package.json"));

/** The sheets' font in its four looks, each in two files: that of the usual letters, and one that is fetched where it is needed. */
const fontFaces = ["latin", "latin-ext"].flatMap((letters) =>
  [400, 700].flatMap((weight) =>
    ["normal", "italic"].map((style) => ({
      letters,
      weight,
      style,
      file: `carlito-${letters}-${weight}-${style}.woff2`,
    })),
  ),
);

/**
 * A workbook asks for Calibri, and a computer without it would draw the sheets in whatever it has, with words that no longer
 * fit their columns: here it gets Carlito (SIL Open Font License), every letter of which is as wide.
 */
function fontStyles() {
  const ranges = JSON.parse(fs.readFileSync(path.join(fontFolder, "unicode.json"), "utf8"));
  return fontFaces
    .map(({ letters, weight, style, file }) => {
      const look = `${weight === 700 ? " Bold" : ""}${style === "italic" ? " Italic" : ""}`;
      return `@font-face {
  font-family: Calibri;
  font-style: ${style};
  font-weight: ${weight};
  font-display: block;
  src: local("Calibri${look}"), local("Carlito${look}"), url("fonts/${file}") format("woff2");
  unicode-range: ${ranges[letters]};
}
`;
    })
    .join("");
}

/**
 * The page's markup, its styles and the sheets' font as plain files: the grid's styles in one, the pane's, the page's own. No
 * loader is needed, and no style that a script would have to write.
 */
class PageFiles {
  apply(compiler) {
    const { Compilation, sources } = compiler.webpack;
    const files = {
      "page.html": ["./src/page/page.html"],
      "page.css": ["./src/page/page.css"],
      "pane.css": ["./src/taskpane/pane.css"],
      "grid.css": [
        "@univerjs/preset-sheets-core/lib/index.css",
        "@univerjs/preset-sheets-table/lib/index.css",
        "@univerjs/preset-sheets-conditional-formatting/lib/index.css",
        "@univerjs/preset-sheets-data-validation/lib/index.css",
      ],
    };
    compiler.hooks.thisCompilation.tap("PageFiles", (compilation) => {
      compilation.hooks.processAssets.tap(
        { name: "PageFiles", stage: Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL },
        () => {
          const emit = (name, content) => compilation.emitAsset(name, new sources.RawSource(content));
          const textOf = (part) => fs.readFileSync(require.resolve(part), "utf8");
          for (const [name, parts] of Object.entries(files)) emit(name, parts.map(textOf).join("\n"));
          emit("fonts.css", fontStyles());
          for (const { file } of fontFaces) {
            emit(`fonts/${file}`, fs.readFileSync(path.join(fontFolder, "files", file)));
          }
          emit("fonts/LICENSE.txt", fs.readFileSync(path.join(fontFolder, "LICENSE")));
        },
      );
    });
  }
}

const preview = {
  ...shared,
  name: "preview",
  entry: { page: "./src/page/page.ts" },
  target: ["web", "es2022"],
  output: { path: path.resolve(__dirname, "build/preview"), filename: "[name].js", chunkFilename: "[name].js" },
  resolve: {
    ...shared.resolve,
    // Writes <style> elements, which the page's Content-Security-Policy refuses.
    alias: { "react-style-singleton": path.resolve(__dirname, "src/page/adopted-styles.ts") },
  },
  plugins: [new PageFiles()],
  // The grid is 20 MB of source: esbuild makes it small in seconds where the usual tool takes minutes.
  optimization: { minimizer: [new TerserPlugin({ minify: TerserPlugin.esbuildMinify, extractComments: false })] },
  cache: { type: "filesystem", cacheDirectory: path.resolve(__dirname, "node_modules/.cache/webpack-preview") },
};

const offline = {
  ...shared,
  name: "offline",
  entry: { keep: "./src/page/offline/keep.ts", worker: "./src/page/offline/worker.ts" },
  target: ["web", "es2022"],
  output: { path: path.resolve(__dirname, "build/offline"), filename: "[name].js" },
};

module.exports = [functions, pane, preview, offline];
