import js from "@eslint/js";
import tseslint from "typescript-eslint";
import prettier from "eslint-config-prettier";

export default tseslint.config(
  { ignores: ["node_modules", "dist", "build", "coverage", "**/*.generated.*", "reports"] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  {
    files: ["**/*.ts"],
    rules: {
      "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_" }],
      "@typescript-eslint/no-non-null-assertion": "error",
      "@typescript-eslint/switch-exhaustiveness-check": "error",
      eqeqeq: ["error", "always"],
      "no-console": "error",
      // What fails later fails unseen, unless somebody waits for it or says `void`.
      "@typescript-eslint/no-floating-promises": "error",
    },
    languageOptions: {
      parserOptions: {
        project: ["./tsconfig.json", "./src/core/tsconfig.json", "./src/tools/tsconfig.json", "./tests/tsconfig.json"],
        tsconfigRootDir: import.meta.dirname,
      },
    },
  },
  {
    // The spreadsheet host hands over whatever a cell holds; cells.ts is the one place that looks at it.
    files: ["src/functions/*.ts"],
    rules: { "@typescript-eslint/no-explicit-any": "off" },
  },
  {
    // A function that fits on a screen or two, and that one can hold in the head.
    files: ["src/**/*.ts"],
    rules: {
      // A switch over kinds counts once: it is long, and plain.
      complexity: ["error", { max: 20, variant: "modified" }],
      "max-depth": ["error", 4],
      "max-lines-per-function": ["error", { max: 100, skipBlankLines: true, skipComments: true }],
    },
  },
  {
    // Longer than the rest: ten choices that follow each other.
    files: ["src/taskpane/parts/own-sheet/own-sheet-columns.ts"],
    rules: { "max-lines-per-function": "off" },
  },
  { files: ["src/tools/**/*.ts", "tests/**/*.ts"], rules: { "no-console": "off" } },
  {
    files: ["**/*.js", "**/*.mjs", "**/*.cjs"],
    rules: { "@typescript-eslint/no-require-imports": "off" },
    languageOptions: {
      globals: { require: "readonly", module: "readonly", __dirname: "readonly", process: "readonly" },
      sourceType: "module",
    },
  },
  prettier,
);
