/** What the formula of a step comes to. */
import { type Token, tokens } from "../../../src/quantities/formulas.js";

const FUNCTIONS: Readonly<Record<string, (...values: number[]) => number>> = {
  sqrt: Math.sqrt,
  ln: Math.log,
  exp: Math.exp,
  acosh: Math.acosh,
  atan: Math.atan,
  abs: Math.abs,
  min: Math.min,
  max: Math.max,
};

/** Value of a step's formula. @throws {SyntaxError} where the text leaves the grammar of steps. */
export function stepValue(formula: string, valueOf: (field: string) => number): number {
  return new StepReader(tokens(formula), valueOf).whole();
}

class StepReader {
  private at = 0;

  constructor(
    private readonly found: readonly Token[],
    private readonly valueOf: (field: string) => number,
  ) {}

  whole(): number {
    const value = this.sum();
    if (this.at < this.found.length) throw this.fault();
    return value;
  }

  private sum(): number {
    let value = this.product();
    for (;;) {
      if (this.takes("+")) value += this.product();
      else if (this.takes("-")) value -= this.product();
      else return value;
    }
  }

  private product(): number {
    let value = this.signed();
    for (;;) {
      if (this.takes("*")) value *= this.signed();
      else if (this.takes("/")) value /= this.signed();
      else return value;
    }
  }

  private signed(): number {
    if (this.takes("-")) return -this.signed();
    if (this.takes("+")) return this.signed();
    const base = this.atom();
    return this.takes("^") ? base ** this.signed() : base;
  }

  private atom(): number {
    const token = this.found[this.at];
    this.at += 1;
    if (token?.kind === "number") return Number(token.text);
    if (token?.kind === "constant") return Math.PI;
    if (token?.kind === "field") return this.valueOf(token.text);
    if (token?.kind === "function") return this.called(token.text);
    if (token?.text !== "(") throw this.fault();
    const value = this.sum();
    if (!this.takes(")")) throw this.fault();
    return value;
  }

  private called(name: string): number {
    const calculate = FUNCTIONS[name];
    if (!calculate || !this.takes("(")) throw this.fault();
    const values = [this.sum()];
    while (this.takes(",")) values.push(this.sum());
    if (!this.takes(")")) throw this.fault();
    return calculate(...values);
  }

  private takes(mark: string): boolean {
    const token = this.found[this.at];
    if (token?.kind !== "mark" || token.text !== mark) return false;
    this.at += 1;
    return true;
  }

  private fault(): SyntaxError {
    const text = this.found.map((token) => token.text).join(" ");
    return new SyntaxError(`"${text}" is not a formula of a step`);
  }
}
