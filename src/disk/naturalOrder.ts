/** File names as people count: `run 2` before `run 10`. The same on every machine, whatever its language. */
export function naturalOrder(a: string, b: string): number {
  const left = a.match(/\d+|\D+/g) ?? [];
  const right = b.match(/\d+|\D+/g) ?? [];
  for (let i = 0; i < Math.min(left.length, right.length); i++) {
    if (left[i] === right[i]) continue;
    const numbers = Number(left[i]) - Number(right[i]);
    if (Number.isFinite(numbers) && numbers !== 0) return numbers;
    return left[i] < right[i] ? -1 : 1;
  }
  return left.length - right.length;
}
