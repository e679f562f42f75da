import { afterAll } from "vitest";
import { excelHost } from "../../taskpane/hosts/excel/excel-host.js";
import { describeHost } from "../hosts/host-contract.js";
import { EXCELS, USUAL_EXCEL } from "./double/pretended-excel.js";
import { ExcelDouble, ExcelRefusal, HERE } from "./excel-double.js";
import { office } from "./office-library.js";

for (const [name, pretended] of Object.entries(EXCELS))
  describeHost(name, async () => {
    const excel = new ExcelDouble("FEED", HERE, pretended);
    const host = excelHost({
      namespace: "FEED",
      warn(message) {
        throw new Error(message);
      },
    });
    return {
      host,
      calculatesMovedNames: true,
      quietMs: 120,
      sheetNames: async () => excel.sheetNames(),
      undo: async () => {
        // Listening starts with a request of its own, which a user's hand cannot overtake.
        await new Promise((resolve) => setTimeout(resolve, 50));
        excel.undo();
      },
      defineConstant: async (constant, value) => excel.defineName(constant, `=${value}`),
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
      calculate: async () => {
        if (pretended.calculation === "Manual")
          await host.calculation?.calculate(excel.sheetNames());
      },
      close: async () => undefined,
    };
  });

afterAll(() => {
  Object.assign(office, { excelApi: USUAL_EXCEL.excelApi, platform: USUAL_EXCEL.platform });
});
