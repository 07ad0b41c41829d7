import type { IWorkbookData } from "@univerjs/core";

import type { PrintPlan } from "../../workbook/plan/schema";

/** How each sheet lies on paper, which the grid itself does not keep. */
export class PrintPlans {
  private bySheet = new Map<string, PrintPlan>();

  constructor(snapshot: IWorkbookData) {
    this.replace(snapshot);
  }

  /** The plans of another workbook, in place of these. */
  replace(snapshot: IWorkbookData): void {
    this.bySheet = new Map(Object.entries((snapshot.custom?.["print"] ?? {}) as Record<string, PrintPlan>));
  }

  put(sheetId: string, plan: PrintPlan): void {
    this.bySheet.set(sheetId, plan);
  }

  of(sheetId: string): PrintPlan | undefined {
    return this.bySheet.get(sheetId);
  }
}
