/**
 * A second opinion on a cable in still air, written from the physics and not from the engine: the conductor's
 * temperature is the unknown, the air's figures are worked out in other forms, radiation is the difference of two fourth
 * powers. Beside the balance, the same cable as it warms up.
 */
import type { CableInAir } from "../../src/conductors/heat-balance.js";

/** What the test fixes by hand: conductivity and emissivity as the cable's insulation and metal have them. */
export interface SurfaceFigures {
  readonly conductivity: number;
  readonly emissivity: number;
}

interface Body extends SurfaceFigures {
  readonly cable: CableInAir;
  readonly areaMm2: number;
}

/** W/m that a cylinder loses, its surface at an absolute temperature. */
function lost({ cable, emissivity }: Body, surface: number): number {
  const air = cable.ambientC + 273.15;
  const film = (surface + air) / 2;
  const mu = (1.458e-6 * Math.sqrt(film)) / (1 + 110.4 / film);
  const k =
    (2.64638e-3 * Math.sqrt(film)) / (1 + (245.4 / film) * Math.exp((-12 / film) * Math.LN10));
  const z = cable.altitude;
  const standardTemperature = 288.15 - 6.5e-3 * Math.min(z, 11000);
  const pressure =
    z <= 11000
      ? 101325 * Math.exp(5.25588 * Math.log(standardTemperature / 288.15))
      : 22632.1 * Math.exp(-(z - 11000) / 6341.62);
  const density = pressure / 287.053 / film;
  const grashof =
    (9.80665 * ((surface - air) / film) * cable.outerDiameter ** 3) / (mu / density) ** 2;
  const prandtl = (1007 * mu) / k;
  const root =
    0.6 +
    (0.387 * Math.exp(Math.log(grashof * prandtl) / 6)) /
      Math.exp((8 / 27) * Math.log1p(Math.exp((9 / 16) * Math.log(0.559 / prandtl))));
  const convected = grashof > 0 ? Math.PI * k * root * root * (surface - air) : 0;
  const radiated =
    emissivity * 5.670374419e-8 * Math.PI * cable.outerDiameter * (surface ** 4 - air ** 4);
  return convected + radiated;
}

/** K·m/W */
function wall({ cable, conductivity, areaMm2 }: Body): number {
  if (cable.insulation === "none") return 0;
  const squares = (cable.outerDiameter * 1e3) ** 2 / ((4 / Math.PI) * areaMm2 * cable.loadedCores);
  const spot = cable.loadedCores === 1 ? 0 : 1;
  return (Math.log(squares) + spot) / (4 * Math.PI * conductivity);
}

function made({ cable, areaMm2 }: Body, current: number, kelvin: number): number {
  const { material, loadedCores, grouping } = cable;
  const ohms =
    (material.resistivity / areaMm2) *
    1e6 *
    (1 + material.temperatureCoefficient * (kelvin - 293.15));
  return loadedCores * (current / grouping) ** 2 * ohms;
}

function shone({ cable }: Body): number {
  return cable.sun * cable.outerDiameter * 0.9;
}

/** °C of the conductor, by halving between the air's temperature and 600 °C. */
export function balancedTemperature(body: Body, current: number): number {
  const air = body.cable.ambientC + 273.15;
  const gain = (kelvin: number) => {
    const heat = made(body, current, kelvin);
    const surface = kelvin - heat * wall(body);
    // A conductor so cold that its surface would be below the air's has heat to gain.
    return surface <= air ? 1 : heat + shone(body) - lost(body, surface);
  };
  let [low, high] = [air, 873.15 + 1e-6];
  for (let halving = 0; halving < 100; halving++) {
    const middle = (low + high) / 2;
    if (gain(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2 - 273.15;
}

/** °C of the conductor after it has carried the current for long, from cold: metal and insulation as two heat stores. */
export function settledTemperature(body: Body, current: number): number {
  const air = body.cable.ambientC + 273.15;
  const metre = body.cable.outerDiameter ** 2 * (Math.PI / 4);
  // Any stores settle at the same temperatures; these are 3.45 MJ/(K·m³) of copper and 1.7 of plastic.
  const metalStore = 3.45e6 * body.areaMm2 * 1e-6 * body.cable.loadedCores;
  const skinStore = Math.max(1.7e6 * metre - metalStore / 2, metalStore / 4);
  const resistance = wall(body);
  let [core, skin] = [air, air + 1e-9];
  const quickest = resistance > 0 ? resistance * Math.min(metalStore, skinStore) : Infinity;
  const step = Math.min(quickest / 4, 0.02 * (metalStore + skinStore));
  for (let count = 0; count < 400_000; count++) {
    const heat = made(body, current, core);
    const away = lost(body, skin) - shone(body);
    if (resistance === 0) {
      const change = (step * (heat - away)) / (metalStore + skinStore);
      core += change;
      skin = core;
      if (Math.abs(change) < 1e-13) break;
      continue;
    }
    const through = (core - skin) / resistance;
    const coreChange = (step * (heat - through)) / metalStore;
    const skinChange = (step * (through - away)) / skinStore;
    core += coreChange;
    skin += skinChange;
    if (Math.abs(coreChange) + Math.abs(skinChange) < 1e-12) break;
  }
  return core - 273.15;
}
