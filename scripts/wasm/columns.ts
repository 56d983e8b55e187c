// What a pass over a column of numbers tells, in AssemblyScript, for processors with vectors of 16 bytes: two numbers at a
// time, but sums one after the other, so that they have the bits of a plain loop. Built by scripts/wasm/build.mjs into
// src/readers/columnKernel.ts; src/readers/columnVectors.ts is the only caller. What the facts mean is said in
// src/readers/plainFacts.ts, whose loop gives the same; the plain loops of the grid are in src/readers/checks/stepOnGrid.ts.

/** Where what follows stands in a memory that holds the columns, too. */
let own: usize = 0;

export function workAt(place: usize): void {
  own = place;
}

/** The facts so far, ten doubles as src/readers/plainFacts.ts has them. */
export const facts: usize = 0;
/** Eight words: how many numbers lie near the ends. */
export const counts: usize = 80;
/** Where numbers are put that stand in another memory, with the one before them 8 bytes before. */
export const input: usize = 128;
/** Numbers that have room there. */
export const most: i32 = 8192;
/** A byte for each place on a grid, of which 16 before and 16 behind those that count may be written to or read. */
export const places: usize = 65696;

/** Goes on with the facts by so many numbers at `from`. @param before the number before them, NaN where there is none */
export function lookAt(from: usize, count: i32, before: f64): void {
  if (count == 0) return;
  let sum = load<f64>(own + facts, 16);
  let squares = load<f64>(own + facts, 24);
  let total = load<f64>(own + facts, 56);
  let least = v128.load64_splat(own + facts + 32);
  let largest = v128.load64_splat(own + facts + 40);
  let change = v128.load64_splat(own + facts + 48);
  let held = <i32>load<f64>(own + facts, 64);
  let longest = <i32>load<f64>(own + facts, 72);
  let low = v128.load64_splat(own + facts);
  let high = v128.load64_splat(own + facts + 8);
  const end = from + (<usize>count << 3);
  let at = from;
  // The first, whose neighbour may stand elsewhere, and one more where the rest is odd in number.
  for (let left = 2 - (count & 1); left > 0; left--, at += 8) {
    const value = load<f64>(at);
    const step = value - (at == from ? before : load<f64>(at - 8));
    low = f64x2.pmin(low, f64x2.splat(value));
    high = f64x2.pmax(high, f64x2.splat(value));
    sum += value;
    squares += value * value;
    if (step == step) total += step;
    least = f64x2.pmin(least, f64x2.splat(step));
    largest = f64x2.pmax(largest, f64x2.splat(step));
    if (step == 0) {
      if (++held > longest) longest = held;
    } else {
      held = 0;
      change = f64x2.pmin(change, f64x2.splat(abs(step)));
    }
  }
  for (; at < end; at += 16) {
    const values = v128.load(at);
    const steps = f64x2.sub(values, v128.load(at - 8));
    low = f64x2.pmin(low, values);
    high = f64x2.pmax(high, values);
    sum = sum + f64x2.extract_lane(values, 0) + f64x2.extract_lane(values, 1);
    const products = f64x2.mul(values, values);
    squares = squares + f64x2.extract_lane(products, 0) + f64x2.extract_lane(products, 1);
    const known = v128.and(steps, f64x2.eq(steps, steps));
    total = total + f64x2.extract_lane(known, 0) + f64x2.extract_lane(known, 1);
    least = f64x2.pmin(least, steps);
    largest = f64x2.pmax(largest, steps);
    // Where nothing changes the size is made no number at all, which is never the smaller one.
    const same = f64x2.eq(steps, f64x2.splat(0));
    change = f64x2.pmin(change, v128.or(f64x2.abs(steps), same));
    if (v128.any_true(same)) {
      const which = i64x2.bitmask(same);
      held = which & 1 ? held + 1 : 0;
      if (held > longest) longest = held;
      held = which & 2 ? held + 1 : 0;
      if (held > longest) longest = held;
    } else held = 0;
  }
  store<f64>(own + facts, lower(low));
  store<f64>(own + facts, upper(high), 8);
  store<f64>(own + facts, sum, 16);
  store<f64>(own + facts, squares, 24);
  store<f64>(own + facts, lower(least), 32);
  store<f64>(own + facts, upper(largest), 40);
  store<f64>(own + facts, lower(change), 48);
  store<f64>(own + facts, total, 56);
  store<f64>(own + facts, held, 64);
  store<f64>(own + facts, longest, 72);
}

