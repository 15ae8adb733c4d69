/** Numbers as a sentence says them: no more decimals than a hand or an eye can use, and none that are zero. */

/** At most so many decimals; never "-0". */
export function number(value: number, decimals: number): string {
  const rounded = Number(value.toFixed(decimals));
  return String(rounded === 0 ? 0 : rounded);
}

/** "1 tooth", "2 teeth", "half a turn", "1.5 turns". */
export function countOf(count: number, one: string, many: string): string {
  if (count === 0.5) return `half a ${one}`;
  return `${number(count, 2)} ${count === 1 ? one : many}`;
}
