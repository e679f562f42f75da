/** Formulas as files hold them: cell functions and functions newer than the file format carry a prefix there. */
import { FILE_LIMITS } from "./file-limits.js";

/** Text in double quotes, a sheet's name in single ones, or what stands between. */
const PIECES = /"(?:[^"]|"")*"|'(?:[^']|'')*'|[^"']+|["']/g;

function outsideQuotes(formula: string, change: (piece: string) => string): string {
  return formula.replace(PIECES, (piece) =>
    piece.startsWith('"') || piece.startsWith("'") ? piece : change(piece),
  );
}

/**
 * What came after the format was laid down (ECMA-376, 2007) and so is written `_xlfn.NAME`. From memory of the list in
 * the file format's documentation ([MS-XLSX] 2.2.2, future functions).
 */
const NEWER = new Set(
  (
    "ACOT ACOTH AGGREGATE ARABIC ARRAYTOTEXT BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND BITLSHIFT BITOR " +
    "BITRSHIFT BITXOR BYCOL BYROW CEILING.MATH CEILING.PRECISE CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CHISQ.TEST CHOOSECOLS " +
    "CHOOSEROWS COMBINA CONCAT CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC CSCH DAYS DECIMAL DROP EXPAND " +
    "EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST FILTERXML FLOOR.MATH FLOOR.PRECISE FORECAST.ETS FORECAST.LINEAR FORMULATEXT " +
    "GAMMA GAMMA.DIST GAMMA.INV GAMMALN.PRECISE GAUSS HSTACK HYPGEOM.DIST IFNA IFS IMCOSH IMCOT IMCSC IMCSCH IMSEC IMSECH IMSINH " +
    "IMTAN ISFORMULA ISOMITTED ISOWEEKNUM LAMBDA LET LOGNORM.DIST LOGNORM.INV MAKEARRAY MAP MAXIFS MINIFS MODE.MULT MODE.SNGL MUNIT " +
    "NEGBINOM.DIST NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NUMBERVALUE PDURATION PERCENTILE.EXC PERCENTILE.INC PERCENTRANK.EXC " +
    "PERCENTRANK.INC PERMUTATIONA PHI POISSON.DIST QUARTILE.EXC QUARTILE.INC RANDARRAY RANK.AVG RANK.EQ REDUCE RRI SCAN SEC SECH " +
    "SEQUENCE SHEET SHEETS SINGLE SKEW.P SORTBY STDEV.P STDEV.S SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TAKE " +
    "TEXTAFTER TEXTBEFORE TEXTJOIN TEXTSPLIT TOCOL TOROW UNICHAR UNICODE UNIQUE VALUETOTEXT VAR.P VAR.S VSTACK WEIBULL.DIST WRAPCOLS " +
    "WRAPROWS XLOOKUP XMATCH XOR Z.TEST"
  ).split(" "),
);
/** These two have a longer prefix. */
const NEWER_SHEET = new Set(["FILTER", "SORT"]);