/** The lower of two numbers; of two zeros the one without a sign. */
@inline function lower(both: v128): f64 {
  const one = f64x2.extract_lane(both, 0);
  const other = f64x2.extract_lane(both, 1);
  return (other < one ? other : one) + 0;
}

@inline function upper(both: v128): f64 {
  const one = f64x2.extract_lane(both, 0);
  const other = f64x2.extract_lane(both, 1);
  return (other > one ? other : one) + 0;
}

/**
 * Goes on with the sum at `facts` of the squares of the steps to so many numbers at `from` less their mean, and with the word behind it:
 * how many of these steps lie between two bounds.
 */
export function addSpread(from: usize, count: i32, mean: f64, least: f64, largest: f64): void {
  const means = f64x2.splat(mean);
  const lows = f64x2.splat(least);
  const highs = f64x2.splat(largest);
  let squares = load<f64>(own + facts);
  let within = i64x2.splat(0);
  const end = from + (<usize>count << 3);
  let at = from;
  for (; at + 16 <= end; at += 16) {
    const steps = f64x2.sub(v128.load(at), v128.load(at - 8));
    const off = f64x2.sub(steps, means);
    const products = f64x2.mul(off, off);
    squares = squares + f64x2.extract_lane(products, 0) + f64x2.extract_lane(products, 1);
    within = i64x2.sub(within, v128.and(f64x2.gt(steps, lows), f64x2.lt(steps, highs)));
  }
  let found = <i32>(i64x2.extract_lane(within, 0) + i64x2.extract_lane(within, 1));
  if (at < end) {
    const step = load<f64>(at) - load<f64>(at - 8);
    squares += (step - mean) * (step - mean);
    if (step > least && step < largest) found++;
  }
  store<f64>(own + facts, squares);
  store<i32>(own + facts, load<i32>(own + facts, 8) + found, 8);
}

/**
 * Adds to the words at `counts`, of the steps to so many numbers at `from` from those before them: how many go up by more than `jump`, how
 * many down, how many of the others are larger than `half`, and how many of the rest cross `middle`.
 */
export function countSteps(from: usize, count: i32, jump: f64, half: f64, middle: f64): void {
  const jumps = f64x2.splat(jump);
  const halves = f64x2.splat(half);
  const middles = f64x2.splat(middle);
  let ups = i64x2.splat(0);
  let downs = ups;
  let larges = ups;
  let crossings = ups;
  const end = from + (<usize>count << 3);
  for (let at = from; at < end; at += 16) {
    // One more where their number is odd: no step, from the last one to itself.
    const isPair = at + 16 <= end;
    const values = isPair ? v128.load(at) : v128.load64_splat(at);
    const before = isPair ? v128.load(at - 8) : f64x2(load<f64>(at - 8), load<f64>(at));
    const steps = f64x2.sub(values, before);
    const isUp = f64x2.gt(steps, jumps);
    const isDown = f64x2.lt(steps, f64x2.neg(jumps));
    const isJump = v128.or(isUp, isDown);
    const isLarge = v128.andnot(f64x2.gt(f64x2.abs(steps), halves), isJump);
    const crosses = v128.xor(f64x2.lt(before, middles), f64x2.lt(values, middles));
    ups = i64x2.sub(ups, isUp);
    downs = i64x2.sub(downs, isDown);
    larges = i64x2.sub(larges, isLarge);
    crossings = i64x2.sub(crossings, v128.andnot(crosses, v128.or(isJump, isLarge)));
  }
  add(0, ups);
  add(4, downs);
  add(8, larges);
  add(12, crossings);
}

