import { plainStamp } from './spelt.ts';

/** How a column of clock stamps is spelt. */
export interface StampForm {
  /** Order of the date's parts, or none for a clock without a date. */
  readonly date: 'ymd' | 'dmy' | 'mdy' | 'none';
  /** Parts of the clock: hours, minutes, seconds; minutes and seconds; or none for a date alone. */
  readonly clock: 'hms' | 'ms' | 'none';
  /** Whether digits after the seconds are a decimal fraction, or milliseconds without leading zeros. */
  readonly fraction: 'decimal' | 'milliseconds';
  /** Whether the date's parts could stand in another order: the date is then not used, only the clock. */
  readonly doubtful: boolean;
  /** Whether the month is a name. */
  readonly named: boolean;
  /** Whether a cell is brought to a plain spelling first, as its day of the week or its want of marks asks for. */
  readonly worded?: boolean;
}

/** How every stamp of a column is spelt that is written as a program writes it: all parts in full, in the order of ISO 8601. */
export interface SteadyStamp {
  readonly isDated: boolean;
  /** Day of second 0, in days from 1970. */
  readonly base: number;
  /** The offset from UTC that ends each: `Z`, `+02:00` or the like, or nothing. */
  readonly suffix: string;
  /** The same in s. */
  readonly offset: number;
}

const date = [
  String.raw`(?<y>\d{4})[-/.]\d{1,2}[-/.]\d{1,2}`,
  String.raw`(?<a>\d{1,2})[-/.](?<b>\d{1,2})[-/.](?<year>\d{4}|\d{2})`,
  String.raw`(?<whole>\d{8})`,
  String.raw`\d{1,2}[-/. ]\s?(?<month>[A-Za-z]{3,9})\.?[-/. ](?<my>\d{4}|\d{2})`,
].join('|');
const clock = String.raw`(?<hm>\d{1,2}[:.h]\d{2}[:.m]\d{2}s?|(?<=\d[T _])\d{6})(?:[.,:](?<part>\d{1,9}))?`;
const zone = String.raw`\s?(?:Z|UTC|GMT|[+-]\d{2}:?\d{2})?`;
const stamp = new RegExp(`^(?:(?:${date})(?:[T _]|,\\s?|\\s-\\s)\\s?)?${clock}(?:\\s?[AaPp]\\.?[Mm]\\.?)?${zone}$`);
const dateAlone = new RegExp(`^(?:${date})$`);
/** Minutes and seconds; without a fraction also hours and minutes. */
const minutes = /^\d{1,3}:[0-5]\d(?:[.,]\d{1,9})?$/;

/** A date alone has its year in full, so that no version number is taken for one. */
const isDate = (text: string): boolean => {
  const groups: Partial<Record<string, string>> | undefined = dateAlone.exec(text)?.groups;
  return groups !== undefined && (groups.year ?? groups.my ?? '2024').length === 4 && groups.whole === undefined;
};

/** Whether a cell is a clock stamp or a date, in any of the spellings known here. */
export function isStamp(text: string): boolean {
  const plain = text.trim();
  return stamp.test(plain) || minutes.test(plain) || isDate(plain) || plainStamp(plain) !== undefined;
}

/** The form of a column of stamps, from some of its cells; undefined where they are not of one form. */
export function stampForm(cells: readonly string[]): StampForm | undefined {
  const trimmed = cells.map((cell) => cell.trim());
  if (trimmed.length === 0) return undefined;
  const worded = !stamp.test(trimmed[0]) && plainStamp(trimmed[0]) !== undefined;
  const plain = worded ? trimmed.map((cell) => plainStamp(cell) ?? cell) : trimmed;
  if (plain.every((cell) => minutes.test(cell))) {
    return { date: 'none', clock: 'ms', fraction: 'decimal', doubtful: false, named: false };
  }
  const onlyDates = plain.every(isDate);
  const found = plain.flatMap((cell): Groups[] => {
    const groups = (onlyDates ? dateAlone : stamp).exec(cell)?.groups;
    return groups ? [groups] : [];
  });
  const order = found.length === plain.length ? dateOrder(found) : undefined;
  if (order === undefined) return undefined;
  const fraction = onlyDates ? 'decimal' : fractionStyle(found);
  return { ...order, clock: onlyDates ? 'none' : 'hms', fraction, worded };
}

/** Digits after the seconds of a stamp. */
export function fractionDigits(cell: string): number {
  const plain = cell.trim();
  return (stamp.exec(plain)?.groups?.part ?? /^\d{1,3}:\d{2}[.,](\d{1,9})$/.exec(plain)?.[1] ?? '').length;
}

type Groups = Record<string, string | undefined>;

function dateOrder(found: readonly Groups[]): Pick<StampForm, 'date' | 'doubtful' | 'named'> | undefined {
  const kinds = new Set(
    found.map((of) => (of.y ? 'ymd' : of.whole ? 'whole' : of.a ? 'parts' : of.month ? 'named' : 'none')),
  );
  const [only] = kinds;
  if (kinds.size !== 1) return undefined;
  if (only === 'none') return { date: 'none', doubtful: false, named: false };
  if (only === 'named') return { date: 'dmy', doubtful: found.some(({ my }) => my?.length === 2), named: true };
  if (only !== 'parts') return { date: 'ymd', doubtful: false, named: false };
  const firstOver = found.some(({ a }) => Number(a) > 12);
  const secondOver = found.some(({ b }) => Number(b) > 12);
  const short = found.some(({ year }) => year?.length === 2);
  return { date: secondOver ? 'mdy' : 'dmy', doubtful: short || firstOver === secondOver, named: false };
}

/** `.5 .10 .15` are 5, 10, 15 ms where a decimal fraction would run backwards and milliseconds do not. */
function fractionStyle(found: readonly Groups[]): StampForm['fraction'] {
  const texts = found.map(({ part }) => part ?? '');
  const lengths = new Set(texts.map((text) => text.length));
  if (lengths.size < 2 || texts.some((text) => text.length > 3)) return 'decimal';
  const backward = (value: (text: string) => number): number => {
    let count = 0;
    for (let i = 1; i < found.length; i++) {
      if (found[i].hm === found[i - 1].hm && value(texts[i]) < value(texts[i - 1])) count++;
    }
    return count;
  };
  return backward((text) => Number(`0.${text}0`)) > 0 && backward(Number) === 0 ? 'milliseconds' : 'decimal';
}
