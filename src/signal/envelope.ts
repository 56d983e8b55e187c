/** Smallest and largest value in each of a number of equally wide columns. */
export interface Envelope {
  /** First sample of each column, and one past the last column's last. */
  readonly edges: Uint32Array;
  readonly smallest: Float64Array;
  readonly largest: Float64Array;
}

/**
 * The envelope of samples `from` up to but without `to`. No peak is lost: each column says the extremes of all its
 * samples. There are never more columns than samples.
 */
export function envelope(samples: Float64Array, from: number, to: number, columns: number): Envelope {
  const edges = columnEdges(from, to, columns);
  const count = edges.length - 1;
  const smallest = new Float64Array(count);
  const largest = new Float64Array(count);
  for (let c = 0; c < count; c++) {
    let low = Infinity;
    let high = -Infinity;
    for (let i = edges[c]; i < edges[c + 1]; i++) {
      const value = samples[i];
      if (value < low) low = value;
      if (value > high) high = value;
    }
    smallest[c] = low;
    largest[c] = high;
  }
  return { edges, smallest, largest };
}

/**
 * Indices, in order, of the samples that a line of the signal needs when it is drawn `columns` wide: the first, the
 * smallest, the largest and the last of each column (Jugel et al. 2014, Proc. VLDB 7(10), M4), each once.
 */
export function drawnSamples(samples: Float64Array, from: number, to: number, columns: number): Uint32Array {
  const edges = columnEdges(from, to, columns);
  const kept = new Uint32Array(Math.min(4 * (edges.length - 1), to - from));
  let count = 0;
  for (let c = 0; c + 1 < edges.length; c++) {
    const first = edges[c];
    const last = edges[c + 1] - 1;
    let low = first;
    let high = first;
    for (let i = first + 1; i <= last; i++) {
      if (samples[i] < samples[low]) low = i;
      if (samples[i] > samples[high]) high = i;
    }
    for (const index of [first, Math.min(low, high), Math.max(low, high), last]) {
      if (count === 0 || index > kept[count - 1]) kept[count++] = index;
    }
  }
  return kept.slice(0, count);
}

function columnEdges(from: number, to: number, columns: number): Uint32Array {
  const count = Math.max(0, Math.min(Math.floor(columns), to - from));
  const edges = new Uint32Array(count + 1);
  for (let c = 0; c <= count; c++) edges[c] = from + Math.floor((c * (to - from)) / Math.max(count, 1));
  return edges;
}
