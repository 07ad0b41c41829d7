/** The workbook while it is still being opened: what is asked of it is answered once it is there. */
import type { WorkbookHost } from "../taskpane/host/host";

/**
 * @param opening the workbook; where it fails, so does everything that is asked
 * @param name what it is called while it is being opened
 */
export function waitingHost(opening: Promise<WorkbookHost>, name: string): WorkbookHost {
  let host: WorkbookHost | undefined;
  opening.then(
    (opened) => (host = opened),
    // Whoever asks for something is told.
    () => undefined,
  );
  return {
    workbookName: () => host?.workbookName() ?? name,
    namesInUse: async () => (await opening).namesInUse(),
    addSheets: async (...given) => (await opening).addSheets(...given),
    insertFormula: async (...given) => (await opening).insertFormula(...given),
    insertValue: async (...given) => (await opening).insertValue(...given),
    selection: async () => (await opening).selection(),
    putFormula: async (...given) => (await opening).putFormula(...given),
    readTables: async (...given) => (await opening).readTables(...given),
    readBlock: async (...given) => (await opening).readBlock(...given),
    appendRow: async (...given) => (await opening).appendRow(...given),
    addColumns: async (...given) => (await opening).addColumns(...given),
    readLog: async (...given) => (await opening).readLog(...given),
    // The page prints, whatever it opens.
    printSheets: async (...given) => (await opening).printSheets?.(...given),
    goToCell: async (...given) => (await opening).goToCell(...given),
    sheetInView: async () => (await opening).sheetInView(),
    whenChanged: (listener) => {
      let stop: (() => void) | undefined;
      let stopped = false;
      opening.then(
        (opened) => {
          if (!stopped) stop = opened.whenChanged(listener);
        },
        () => undefined,
      );
      return () => {
        stopped = true;
        stop?.();
      };
    },
    repairFormulas: async () => (await opening).repairFormulas(),
  };
}
