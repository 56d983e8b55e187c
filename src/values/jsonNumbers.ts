export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** A number as JSON may hold it: what is not finite is null. */
export const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;

/** Numbers as JSON may hold them. */
export const list = (values: ArrayLike<number>): (number | null)[] => Array.from(values, finite);