/**
 * Adds how many of so many numbers at `from` lie nearer than each of four distances to `low`, and to `high`, to the eight words at
 * `counts`. The distances stand at `facts`.
 */
export function countNear(from: usize, count: i32, low: f64, high: f64): void {
  const first = v128.load64_splat(own + facts);
  const second = v128.load64_splat(own + facts + 8);
  const third = v128.load64_splat(own + facts + 16);
  const fourth = v128.load64_splat(own + facts + 24);
  const farthest = f64x2.pmax(f64x2.pmax(first, second), f64x2.pmax(third, fourth));
  const lows = f64x2.splat(low);
  const highs = f64x2.splat(high);
  let a = i64x2.splat(0);
  let b = a;
  let c = a;
  let d = a;
  let e = a;
  let f = a;
  let g = a;
  let h = a;
  // Bounds that leave a number out only where it is no less than the farthest from either end, however differences are rounded.
  const reach = 1.0001 * f64x2.extract_lane(farthest, 0);
  const belows = f64x2.splat(low + reach + 1e-15 * abs(low));
  const aboves = f64x2.splat(high - reach - 1e-15 * abs(high));
  const end = from + (<usize>count << 3);
  for (let at = from; at < end;) {
    const stop = min(end, at + (<usize>most << 3));
    // Those that may be near are put together first, without a jump that depends on them; they may come from there.
    let to = own + input;
    for (; at + 16 <= stop; at += 16) {
      const values = v128.load(at);
      const which = i64x2.bitmask(v128.or(f64x2.lt(values, belows), f64x2.gt(values, aboves)));
      store<f64>(to, f64x2.extract_lane(values, 0));
      to += (which & 1) << 3;
      store<f64>(to, f64x2.extract_lane(values, 1));
      to += (which & 2) << 2;
    }
    for (; at < stop; at += 8, to += 8) store<f64>(to, load<f64>(at));
    // One more where their number is odd, which is near to nothing.
    store<f64>(to, NaN);
    for (let near = own + input; near < to; near += 16) {
      const values = v128.load(near);
      const above = f64x2.sub(values, lows);
      const below = f64x2.sub(highs, values);
      a = i64x2.sub(a, f64x2.lt(above, first));
      b = i64x2.sub(b, f64x2.lt(above, second));
      c = i64x2.sub(c, f64x2.lt(above, third));
      d = i64x2.sub(d, f64x2.lt(above, fourth));
      e = i64x2.sub(e, f64x2.lt(below, first));
      f = i64x2.sub(f, f64x2.lt(below, second));
      g = i64x2.sub(g, f64x2.lt(below, third));
      h = i64x2.sub(h, f64x2.lt(below, fourth));
    }
  }
  add(0, a);
  add(4, b);
  add(8, c);
  add(12, d);
  add(16, e);
  add(20, f);
  add(24, g);
  add(28, h);
}

@inline function add(at: usize, both: v128): void {
  store<i32>(own + counts + at, load<i32>(own + counts + at) + <i32>(i64x2.extract_lane(both, 0) + i64x2.extract_lane(both, 1)));
}

/** The smallest difference, of those that are not below 0, of so many numbers at `from` to those so many bytes before them; Infinity of none. */
export function leastSpan(from: usize, count: i32, apart: usize): f64 {
  const none = f64x2.splat(0);
  let least = f64x2.splat(Infinity);
  const end = from + (<usize>count << 3);
  let at = from;
  for (; at + 16 <= end; at += 16) {
    const spans = f64x2.sub(v128.load(at), v128.load(at - apart));
    // One below 0 is made no number at all, which is never the smaller one.
    least = f64x2.pmin(least, v128.or(spans, f64x2.lt(spans, none)));
  }
  let found = lower(least);
  if (at < end) {
    const span = load<f64>(at) - load<f64>(at - apart);
    if (span >= 0 && span < found) found = span;
  }
  return found;
}

