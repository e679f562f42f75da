import assert from "node:assert/strict";
import { X509Certificate } from "node:crypto";
import { spawnSync } from "node:child_process";
import { readdir } from "node:fs/promises";
import type { IncomingMessage } from "node:http";
import { get } from "node:https";
import { type AddressInfo, createServer, type Server } from "node:net";
import { join } from "node:path";
import { afterAll, beforeAll, describe, it } from "vitest";
import { buildIfStale, DIST } from "../../scripts/build.mjs";
import { type CertificateTool, serverCertificate } from "../../scripts/certificate.mjs";
import { serve, toDo, untrusted } from "../../scripts/excel.mjs";
import { DEVELOPMENT_ORIGIN } from "../../scripts/manifest.mjs";

const installs: CertificateTool = {
  ensureCertificatesAreInstalled: async () => undefined,
  verifyCertificates: () => true,
  getHttpsServerOptions: async () => ({ key: "key", cert: "certificate" }),
};

describe("the certificate of the development server", () => {
  it("is the installed one where the system knows its issuer", async () => {
    assert.deepEqual(await serverCertificate({ install: true, tool: installs }), {
      key: "key",
      cert: "certificate",
      isTrusted: true,
    });
  });

  it("is never said to be trusted when installing failed, aloud or silently", async () => {
    const silent = { ...installs, verifyCertificates: () => false };
    const aloud = {
      ...installs,
      ensureCertificatesAreInstalled: async () => {
        throw new Error("no sudo here");
      },
    };
    for (const [tool, why] of [
      [silent, /does not know its issuer/],
      [aloud, /no sudo here/],
    ] as const) {
      const certificate = await serverCertificate({ install: true, tool });
      assert.equal(certificate.isTrusted, false);
      assert.match(certificate.isTrusted ? "" : certificate.why, why);
      const { subjectAltName } = new X509Certificate(certificate.cert);
      assert.match(subjectAltName ?? "", /localhost/);
    }
  });

  it("is said plainly not to be trusted, with what to do", () => {
    const text = untrusted("no sudo here");
    assert.match(text, /NOT trusted/);
    assert.match(text, /no sudo here/);
    assert.ok(text.includes(DEVELOPMENT_ORIGIN));
  });
});

describe("the development server", () => {
  let server: Server;
  let port: number;
  beforeAll(async () => {
    await buildIfStale();
    server = await serve(await serverCertificate({ install: false }), 0);
    ({ port } = server.address() as AddressInfo);
  }, 200_000);
  afterAll(() => server.close());

  const answerTo = (path: string) =>
    new Promise<IncomingMessage>((done, fail) => {
      get(
        `https://localhost:${port}${path}`,
        // The certificate's issuer is known to nobody; that it is one for this host is checked above.
        { rejectUnauthorized: false },
        (response) => {
          response.resume();
          done(response);
        },
      ).on("error", fail);
    });

  it.each(["functions.json", "shortcuts.json", "taskpane.html", "functions.js"])(
    "has Excel read %s from another origin, and ask for it anew each time",
    async (file) => {
      const { statusCode, headers } = await answerTo(`/${file}`);
      assert.equal(statusCode, 200);
      assert.equal(headers["access-control-allow-origin"], "*");
      assert.equal(headers["cache-control"], "no-cache");
      assert.equal(headers["x-frame-options"], undefined);
    },
  );

  // Office add-ins reference, manifest element Image (seen): with a word on caching Office may show one of its own.
  it("says nothing of caching with an icon", async () => {
    const { statusCode, headers } = await answerTo("/assets/icons/feed-32.png?of=today");
    assert.equal(statusCode, 200);
    assert.equal(headers["content-type"], "image/png");
    assert.equal(headers["cache-control"], undefined);
  });

  it("has a piece kept that bears its content in its name", async () => {
    const [piece] = await readdir(join(DIST, "chunks"));
    const { headers } = await answerTo(`/chunks/${piece}`);
    assert.match(headers["cache-control"] ?? "", /\bimmutable\b/);
  });

  it("answers 404 for what is not there", async () => {
    for (const path of ["/nothing.json", "/assets/nothing.png"])
      assert.equal((await answerTo(path)).statusCode, 404);
  });

  it("says in one sentence that its port is taken", async () => {
    const certificate = await serverCertificate({ install: false });
    await assert.rejects(serve(certificate, port), /^PortTaken: Port \d+ is taken/);
  });
});

describe("npm run excel", () => {
  it("ends with a sentence, not with where it failed, where another program has the port", async () => {
    await buildIfStale();
    const other = createServer();
    const free = await new Promise<boolean>((done) => {
      other.once("error", () => done(false));
      other.listen(Number(new URL(DEVELOPMENT_ORIGIN).port), "localhost", () => done(true));
    });
    try {
      const { stderr, status } = spawnSync(process.execPath, ["scripts/excel.mjs"], {
        encoding: "utf8",
        env: { ...process.env, CI: "1" },
      });
      assert.match(stderr, /^Port 3443 is taken, and the manifest names it/);
      assert.doesNotMatch(stderr, /\n\s+at /);
      assert.equal(status, 1);
    } finally {
      if (free) other.close();
    }
  });

  it("says on Linux and without a trusted certificate what to do by hand", () => {
    for (const platform of ["linux", "win32", "darwin"] as const) {
      const text = toDo(platform, false);
      assert.match(text, /Upload My Add-in/);
      assert.ok(text.includes(join(DIST, "manifest.xml")));
      assert.match(text, /=FEEDDEV\./);
      // Chromium's Local Network Access; OfficeDev/office-js issues 6174 and 6366 (seen).
      assert.match(text, /choose Allow/);
      assert.match(text, /This browser keeps the add-in/);
    }
    assert.match(toDo("linux", false), /no desktop Excel on Linux/);
  });

  it("says before it is quiet for long what the quiet is, and how the add-in is taken out again", () => {
    for (const platform of ["win32", "darwin"] as const) {
      const text = toDo(platform, true);
      assert.match(text, /npx fetches the first time: some 600 packages/);
      assert.match(text, /Ctrl\+C .*forget/);
      assert.match(text, /npm run excel -- stop/);
    }
  });

  it("says on Windows alone what to do where Excel cannot open an add-in from localhost", () => {
    assert.match(toDo("win32", true), /cannot open the add-in from localhost/);
    assert.match(toDo("win32", true), /CheckNetIsolation LoopbackExempt -a/);
    assert.doesNotMatch(toDo("darwin", true), /CheckNetIsolation/);
  });
});