const CALL = /(?<![\w.])([A-Za-z_][\w.]*)(?=\()/g;

/** `FEED.NAME(` → `_xldudf_FEED_NAME(`, `XLOOKUP(` → `_xlfn.XLOOKUP(`. */
export function storedFormula(formula: string): string {
  const calls = outsideQuotes(formula, (piece) =>
    piece.replace(CALL, (name) => storedCall(name.toUpperCase()) ?? name),
  );
  return withParameterPrefixes(calls);
}

function storedCall(name: string): string | undefined {
  if (/^FEED[A-Z]*\./.test(name)) return `_xldudf_${name.replace(".", "_")}`;
  if (NEWER_SHEET.has(name)) return `_xlfn._xlws.${name}`;
  return NEWER.has(name) ? `_xlfn.${name}` : undefined;
}

const BOUND = /(?<=_xlfn\.(?:LET|LAMBDA)\(\s*|,\s*)([A-Za-z_][A-Za-z0-9_]*)(?=\s*,)/g;

/** Names that LET and LAMBDA bind carry `_xlpm.` wherever they stand. */
function withParameterPrefixes(formula: string): string {
  if (!/_xlfn\.(LET|LAMBDA)\(/.test(formula)) return formula;
  const bound = new Set(
    [...formula.matchAll(BOUND)]
      .map(([, name = ""]) => name)
      .filter((name) => !/^([A-Za-z]{1,3}\d+|TRUE|FALSE)$/i.test(name)),
  );
  return outsideQuotes(formula, (piece) =>
    piece.replace(/(?<![\w.!$])[A-Za-z_]\w*(?![\w.(!])/g, (word) =>
      bound.has(word) ? `_xlpm.${word}` : word,
    ),
  );
}

/** The formula as it is typed. */
export function typedFormula(stored: string): string {
  return outsideQuotes(stored, (piece) =>
    piece
      .replace(
        /(?<![\w.])_xldudf_(FEED[A-Z]*)_([A-Z][A-Z0-9_]*)(?=\()/gi,
        (_, namespace: string, id: string) => `${namespace}.${id}`.toUpperCase(),
      )
      .replace(/(?<![\w.])_xl(?:fn|ws|pm|udf)\.(?:_xlws\.)?/gi, ""),
  );
}

/** Why a formula from a file is not taken over, in the words of the list; nothing where it is. */
export function refusedFormula(formula: string): string | undefined {
  if (formula.length > FILE_LIMITS.formulaLength)
    return "formulas that are too long (their values are kept)";
  if (depthOf(formula) > FILE_LIMITS.formulaDepth)
    return "formulas that are nested too deeply (their values are kept)";
  const bare = formula.replace(/"(?:[^"]|"")*"/g, '""');
  if (/\[[^\]]*\]\s*[^,)]*!|'[^']*\[[^']*'!|\|/.test(bare))
    return "links to other files (their last values are kept)";
  if (bare.includes("[")) return "formulas that refer to tables by name (their values are kept)";
  if (
    /(?<![\w.])(?:_xl\w+\.)*(WEBSERVICE|IMAGE|RTD|CALL|REGISTER(\.ID)?|SQL\.REQUEST|DDE|EXEC)\s*\(/i.test(
      bare,
    )
  )
    return "formulas that reach outside the workbook (their values are kept)";
  return undefined;
}

function depthOf(formula: string): number {
  let [depth, most] = [0, 0];
  for (const character of formula) {
    if (character === "(" || character === "{") depth += 1;
    if (character === ")" || character === "}") depth -= 1;
    most = Math.max(most, depth);
  }
  return most;
}

const ARRAY_CALL =
  /(?<![\w.])(BYCOL|BYROW|CHOOSECOLS|CHOOSEROWS|DROP|EXPAND|FILTER|FREQUENCY|HSTACK|LAMBDA|LET|MAKEARRAY|MAP|MMULT|REDUCE|SCAN|SEQUENCE|SORT|SORTBY|TAKE|TOCOL|TOROW|TRANSPOSE|UNIQUE|VSTACK|WRAPCOLS|WRAPROWS)\(/i;
const RANGE = String.raw`\$?[A-Z]{1,3}\$?\d+:\$?[A-Z]{1,3}\$?\d+`;
const RANGE_COMPUTED = new RegExp(
  String.raw`${RANGE}\)*\s*[-+*/^&=<>]|[-+*/^&=<>]\s*(?:'[^']*'!|\w+!)?${RANGE}`,
  "i",
);

/** Whether a formula with one result works through arrays on its way: a file must say so, or a range in it is read as one cell of its row. */
export function worksThroughArrays(formula: string): boolean {
  const bare = formula.replace(/"(?:[^"]|"")*"/g, '""');
  return ARRAY_CALL.test(bare) || RANGE_COMPUTED.test(bare);
}
