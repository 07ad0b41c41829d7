/** The names by which the file format knows its parts and their relations (ECMA-376; [MS-XLSX] for dynamic arrays). */
export const MAIN_NAMESPACE = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
export const RELATION_NAMESPACE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
export const PACKAGE_RELATIONS_NAMESPACE = "http://schemas.openxmlformats.org/package/2006/relationships";
export const CONTENT_TYPES_NAMESPACE = "http://schemas.openxmlformats.org/package/2006/content-types";
export const DRAWING_NAMESPACE = "http://schemas.openxmlformats.org/drawingml/2006/main";
export const CHART_NAMESPACE = "http://schemas.openxmlformats.org/drawingml/2006/chart";
export const SHEET_DRAWING_NAMESPACE = "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing";
export const DYNAMIC_ARRAY_NAMESPACE = "http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray";

const SPREADSHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

export const CONTENT_TYPES = {
  relations: "application/vnd.openxmlformats-package.relationships+xml",
  workbook: `${SPREADSHEET_TYPE}.sheet.main+xml`,
  worksheet: `${SPREADSHEET_TYPE}.worksheet+xml`,
  table: `${SPREADSHEET_TYPE}.table+xml`,
  styles: `${SPREADSHEET_TYPE}.styles+xml`,
  sharedStrings: `${SPREADSHEET_TYPE}.sharedStrings+xml`,
  chart: "application/vnd.openxmlformats-officedocument.drawingml.chart+xml",
  drawing: "application/vnd.openxmlformats-officedocument.drawing+xml",
  sheetMetadata: `${SPREADSHEET_TYPE}.sheetMetadata+xml`,
} as const;
