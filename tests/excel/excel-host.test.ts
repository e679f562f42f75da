import { excelHost } from "../../taskpane/hosts/excel/excel-host.js";
import { describeHost } from "../hosts/host-contract.js";
import { ExcelDouble, ExcelRefusal } from "./excel-double.js";

describeHost("Excel", async () => {
  const excel = new ExcelDouble("FEED");
  const host = excelHost({
    namespace: "FEED",
    warn(message) {
      throw new Error(message);
    },
  });
  return {
    host,
    calculatesMovedNames: true,
    sheetNames: async () => excel.sheetNames(),
    undo: async () => {
      // Listening starts with a request of its own, which a user's hand cannot overtake.
      await new Promise((resolve) => setTimeout(resolve, 50));
      excel.undo();
    },
    defineConstant: async (name, value) => excel.defineName(name, `=${value}`),
    noteAt: async ({ sheet, address }) => excel.storedAt(sheet, address)?.note,
    breakNextInsertion: async () => {
      let written = 0;
      excel.beforeAction = (what) => {
        if (what !== "Range.Formulas") return;
        written += 1;
        if (written < 2) return;
        excel.beforeAction = () => undefined;
        throw new ExcelRefusal("GeneralException", "no second sheet");
      };
    },
    close: async () => undefined,
  };
});
