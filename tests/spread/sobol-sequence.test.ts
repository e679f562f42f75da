import { describe, expect, it } from "vitest";
import { InputError } from "../../src/quantities/errors.js";
import {
  MOST_DIMENSIONS,
  requireSamples,
  scrambledSobol,
  sobolSequence,
} from "../../src/spread/sobol-sequence.js";

const ALL = 2 ** 32;

// S. Joe and F. Y. Kuo's sequence as SALib's own test prints it (tests/test_sobol.py, commit 1c375488).
const FIRST_TEN = [
  [0, 0, 0],
  [0.5, 0.5, 0.5],
  [0.75, 0.25, 0.25],
  [0.25, 0.75, 0.75],
  [0.375, 0.375, 0.625],
  [0.875, 0.875, 0.125],
  [0.625, 0.125, 0.875],
  [0.125, 0.625, 0.375],
  [0.1875, 0.3125, 0.9375],
  [0.6875, 0.8125, 0.4375],
];

describe("Sobol's sequence", () => {
  it("begins with the published ten points of three dimensions", () => {
    const next = sobolSequence(3);
    expect(FIRST_TEN.map(() => [...next()].map((part) => part / ALL))).toEqual(FIRST_TEN);
  });

  // Computed by scipy 1.17.1, qmc.Sobol(256, scramble=False, bits=32), from Joe and Kuo's file.
  it.each([
    [1000, 3, 2906652672],
    [1000, 64, 557842432],
    [777, 100, 3619684352],
    [1023, 255, 3619684352],
    [512, 200, 1279262720],
  ])("is at point %i, axis %i, where another implementation is", (index, axis, part) => {
    const next = sobolSequence(256);
    for (let before = 0; before < index; before++) next();
    expect(next()[axis]).toBe(part);
  });

  // As above: the sum over all axes, each coordinate times its axis, counted from 1.
  it.each([
    [1000, 70165152661504],
    [4095, 66686925406208],
  ])("is on all 256 axes of point %i where the other implementation is", (index, weighted) => {
    const next = sobolSequence(256);
    for (let before = 0; before < index; before++) next();
    expect(next().reduce((sum, part, axis) => sum + part * (axis + 1), 0)).toBe(weighted);
  });

  it("puts one of 1024 points into each 1024th of every axis, scrambled", () => {
    const next = scrambledSobol(MOST_DIMENSIONS, 7);
    const point = new Float64Array(MOST_DIMENSIONS);
    const met = Array.from(point, () => new Set<number>());
    for (let index = 0; index < 1024; index++)
      next(point).forEach((coordinate, axis) => met[axis]!.add(Math.floor(coordinate * 1024)));
    expect(met.map(({ size }) => size)).toEqual(met.map(() => 1024));
  });

  it("gives the same points for a seed, others for another, and never 0 or 1", () => {
    const firstOf = (seed: number) => [...scrambledSobol(4, seed)(new Float64Array(4))];
    expect(firstOf(1)).toEqual(firstOf(1));
    expect(firstOf(1)).not.toEqual(firstOf(2));
    expect(new Set(firstOf(1)).size).toBe(4);
    for (const coordinate of firstOf(0)) expect(coordinate > 0 && coordinate < 1).toBe(true);
  });

  it("refuses more axes than it has direction numbers for, and numbers of samples that cannot be", () => {
    expect(() => sobolSequence(257)).toThrow(InputError);
    for (const samples of [9, 12.5, Number.NaN, 2 ** 20 + 1])
      expect(() => requireSamples(samples)).toThrow(InputError);
    expect(() => scrambledSobol(2, -1)).toThrow(InputError);
  });
});
