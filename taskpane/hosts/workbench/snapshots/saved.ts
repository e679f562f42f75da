/** What the workbench saved of itself, looked at before it is opened: a store may have been cut off or come from another version. */
import type { IWorkbookData } from "@univerjs/core";
import { HostError } from "../../host.js";

/** @throws {HostError} */
export function savedData(saved: string): Partial<IWorkbookData> {
  const data = parsed(saved);
  if (!isWorkbook(data)) throw new HostError("there is no workbook in what was saved");
  return data;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new HostError("what was saved is damaged", { cause: error });
  }
}

function isWorkbook(data: unknown): data is Partial<IWorkbookData> {
  if (!isRecord(data) || typeof data["id"] !== "string") return false;
  const { sheetOrder, sheets, styles = {}, resources = [] } = data;
  return (
    Array.isArray(sheetOrder) &&
    sheetOrder.length > 0 &&
    isRecord(sheets) &&
    isRecord(styles) &&
    sheetOrder.every((id) => isSheet(sheets[String(id)])) &&
    Array.isArray(resources) &&
    resources.every(isResource)
  );
}

function isSheet(sheet: unknown): boolean {
  return (
    isRecord(sheet) &&
    typeof sheet["name"] === "string" &&
    isRecord(sheet["cellData"]) &&
    Object.values(sheet["cellData"]).every(isRecord)
  );
}

function isResource(resource: unknown): boolean {
  if (!isRecord(resource) || typeof resource["data"] !== "string") return false;
  if (resource["data"] === "") return true;
  try {
    return isRecord(JSON.parse(resource["data"]));
  } catch {
    return false;
  }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
