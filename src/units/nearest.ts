/**
 * Edit distance with neighbouring letters swapped counting as one (Damerau 1964, restricted form); Infinity where it is
 * more than a bound. What both begin and end with alike costs nothing, for the names of a folder's files differ in little.
 */
function distance(one: string, other: string, most: number): number {
  let [from, a, b] = [0, one.length, other.length];
  while (from < a && from < b && one[from] === other[from]) from += 1;
  while (a > from && b > from && one[a - 1] === other[b - 1]) [a, b] = [a - 1, b - 1];
  return a === from || b === from ? a - from + (b - from) : between(one.slice(from, a), other.slice(from, b), most);
}

function between(a: string, b: string, most: number): number {
  let [before, last, row] = [[], [], []] as number[][];
  for (let j = 0; j <= b.length; j++) last.push(j);
  let leastBefore = 0;
  for (let i = 1; i <= a.length; i++) {
    row[0] = i;
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let far = Math.min(row[j - 1] + 1, last[j] + 1, last[j - 1] + cost);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) far = Math.min(far, before[j - 2] + 1);
      row[j] = far;
      if (far < least) least = far;
    }
    // Whatever follows comes from one of the last two rows.
    if (least > most && leastBefore > most) return Infinity;
    leastBefore = least;
    [before, last, row] = [last, row, before];
  }
  return last[b.length];
}

/**
 * The candidates that were likely meant, nearest first. A different capital counts for little; a word that is
 * half wrong is no candidate.
 */
export function nearest(word: string, candidates: Iterable<string>, most = 3): readonly string[] {
  const found: { readonly candidate: string; readonly far: number }[] = [];
  const lower = word.toLowerCase();
  for (const candidate of candidates) {
    if (candidate === word) continue;
    const longest = Math.max(word.length, candidate.length);
    const allowed = longest <= 2 ? 1 : longest <= 4 ? 1.5 : longest <= 7 ? 2.5 : 3.5;
    if (Math.abs(word.length - candidate.length) > allowed) continue;
    const capitals = candidate.toLowerCase() === lower ? 0.1 : distance(lower, candidate.toLowerCase(), allowed);
    const far = capitals + (candidate[0].toLowerCase() === lower[0] ? 0 : 0.2);
    if (far <= allowed) found.push({ candidate, far });
  }
  found.sort((a, b) => a.far - b.far);
  return [...new Set(found.map(({ candidate }) => candidate))].slice(0, most);
}
