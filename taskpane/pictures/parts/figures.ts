/** Numbers on a drawing, with as many decimals as the sheet shows of them. */

function decimals(value: number, places: number): string {
  return new Intl.NumberFormat(undefined, {
    minimumFractionDigits: places,
    maximumFractionDigits: places,
    useGrouping: false,
  }).format(value);
}

export function watts(value: number): string {
  return `${decimals(value, value !== 0 && Math.abs(value) < 1 ? 2 : 1)}\u00a0W`;
}

export function volts(value: number): string {
  return `${decimals(value, Math.abs(value) < 10 ? 2 : 1)}\u00a0V`;
}

export function amperes(value: number): string {
  return `${decimals(value, 1)}\u00a0A`;
}

export function kilograms(value: number): string {
  return `${decimals(value, 1)}\u00a0kg`;
}

/** A hair beyond a limit is not 0. */
const MOST_PLACES = 12;

export function percent(share: number): string {
  const size = Math.abs(100 * share);
  const places =
    size === 0 || size >= 0.1 ? 1 : Math.min(MOST_PLACES, Math.ceil(-Math.log10(size)));
  return `${decimals(100 * share, places)}\u00a0%`;
}

/** A tick of an axis, or a limit: as short as it can be told. */
export function plainFigure(value: number): string {
  return new Intl.NumberFormat(undefined, {
    maximumSignificantDigits: 4,
    useGrouping: false,
  }).format(value);
}
