import assert from "node:assert/strict";
import { X509Certificate } from "node:crypto";
import { get } from "node:https";
import type { AddressInfo } from "node:net";
import { describe, it } from "vitest";
import { type CertificateTool, serverCertificate } from "../../scripts/certificate.mjs";
import { byHand, serve, untrusted } from "../../scripts/excel.mjs";
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
  it("serves over https and lets Excel read from another origin", async () => {
    const { key, cert } = await serverCertificate({ install: false });
    const server = await serve({ key, cert }, 0);
    try {
      const { port } = server.address() as AddressInfo;
      const { headers } = await new Promise<{
        headers: Readonly<Record<string, unknown>>;
      }>((done, fail) => {
        get(
          `https://localhost:${port}/functions.json`,
          // The certificate's issuer is known to nobody; that it is one for this host is checked above.
          { rejectUnauthorized: false },
          (response) => {
            response.resume();
            done(response);
          },
        ).on("error", fail);
      });
      assert.equal(headers["access-control-allow-origin"], "*");
      await assert.rejects(serve({ key, cert }, port), /is taken/);
    } finally {
      server.close();
    }
  });
});

describe("what to do by hand", () => {
  it("names the manifest and the steps in Excel on the web", () => {
    const text = byHand("/somewhere/manifest.xml");
    assert.match(text, /Upload My Add-in/);
    assert.match(text, /\/somewhere\/manifest\.xml/);
    assert.match(text, /=FEEDDEV\./);
  });
});
