import { inProject } from "./paths";

/** The test runner's own script: its package does not let it be resolved by name. */
export const JEST = inProject("node_modules/jest/bin/jest.js");