/** Copies so many numbers, each `apart` bytes behind the one before, to `input`. */
export function pick(from: usize, count: i32, apart: usize): void {
  const to = own + input;
  for (let i = 0; i < count; i++) store<f64>(to + (<usize>i << 3), load<f64>(from + <usize>i * apart));
}

/**
 * Marks the places of so many numbers at `from` on the grid of whole numbers over `scale`, counted from `first`; gives 0 where one is on no
 * place of it.
 */
export function markPlaces(from: usize, count: i32, first: f64, scale: f64): i32 {
  const firsts = f64x2.splat(first);
  const scales = f64x2.splat(scale);
  let isOnGrid = f64x2.eq(scales, scales);
  const end = from + (<usize>count << 3);
  for (let at = from; at < end; at += 16) {
    // One more where their number is odd: the last one twice.
    const values = at + 16 <= end ? v128.load(at) : v128.load64_splat(at);
    const units = f64x2.nearest(f64x2.mul(values, scales));
    isOnGrid = v128.and(isOnGrid, f64x2.eq(f64x2.div(units, scales), values));
    const which = i32x4.trunc_sat_f64x2_s_zero(f64x2.sub(units, firsts));
    store<u8>(own + places + i32x4.extract_lane(which, 0), 1);
    store<u8>(own + places + i32x4.extract_lane(which, 1), 1);
  }
  return <i32>i64x2.all_true(isOnGrid);
}

/** Takes the marks of so many places away. */
export function clearPlaces(count: i32): void {
  memory.fill(own + places, 0, <usize>count + 16);
}

/** The smallest difference of two neighbours among so many places, of those the fewest apart. */
export function leastBetween(count: i32, first: f64, scale: f64): f64 {
  const least = leastBeside(count, first, scale);
  return least < Infinity ? least : leastApart(count, first, scale);
}

/** The smallest difference of two places without another between them, which few places that are taken are; Infinity of none. */
@inline function leastBeside(count: i32, first: f64, scale: f64): f64 {
  const scales = f64x2.splat(scale);
  const none = i8x16.splat(0);
  let least = Infinity;
  let behind = 0;
  for (let from = 0; from < count; from += 16) {
    const taken = i8x16.bitmask(i8x16.ne(v128.load(own + places + from), none));
    // Bit by bit whether the place before is taken, too.
    for (let both = taken & ((taken << 1) | behind); both != 0; both &= both - 1) {
      const at = <f64>(from + ctz(both));
      const ends = f64x2.div(f64x2(first + at, first + at - 1), scales);
      least = min(least, f64x2.extract_lane(ends, 0) - f64x2.extract_lane(ends, 1));
    }
    behind = taken >> 15;
  }
  return least;
}

@inline function leastApart(count: i32, first: f64, scale: f64): f64 {
  const scales = f64x2.splat(scale);
  let before = -1;
  let gap = i32.MAX_VALUE;
  let least = Infinity;
  for (let from = 0; from < count; from += 16) {
    let taken = i8x16.bitmask(i8x16.ne(v128.load(own + places + from), i8x16.splat(0)));
    for (; taken != 0; taken &= taken - 1) {
      const at = from + ctz(taken);
      const apart = at - before;
      if (before >= 0 && apart <= gap) {
        const ends = f64x2.div(f64x2(first + <f64>at, first + <f64>before), scales);
        const step = f64x2.extract_lane(ends, 0) - f64x2.extract_lane(ends, 1);
        if (apart < gap || step < least) least = step;
        gap = apart;
      }
      before = at;
    }
  }
  return least;
}
