/** Whether a file was started from the command line and not imported: `isMain(module)`. */
export function isMain(started: NodeJS.Module): boolean {
  return require.main === started;
}
