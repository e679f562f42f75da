import { HostError } from "../../taskpane/hosts/host.js";
import { describeHost } from "./host-contract.js";
import { MemoryHost } from "./memory-host.js";

describeHost("the workbook in memory", async () => {
  const host = new MemoryHost();
  return {
    host,
    calculatesMovedNames: true,
    quietMs: 50,
    sheetNames: async () => host.sheetNames(),
    undo: async () => host.undo(),
    // This workbook keeps no constants, so there is none to leave out.
    defineConstant: async () => undefined,
    noteAt: async (range) => host.noteAt(range),
    breakNextInsertion: async () => {
      host.beforeSheet = (index) => {
        if (index === 0) return;
        host.beforeSheet = () => undefined;
        throw new HostError("the second sheet cannot be written");
      };
    },
    close: async () => undefined,
  };
});
