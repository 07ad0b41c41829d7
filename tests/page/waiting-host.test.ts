import { waitingHost } from "../../src/page/waiting-host";
import type { WorkbookHost } from "../../src/taskpane/host/host";
import { memoryHost } from "../taskpane/memory-host";

test("what is asked before the workbook is there is answered once it is, by the workbook itself", async () => {
  let open: (host: WorkbookHost) => void = () => undefined;
  const host = waitingHost(new Promise((resolve) => (open = resolve)), "season.xlsx");
  expect(host.workbookName()).toBe("season.xlsx");
  const asked = [host.namesInUse(), host.insertValue(3), host.selection()];
  const there = memoryHost();
  open(there);
  const [names, address, selected] = await Promise.all(asked);
  expect(names).toEqual({ sheets: ["Sheet1"], tables: [] });
  expect(address).toBe("Sheet1!B2");
  expect(selected).toEqual(there.selected);
  expect(there.inserted).toEqual([3]);
  expect(host.workbookName()).toBe(there.name);
});

test("it has everything that a workbook has", async () => {
  const there = memoryHost([], { printSheets: () => Promise.resolve() });
  const host = waitingHost(Promise.resolve(there), "season.xlsx");
  await host.namesInUse();
  const own = [
    "sheets",
    "tables",
    "plans",
    "inserted",
    "name",
    "selected",
    "cells",
    "table",
    "visited",
    "listeners",
    "change",
  ];
  expect(Object.keys(host).sort()).toEqual(
    Object.keys(there)
      .filter((key) => !own.includes(key))
      .sort(),
  );
});

test("a workbook that could not be opened says why to whoever asks", async () => {
  const host = waitingHost(Promise.reject(new Error("The file is no workbook.")), "season.xlsx");
  await expect(host.namesInUse()).rejects.toThrow("The file is no workbook.");
  expect(host.workbookName()).toBe("season.xlsx");
});
