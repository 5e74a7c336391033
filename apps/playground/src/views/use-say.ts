import { useMemo } from 'react';
import { useSession, useValue } from '../state/page-context.ts';
import { formatLengthUnit, formatSize, type LengthUnit } from '../units/length.ts';
import { formatNumber, formatPercent, type NumberStyle } from '../units/number.ts';

/** How figures are said to this user. */
export interface Say {
  length(mm: number, decimals?: number): string;
  size(width: number, height: number): string;
  number(value: number, decimals?: number): string;
  percent(share: number, decimals?: number): string;
}

export function useSay(): Say {
  const { unit, numbers } = useValue(useSession().preferences);
  return useMemo(() => sayIn(unit, numbers), [unit, numbers]);
}

export function sayIn(unit: LengthUnit, numbers: NumberStyle): Say {
  return {
    length: (mm, decimals = 1) => formatLengthUnit(mm, unit, numbers, decimals),
    size: (width, height) => formatSize(width, height, unit, numbers),
    number: (value, decimals = 0) => formatNumber(value, numbers, decimals),
    percent: (share, decimals = 0) => formatPercent(share, numbers, decimals),
  };
}

/** 1 piece, 2 pieces. */
export function count(amount: number, one: string, many = `${one}s`): string {
  return `${amount} ${amount === 1 ? one : many}`;
}
