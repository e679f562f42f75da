import base from "./vitest.config.js";
export default { ...base, test: { ...base.test, setupFiles: ["/tmp/q/profsetup.ts"] }, server: { fs: { strict: false } } };
