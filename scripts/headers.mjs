/**
 * What a server is to say beside the files of dist/: the development server says it, and the build writes it as settings
 * for two common servers.
 */

/** Excel on the web reads functions.json and shortcuts.json from a page of its own. */
const ALWAYS = { "Access-Control-Allow-Origin": "*" };

/** A file that keeps its name is asked for anew, or one of the last release would name files that are gone. */
const ASKED_ANEW = "no-cache";
const YEAR_S = 31_536_000;

/** Folders that differ. Of an icon nothing may be said: Excel shows one of its own for an icon with such a header. */
const CACHED = {
  assets: undefined,
  chunks: `max-age=${YEAR_S}, immutable`,
  vendor: `max-age=${YEAR_S}, immutable`,
};

/**
 * @param {string} path Below the folder, `/chunks/chunk-85-99173646.js`.
 * @returns {Record<string, string>}
 */
export function headersOf(path) {
  const folder = path.split("/")[1] ?? "";
  const cached = folder in CACHED ? CACHED[folder] : ASKED_ANEW;
  return { ...ALWAYS, ...(cached === undefined ? {} : { "Cache-Control": cached }) };
}

/**
 * To be included in nginx's block `server`, which says where the files are.
 * @param {string} folder Path of the address where dist/ is served, `/downfeed/`.
 */
export function nginxText(folder) {
  const said = (path) =>
    Object.entries(headersOf(path)).map(([name, value]) => `add_header ${name} "${value}";`);
  const inner = Object.keys(CACHED).flatMap((name) => [
    "",
    `  location ${folder}${name}/ {`,
    ...said(`/${name}/`).map((line) => `    ${line}`),
    "  }",
  ]);
  return [
    "# For nginx: include this file in the server block whose root holds the folder.",
    "# Its add_header takes the place of those around it, a refusal of frames among them.",
    `location ${folder} {`,
    ...said("/").map((line) => `  ${line}`),
    ...inner,
    "}",
    "",
  ].join("\n");
}

/** For IIS, which reads it where it lies: at the top of dist/. */
export function webConfigText() {
  const folders = Object.entries(CACHED).map(
    ([folder, cached]) => `  <location path="${folder}">
    <system.webServer>
      <staticContent>
        ${clientCache(cached)}
      </staticContent>
    </system.webServer>
  </location>`,
  );
  const always = Object.entries(ALWAYS).map(
    ([name, value]) => `        <remove name="${name}" />
        <add name="${name}" value="${value}" />`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<!-- For IIS. A header is taken away before it is given, or one of the site around would stand twice and be refused. -->
<configuration>
  <system.webServer>
    <httpProtocol>
      <customHeaders>
        <remove name="X-Frame-Options" />
${always.join("\n")}
      </customHeaders>
    </httpProtocol>
    <staticContent>
      <clientCache cacheControlMode="DisableCache" />
    </staticContent>
  </system.webServer>
${folders.join("\n")}
</configuration>
`;
}

/** @param {string | undefined} cached */
function clientCache(cached) {
  return cached === undefined
    ? `<clientCache cacheControlMode="NoControl" />`
    : `<clientCache cacheControlMode="UseMaxAge" cacheControlMaxAge="${YEAR_S / 86_400}.00:00:00" cacheControlCustom="immutable" />`;
}
