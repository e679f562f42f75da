/** A certificate for https://localhost: trusted by this computer where that can be arranged, and honest where it cannot. */
import { createRequire } from "node:module";
import { mkdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { X509Certificate } from "node:crypto";

const FOLDER = fileURLToPath(new URL("../.cache/certificate", import.meta.url));
const certificates = createRequire(import.meta.url)("office-addin-dev-certs");

/**
 * @typedef {{ key: Buffer | string, cert: Buffer | string } & ({ isTrusted: true } | { isTrusted: false, why: string })} ServerCertificate
 */

/**
 * Nobody is asked for a password where nobody is there to give one, so nothing is installed then.
 * @param {{ install?: boolean, tool?: typeof certificates }} [options]
 * @returns {Promise<ServerCertificate>}
 */
export async function serverCertificate({
  install = !process.env["CI"],
  tool = certificates,
} = {}) {
  if (!install) return untrustedCertificate("nothing is installed where CI is set");
  try {
    await tool.ensureCertificatesAreInstalled();
    // Installing may fail without a word; only what the system says counts.
    if (!tool.verifyCertificates())
      return untrustedCertificate("the system does not know its issuer");
    const { key, cert } = await tool.getHttpsServerOptions();
    return { key, cert, isTrusted: true };
  } catch (error) {
    return untrustedCertificate(error instanceof Error ? error.message : String(error));
  }
}

/** @param {string} why @returns {Promise<ServerCertificate>} */
async function untrustedCertificate(why) {
  await mkdir(FOLDER, { recursive: true });
  const [authority, certificate, key] = ["ca.crt", "localhost.crt", "localhost.key"].map((name) =>
    join(FOLDER, name),
  );
  if (!(await isValid(certificate)))
    await certificates.generateCertificates(authority, certificate, key);
  return {
    key: await readFile(key),
    cert: await readFile(certificate),
    isTrusted: false,
    why,
  };
}

/** @param {string} path */
async function isValid(path) {
  try {
    const { validTo } = new X509Certificate(await readFile(path));
    return new Date(validTo).getTime() > Date.now();
  } catch (error) {
    if (error.code === "ENOENT") return false;
    throw error;
  }
}
